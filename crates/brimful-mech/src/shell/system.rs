//! The unknowns of a shell, their order, and where each entry of the stiffness goes.
//!
//! Made once for a structure; the loads, the stiffnesses and the values at the constraints may change.
//! Nodes are put into the approximate minimum degree order of their graph, the unknowns of a
//! node stand together, and the lower triangle of the stiffness is kept by columns in that order.
//! So the place of every 6 by 6 block follows from one number a pair of nodes.

use super::element::Flat;
use super::fault::Fault;
use super::frame::{Plane, plane};
use super::model::{Dof, Plate, Shell};
use faer::dyn_stack::{MemBuffer, MemStack, StackReq};
use faer::sparse::SymbolicSparseColMatRef;
use faer::sparse::linalg::amd;
use faer::sparse::linalg::cholesky::simplicial::{
    prefactorize_symbolic_cholesky, prefactorize_symbolic_cholesky_scratch,
};
use faer::sparse::linalg::cholesky::supernodal::{
    SymbolicSupernodalCholesky, factorize_supernodal_symbolic_cholesky,
    factorize_supernodal_symbolic_cholesky_scratch,
};
use std::collections::BTreeSet;

/// How many times as large as a plate is thick a shell may be. Bending is softer than stretching by the square of
/// that, and at a million nothing is left of it beside the rounding of a factor.
const THINNEST: f64 = 1e5;

/// Marks a degree of freedom that is not an unknown.
pub(crate) const NONE: u32 = u32::MAX;

/// All six degrees of freedom in order.
pub(crate) const DOFS: [Dof; 6] = [Dof::X, Dof::Y, Dof::Z, Dof::TurnX, Dof::TurnY, Dof::TurnZ];

/// The unknowns of a shell and the pattern of its equations.
#[derive(Debug)]
pub struct System {
    /// Equation of each degree of freedom of each node, or [`NONE`].
    pub(crate) equations: Vec<[u32; 6]>,
    /// Node and degree of freedom of each equation.
    pub(crate) owners: Vec<(u32, u8)>,
    /// Whether anything at all takes part in a degree of freedom.
    pub(crate) attached: Vec<[bool; 6]>,
    /// The triangles in their own planes.
    pub(crate) planes: Vec<Plane>,
    pub(crate) column_starts: Vec<u32>,
    pub(crate) rows: Vec<u32>,
    /// Offset of the block of corners `i`, `i + 1` of each triangle in the columns of the node
    /// that comes first.
    pub(crate) triangle_offsets: Vec<[u32; 3]>,
    /// The same for the ends of each bar.
    pub(crate) bar_offsets: Vec<u32>,
    pub(crate) symbolic: SymbolicSupernodalCholesky<u32>,
}

impl System {
    /// The unknowns of `shell`.
    ///
    /// It serves any other shell with the same nodes, triangles, bars and held degrees of freedom.
    /// Degrees of freedom in which nothing takes part (rotations of a node that only has bars) are left out.
    ///
    /// # Errors
    /// [`Fault::Input`] where a number cannot be meant, [`Fault::Solver`] where the equations are
    /// too many.
    pub fn new(shell: &Shell) -> Result<Self, Fault> {
        check(shell)?;
        let planes = (0..shell.triangles.len())
            .map(|number| plane(shell, number))
            .collect::<Result<Vec<_>, _>>()?;
        let attached = attached(shell);
        let neighbours = neighbours(shell);
        let order = node_order(&neighbours)?;
        let (equations, owners) = number(shell, &attached, &order);
        let pattern = Pattern::new(&neighbours, &order, &equations)?;
        let triangle_offsets = shell
            .triangles
            .iter()
            .map(|t| std::array::from_fn(|i| pattern.offset(t.nodes[i], t.nodes[(i + 1) % 3])))
            .collect();
        let bar_offsets = shell
            .bars
            .iter()
            .map(|b| pattern.offset(b.nodes[0], b.nodes[1]))
            .collect();
        let (column_starts, rows) = pattern.lower(&owners)?;
        let symbolic = analyse(&column_starts, &rows)?;
        Ok(Self {
            equations,
            owners,
            attached,
            planes,
            column_starts,
            rows,
            triangle_offsets,
            bar_offsets,
            symbolic,
        })
    }

