//! The stiffness as a sparse matrix and its factor.

use super::element::{Column, Square};
use super::fault::Fault;
use super::system::{NONE, System, buffer, solver};
use faer::dyn_stack::{MemBuffer, MemStack};
use faer::linalg::cholesky::ldlt::factor::LdltRegularization;
use faer::sparse::linalg::cholesky::supernodal::{
    SupernodalLdltRef, factorize_supernodal_numeric_ldlt, factorize_supernodal_numeric_ldlt_scratch,
};
use faer::sparse::{SparseColMatRef, SymbolicSparseColMatRef};
use faer::{Conj, MatMut, Par};

/// A pivot smaller than this share of its diagonal entry is zero but for rounding.
const LEAST_PIVOT: f64 = 1e-13;
/// A pivot smaller than this share is looked into. Strips fifty triangles long stay above 1e-7,
/// loose parts come out between 1e-11 and 1e-16.
const DOUBTFUL_PIVOT: f64 = 1e-8;
/// Stiffness along the softest motion, as a share of the sum of the diagonal's, that rounding
/// leaves of zero.
const LEAST_STIFFNESS: f64 = 1e-14;

/// Room for the stiffness of a system and its factor, used over and over.
pub struct Workspace {
    /// The stiffness: lower triangle by columns.
    pub(crate) values: Vec<f64>,
    factor: Vec<f64>,
    memory: MemBuffer,
    /// How many factorizations were done.
    pub factorizations: usize,
}

impl Workspace {
    /// Room for `system`.
    ///
    /// # Errors
    /// [`Fault::Solver`] when there is not enough memory.
    pub fn new(system: &System) -> Result<Self, Fault> {
        let factoring = factorize_supernodal_numeric_ldlt_scratch::<u32, f64>(
            &system.symbolic,
            Par::Seq,
            Default::default(),
        );
        Ok(Self {
            values: vec![0.0; system.rows.len()],
            factor: vec![0.0; system.symbolic.len_val()],
            memory: buffer(factoring)?,
            factorizations: 0,
        })
    }

    /// Forgets the stiffness.
    pub(crate) fn clear(&mut self) {
        self.values.fill(0.0);
    }

    /// Adds a triangle's stiffness, in the world's axes.
    #[inline]
    pub(crate) fn add_triangle(
        &mut self,
        system: &System,
        number: usize,
        nodes: [usize; 3],
        stiffness: &Square,
    ) {
        for i in 0..3 {
            let j = (i + 1) % 3;
            self.add_block(system, [nodes[i]; 2], 0, |r, c| {
                stiffness[6 * i + r][6 * i + c]
            });
            self.add_block(
                system,
                [nodes[i], nodes[j]],
                system.triangle_offsets[number][i],
                |r, c| stiffness[6 * i + r][6 * j + c],
            );
        }
    }

    /// Adds to the block of two nodes; `value` is by degree of freedom of the first and of the second.
    #[inline]
    pub(crate) fn add_block(
        &mut self,
        system: &System,
        nodes: [usize; 2],
        offset: u32,
        value: impl Fn(usize, usize) -> f64,
    ) {
        let [a, b] = nodes.map(|n| &system.equations[n]);
        if nodes[0] == nodes[1] {
            self.add_own(system, a, value);
        } else if first(a) < first(b) {
            self.add_below(system, a, b, offset, |r, c| value(c, r));
        } else {
            self.add_below(system, b, a, offset, value);
        }
    }

    #[inline]
    fn add_own(&mut self, system: &System, own: &[u32; 6], value: impl Fn(usize, usize) -> f64) {
        for c in 0..6 {
            let column = own[c];
            if column == NONE {
                continue;
            }
            let start = system.column_starts[column as usize] - column;
            for r in c..6 {
                if own[r] != NONE {
                    self.values[(start + own[r]) as usize] += value(r, c);
                }
            }
        }
    }

    #[inline]
    fn add_below(
        &mut self,
        system: &System,
        earlier: &[u32; 6],
        later: &[u32; 6],
        offset: u32,
        value: impl Fn(usize, usize) -> f64,
    ) {
        let first_row = first(later);
        if first_row == NONE {
            return;
        }
        let past = first(earlier) + earlier.iter().map(|q| u32::from(*q != NONE)).sum::<u32>();
        for c in 0..6 {
            let column = earlier[c];
            if column == NONE {
                continue;
            }
            // Below the own block of the earlier node, which ends with its last equation.
            let start = system.column_starts[column as usize] + (past - column) + offset;
            for r in 0..6 {
                if later[r] != NONE {
                    self.values[(start + later[r] - first_row) as usize] += value(r, c);
                }
            }
        }
    }