    /// Number of unknowns.
    pub fn unknowns(&self) -> usize {
        self.owners.len()
    }

    /// Number of values in the factor.
    pub fn factor_values(&self) -> usize {
        self.symbolic.len_val()
    }

    /// Floating-point operations of one factorization: for every column the square of its length
    /// (G. H. Golub and C. F. Van Loan, *Matrix Computations*, on Cholesky; from memory).
    pub fn factor_work(&self) -> f64 {
        let [begin, end] = [
            self.symbolic.supernode_begin(),
            self.symbolic.supernode_end(),
        ];
        let below = self.symbolic.col_ptr_for_row_idx();
        (0..self.symbolic.n_supernodes())
            .map(|number| {
                let own = (end[number] - begin[number]) as usize;
                let rows = (below[number + 1] - below[number]) as usize;
                (1..=own)
                    .map(|left| ((left + rows) as f64).powi(2))
                    .sum::<f64>()
            })
            .sum()
    }

    /// The triangle `number` in its own axes before anything acts.
    pub(crate) fn flat(&self, number: usize) -> Flat {
        self.planes[number].flat
    }

    /// Node and degree of freedom of an equation.
    pub(crate) fn owner(&self, equation: usize) -> (usize, Dof) {
        let (node, dof) = self.owners[equation];
        (node as usize, DOFS[dof as usize])
    }
}

fn check(shell: &Shell) -> Result<(), Fault> {
    match fault_of_pieces(shell).or_else(|| fault_of_supports(shell)) {
        Some(what) => Err(Fault::Input { what }),
        None => Ok(()),
    }
}

/// What is wrong with nodes, triangles, plates or bars.
fn fault_of_pieces(shell: &Shell) -> Option<String> {
    let count = shell.nodes.len();
    let first = shell.nodes.first()?;
    if let Some(node) = shell
        .nodes
        .iter()
        .position(|p| !(p.x.is_finite() && p.y.is_finite() && p.z.is_finite()))
    {
        return Some(format!(
            "Node {node} has a coordinate that is not a number."
        ));
    }
    for (number, t) in shell.triangles.iter().enumerate() {
        if t.nodes.iter().any(|&n| n >= count) || t.plate >= shell.plates.len() {
            return Some(format!(
                "Triangle {number} names a node or plate that is not there."
            ));
        }
    }
    for (number, p) in shell.plates.iter().enumerate() {
        let positive = p.thickness > 0.0 && p.modulus > 0.0 && p.density >= 0.0;
        let finite = p.thickness.is_finite() && p.modulus.is_finite() && p.density.is_finite();
        if !(positive && finite && p.poisson > -1.0 && p.poisson <= 0.5) {
            return Some(format!(
                "Plate {number} needs a positive thickness and modulus, a density of at least zero and a Poisson's ratio between -1 and 0.5."
            ));
        }
    }
    let reach = shell.nodes.iter().map(|node| node.distance(*first));
    let reach = reach.fold(0.0, f64::max);
    let is_thin = |plate: &Plate| reach > THINNEST * plate.thickness;
    if let Some(number) = shell.plates.iter().position(is_thin) {
        return Some(format!(
            "Plate {number} is too thin for the size of the shell: the equations are ill-conditioned, and a mechanism could not be told from what holds."
        ));
    }
    for (number, b) in shell.bars.iter().enumerate() {
        if b.nodes.iter().any(|&n| n >= count) || b.nodes[0] == b.nodes[1] {
            return Some(format!("Bar {number} does not join two nodes."));
        }
        let [from, to] = b.nodes.map(|n| shell.nodes[n]);
        if !(b.area > 0.0 && b.modulus > 0.0 && b.density >= 0.0) || from.distance(to) <= 0.0 {
            return Some(format!(
                "Bar {number} needs a length, a cross-section and a modulus."
            ));
        }
    }
    None
}

/// What is wrong with what holds the shell.
fn fault_of_supports(shell: &Shell) -> Option<String> {
    let count = shell.nodes.len();
    if let Some(constraint) = shell
        .constraints
        .iter()
        .find(|h| h.node >= count || !h.value.is_finite())
    {
        return Some(format!(
            "A constraint names node {} or a value that is not there.",
            constraint.node
        ));
    }
    for (number, s) in shell.springs.iter().enumerate() {
        if s.node >= count || !(s.stiffness >= 0.0 && s.stiffness.is_finite()) {
            return Some(format!("Spring {number} needs a node and a stiffness."));
        }
    }
    for (number, c) in shell.contacts.iter().enumerate() {
        if c.node >= count || !(c.stiffness > 0.0 && c.stiffness.is_finite()) || !c.gap.is_finite()
        {
            return Some(format!(
                "Contact {number} needs a node, a gap and a stiffness."
            ));
        }
    }
    None
}

fn attached(shell: &Shell) -> Vec<[bool; 6]> {
    let mut out = vec![[false; 6]; shell.nodes.len()];
    for node in shell.triangles.iter().flat_map(|t| t.nodes) {
        out[node] = [true; 6];
    }
    let bars = shell.bars.iter().flat_map(|b| b.nodes);
    let springs = shell.springs.iter().map(|s| s.node);
    for node in bars
        .chain(springs)
        .chain(shell.contacts.iter().map(|c| c.node))
    {
        out[node][..3].fill(true);
    }
    out
}

fn neighbours(shell: &Shell) -> Vec<Vec<u32>> {
    let mut out = vec![Vec::new(); shell.nodes.len()];
    let mut join = |a: usize, b: usize| {
        out[a].push(b as u32);
        out[b].push(a as u32);
    };
    for t in &shell.triangles {
        for i in 0..3 {
            join(t.nodes[i], t.nodes[(i + 1) % 3]);
        }
    }
    for b in &shell.bars {
        join(b.nodes[0], b.nodes[1]);
    }
    for list in &mut out {
        list.sort_unstable();
        list.dedup();
    }
    out
}

/// The nodes in the order of elimination.
fn node_order(neighbours: &[Vec<u32>]) -> Result<Vec<u32>, Fault> {
    let count = neighbours.len();
    let mut starts = vec![0_u32];
    let mut rows = Vec::new();
    for (node, list) in neighbours.iter().enumerate() {
        rows.extend(list.iter().filter(|&&other| (other as usize) < node));
        rows.push(node as u32);
        starts.push(rows.len() as u32);
    }
    let (mut order, mut inverse) = (vec![0_u32; count], vec![0_u32; count]);
    let mut memory = buffer(amd::order_scratch::<u32>(count, rows.len()))?;
    amd::order(
        &mut order,
        &mut inverse,
        SymbolicSparseColMatRef::new_checked(count, count, &starts, None, &rows),
        amd::Control::default(),
        MemStack::new(&mut memory),
    )
    .map_err(|error| solver(&error))?;
    Ok(order)
}

/// Equation of each degree of freedom and owner of each equation.
fn number(shell: &Shell, attached: &[[bool; 6]], order: &[u32]) -> (Vec<[u32; 6]>, Vec<(u32, u8)>) {
    let held: BTreeSet<(usize, usize)> = shell
        .constraints
        .iter()
        .map(|h| (h.node, h.dof as usize))
        .collect();
    let mut equations = vec![[NONE; 6]; shell.nodes.len()];
    let mut owners = Vec::new();
    for &node in order {
        for dof in 0..6 {
            if attached[node as usize][dof] && !held.contains(&(node as usize, dof)) {
                equations[node as usize][dof] = owners.len() as u32;
                owners.push((node, dof as u8));
            }
        }
    }
    (equations, owners)
}

/// Which nodes follow which, and where their blocks lie.
struct Pattern {
    rank: Vec<u32>,
    /// For each node those later in the order that it is joined to, in order, each with the
    /// offset of its rows.
    later: Vec<Vec<(u32, u32)>>,
    /// First equation and number of equations of each node.
    own: Vec<(u32, u32)>,
}