    /// Factors the stiffness; gives the number of negative pivots.
    ///
    /// # Errors
    /// [`Fault::Mechanism`] where a pivot is zero.
    pub(crate) fn factorize(&mut self, system: &System) -> Result<usize, Fault> {
        self.factorizations += 1;
        let lower = SparseColMatRef::new(pattern(system), &self.values);
        factorize_supernodal_numeric_ldlt(
            &mut self.factor,
            lower,
            LdltRegularization::default(),
            &system.symbolic,
            Par::Seq,
            MemStack::new(&mut self.memory),
            Default::default(),
        )
        .map_err(|error| {
            let faer::linalg::cholesky::ldlt::factor::LdltError::ZeroPivot { index } = error;
            mechanism(system, index)
        })?;
        self.judge_pivots(system)
    }

    /// Number of negative pivots.
    fn judge_pivots(&mut self, system: &System) -> Result<usize, Fault> {
        let factor = SupernodalLdltRef::new(&system.symbolic, &self.factor);
        let (mut negative, mut least, mut place) = (0, f64::INFINITY, 0);
        for number in 0..system.symbolic.n_supernodes() {
            let supernode = factor.supernode(number);
            let block = supernode.val();
            for j in 0..block.ncols() {
                let equation = supernode.start() + j;
                let pivot = block[(j, j)];
                let share = (pivot / self.values[system.column_starts[equation] as usize]).abs();
                if share.is_nan() || share < LEAST_PIVOT {
                    return Err(mechanism(system, equation));
                }
                if share < least {
                    (least, place) = (share, equation);
                }
                negative += usize::from(pivot < 0.0);
            }
        }
        if least < DOUBTFUL_PIVOT && self.stiffness_along(system, place)? < LEAST_STIFFNESS {
            return Err(mechanism(system, place));
        }
        Ok(negative)
    }

    /// Stiffness along the motion that a force on one unknown makes, as a share of what its
    /// degrees of freedom would have each for itself: nearly that of the softest motion when the pivot of
    /// this unknown is nearly zero.
    fn stiffness_along(&mut self, system: &System, equation: usize) -> Result<f64, Fault> {
        let mut motion = vec![0.0; system.unknowns()];
        motion[equation] = 1.0;
        self.solve(system, &mut motion)?;
        let largest = motion.iter().fold(0.0_f64, |m, v| m.max(v.abs()));
        motion.iter_mut().for_each(|v| *v /= largest);
        let mut force = vec![0.0; motion.len()];
        times(system, &self.values, &motion, &mut force);
        let energy: f64 = motion.iter().zip(&force).map(|(x, f)| x * f).sum();
        let starts = &system.column_starts;
        let apart = motion
            .iter()
            .zip(starts)
            .map(|(x, s)| x * x * self.values[*s as usize].abs());
        Ok(energy.abs() / apart.sum::<f64>())
    }

    /// Solves for as many right-hand sides as there are columns of length `unknowns` in `columns`.
    pub(crate) fn solve(&mut self, system: &System, columns: &mut [f64]) -> Result<(), Fault> {
        let unknowns = system.unknowns();
        if unknowns == 0 {
            return Ok(());
        }
        let count = columns.len() / unknowns;
        let mut memory = buffer(
            system
                .symbolic
                .solve_in_place_scratch::<f64>(count, Par::Seq),
        )?;
        SupernodalLdltRef::new(&system.symbolic, &self.factor).solve_in_place_with_conj(
            Conj::No,
            MatMut::from_column_major_slice_mut(columns, unknowns, count),
            Par::Seq,
            MemStack::new(&mut memory),
        );
        if columns.iter().all(|value| value.is_finite()) {
            Ok(())
        } else {
            Err(solver(&"a result is not a number"))
        }
    }
}

/// Product of a symmetric matrix, kept as the stiffness is, with a column.
pub(crate) fn times(system: &System, values: &[f64], column: &[f64], out: &mut [f64]) {
    out.fill(0.0);
    for (j, &x) in column.iter().enumerate() {
        let range = system.column_starts[j] as usize..system.column_starts[j + 1] as usize;
        let mut own = values[range.start] * x;
        let below = range.start + 1..range.end;
        for (&i, value) in system.rows[below.clone()].iter().zip(&values[below]) {
            own += value * column[i as usize];
            out[i as usize] += value * x;
        }
        out[j] += own;
    }
}

/// Adds an element's nodal forces, in the world's axes, to the forces on all nodes.
pub(crate) fn scatter(nodes: &[usize; 3], forces: &Column, out: &mut [[f64; 6]]) {
    for (corner, &node) in nodes.iter().enumerate() {
        for (o, f) in out[node].iter_mut().zip(&forces[6 * corner..]) {
            *o += f;
        }
    }
}

/// First equation of a node, or [`NONE`].
#[inline]
fn first(equations: &[u32; 6]) -> u32 {
    equations.iter().fold(NONE, |least, q| least.min(*q))
}

fn pattern(system: &System) -> SymbolicSparseColMatRef<'_, u32> {
    let count = system.unknowns();
    SymbolicSparseColMatRef::new_checked(count, count, &system.column_starts, None, &system.rows)
}

fn mechanism(system: &System, equation: usize) -> Fault {
    let (node, dof) = system.owner(equation);
    Fault::Mechanism { node, dof }
}