impl Pattern {
    fn new(neighbours: &[Vec<u32>], order: &[u32], equations: &[[u32; 6]]) -> Result<Self, Fault> {
        let mut rank = vec![0_u32; order.len()];
        for (position, &node) in order.iter().enumerate() {
            rank[node as usize] = position as u32;
        }
        let own: Vec<(u32, u32)> = equations
            .iter()
            .map(|e| {
                let free = e.iter().filter(|&&q| q != NONE);
                (
                    free.clone().copied().min().unwrap_or(0),
                    free.count() as u32,
                )
            })
            .collect();
        let later = neighbours
            .iter()
            .enumerate()
            .map(|(node, list)| {
                let mut after: Vec<(u32, u32)> = list
                    .iter()
                    .filter(|&&other| rank[other as usize] > rank[node])
                    .map(|&other| (rank[other as usize], other))
                    .collect();
                after.sort_unstable();
                let mut offset = 0;
                after
                    .into_iter()
                    .map(|(_, other)| {
                        let place = (other, offset);
                        offset += own[other as usize].1;
                        place
                    })
                    .collect()
            })
            .collect();
        Ok(Self { rank, later, own })
    }

    /// Offset of the block of two joined nodes below the own block of the earlier.
    fn offset(&self, a: usize, b: usize) -> u32 {
        let (first, second) = if self.rank[a] < self.rank[b] {
            (a, b)
        } else {
            (b, a)
        };
        self.later[first]
            .iter()
            .find(|(other, _)| *other as usize == second)
            .map_or(0, |(_, offset)| *offset)
    }

    /// The lower triangle by columns.
    fn lower(&self, owners: &[(u32, u8)]) -> Result<(Vec<u32>, Vec<u32>), Fault> {
        let mut starts = Vec::with_capacity(owners.len() + 1);
        starts.push(0);
        let mut rows: Vec<u32> = Vec::new();
        for (equation, (node, _)) in owners.iter().enumerate() {
            let (first, count) = self.own[*node as usize];
            rows.extend(equation as u32..first + count);
            for (other, _) in &self.later[*node as usize] {
                let (first, count) = self.own[*other as usize];
                rows.extend(first..first + count);
            }
            starts.push(u32::try_from(rows.len()).map_err(|error| solver(&error))?);
        }
        Ok((starts, rows))
    }
}

fn analyse(column_starts: &[u32], rows: &[u32]) -> Result<SymbolicSupernodalCholesky<u32>, Fault> {
    let count = column_starts.len() - 1;
    let (starts, columns) = transposed(column_starts, rows);
    let upper = SymbolicSparseColMatRef::new_checked(count, count, &starts, None, &columns);
    let mut memory = buffer(StackReq::any_of(&[
        prefactorize_symbolic_cholesky_scratch::<u32>(count, rows.len()),
        factorize_supernodal_symbolic_cholesky_scratch::<u32>(count),
    ]))?;
    let stack = MemStack::new(&mut memory);
    let (mut tree, mut counts) = (vec![0_i32; count], vec![0_u32; count]);
    let tree = prefactorize_symbolic_cholesky(&mut tree, &mut counts, upper, stack);
    factorize_supernodal_symbolic_cholesky(upper, tree, &counts, stack, Default::default())
        .map_err(|error| solver(&error))
}

/// The pattern by rows of one that is given by columns.
fn transposed(column_starts: &[u32], rows: &[u32]) -> (Vec<u32>, Vec<u32>) {
    let count = column_starts.len() - 1;
    let mut starts = vec![0_u32; count + 1];
    for &row in rows {
        starts[row as usize + 1] += 1;
    }
    for i in 0..count {
        starts[i + 1] += starts[i];
    }
    let mut next = starts.clone();
    let mut columns = vec![0_u32; rows.len()];
    for column in 0..count {
        for &row in &rows[column_starts[column] as usize..column_starts[column + 1] as usize] {
            columns[next[row as usize] as usize] = column as u32;
            next[row as usize] += 1;
        }
    }
    (starts, columns)
}

/// Memory of this size.
pub(crate) fn buffer(size: StackReq) -> Result<MemBuffer, Fault> {
    MemBuffer::try_new(size).map_err(|_| Fault::Solver {
        what: "there is not enough memory".into(),
    })
}

/// The solver's own words as a fault.
pub(crate) fn solver(error: &dyn std::fmt::Display) -> Fault {
    Fault::Solver {
        what: error.to_string(),
    }
}
