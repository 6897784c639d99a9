//! Lowest modes: free vibration and linear buckling by one subspace iteration.
//!
//! Both are `K x = lambda B x` with `K` factored: iterate `x <- K^-1 B x` on a block and let the
//! stationary values in the block decide (Bathe, *Finite Element Procedures*, section 11.6).

use super::corotation::square_to_world;
use super::element::geometric_stiffness;
use super::factor::{Workspace, times};
use super::fault::Fault;
use super::linear::assemble;
use super::loading::masses;
use super::model::{Load, Shell};
use super::small::row;
use super::state::State;
use super::support::add_direction;
use super::system::{NONE, System};
use faer::{Mat, Side};

/// Change of an eigenvalue from one iteration to the next, as a share, at which it has settled;
/// its error is of the order of the square of its vector's.
const SETTLED: f64 = 1e-9;
/// Residual `|K x - lambda B x| / |K x|` that a settled vector must have.
const RESIDUAL: f64 = 1e-3;
/// Iterations before giving up.
const ITERATIONS: usize = 200;

/// A mode.
#[derive(Clone, Debug, PartialEq)]
pub struct Mode {
    /// Vibration: square of the circular frequency, (rad/s)^2. Buckling: factor on the load.
    pub value: f64,
    /// Displacements and turns, the largest displacement being one.
    pub shape: Vec<[f64; 6]>,
    /// `|K x - lambda B x| / |K x|`.
    pub residual: f64,
}

/// The lowest `count` modes of free vibration.
///
/// With `shift`, (rad/s)^2, that much is added to the squared frequencies while they are sought;
/// a shell that is not held needs it, of the order of the lowest wanted value. Contacts are taken
/// as open.
///
/// # Errors
/// [`Fault::Mechanism`], [`Fault::ModesNotConverged`], [`Fault::Input`].
pub fn vibration(
    shell: &Shell,
    system: &System,
    workspace: &mut Workspace,
    count: usize,
    shift: f64,
) -> Result<Vec<Mode>, Fault> {
    assemble(shell, system, workspace);
    let nodal = masses(shell, system);
    let mass: Vec<f64> = system
        .owners
        .iter()
        .map(|&(node, dof)| {
            let (translation, rotation) = nodal[node as usize];
            if dof < 3 { translation } else { rotation }
        })
        .collect();
    if !mass.iter().any(|m| *m > 0.0) {
        return Err(Fault::Input {
            what: "A shell without mass does not vibrate.".into(),
        });
    }
    let stiffness = workspace.values.clone();
    for (equation, m) in mass.iter().enumerate() {
        workspace.values[system.column_starts[equation] as usize] += shift * m;
    }
    workspace.factorize(system)?;
    let shifted = std::mem::replace(&mut workspace.values, stiffness);
    let product = |x: &[f64], out: &mut [f64]| {
        for ((o, m), v) in out.iter_mut().zip(&mass).zip(x) {
            *o = m * v;
        }
    };
    let mut modes = lowest(shell, system, workspace, &shifted, product, count)?;
    for mode in &mut modes {
        mode.value -= shift;
    }
    Ok(modes)
}

/// The lowest `count` positive factors on a load, whose linear answer is `state`, at which the
/// shell may buckle. Contacts that push in `state` are taken to stay closed.
///
/// # Errors
/// [`Fault::Mechanism`], [`Fault::ModesNotConverged`] (also when there are fewer such factors).
pub fn buckling(
    shell: &Shell,
    system: &System,
    workspace: &mut Workspace,
    load: &Load,
    state: &State,
    count: usize,
) -> Result<Vec<Mode>, Fault> {
    let softening = softening(shell, system, workspace, load, state)?;
    assemble_closed(shell, system, workspace, state);
    workspace.factorize(system)?;
    let stiffness = workspace.values.clone();
    let product = |x: &[f64], out: &mut [f64]| times(system, &softening, x, out);
    lowest(shell, system, workspace, &stiffness, product, count)
}

/// How many buckling factors on a load, whose answer is `state`, lie below `factor`: by Sylvester's law
/// of inertia as many as `K - factor B` has negative pivots (Bathe, *Finite Element Procedures*, section
/// 11.6.4), at the price of one factorization. The shell is taken in the shape before the load, its membrane
/// forces from `state`; contacts as in [`buckling`].
///
/// # Errors
/// [`Fault::Mechanism`], [`Fault::Input`].
pub fn buckling_factors_below(
    factor: f64,
    shell: &Shell,
    system: &System,
    workspace: &mut Workspace,
    load: &Load,
    state: &State,
) -> Result<usize, Fault> {
    let softening = softening(shell, system, workspace, load, state)?;
    assemble_closed(shell, system, workspace, state);
    for (stiffness, softening) in workspace.values.iter_mut().zip(&softening) {
        *stiffness -= factor * softening;
    }
    workspace.factorize(system)
}

/// What the membrane forces of a state take off the stiffness, `-K_G`.
fn softening(
    shell: &Shell,
    system: &System,
    workspace: &mut Workspace,
    load: &Load,
    state: &State,
) -> Result<Vec<f64>, Fault> {
    let resultants = super::recover::resultants(shell, system, load, state)?;
    workspace.clear();
    for (number, triangle) in shell.triangles.iter().enumerate() {
        let corners = &resultants[number];
        let mean: [f64; 3] =
            std::array::from_fn(|k| corners.iter().map(|c| c.force[k]).sum::<f64>() / 3.0);
        let mut own = geometric_stiffness(&system.flat(number), &mean);
        own.iter_mut().flatten().for_each(|v| *v = -*v);
        let own = square_to_world(&system.planes[number].axes, &own);
        workspace.add_triangle(system, number, triangle.nodes, &own);
    }
    Ok(workspace.values.clone())
}

/// The stiffness before the load, with the contacts that push in `state` closed.
fn assemble_closed(shell: &Shell, system: &System, workspace: &mut Workspace, state: &State) {
    assemble(shell, system, workspace);
    for (contact, force) in shell.contacts.iter().zip(&state.contact_forces) {
        if *force > 0.0 {
            add_direction(
                workspace,
                system,
                contact.node,
                row(contact.push),
                contact.stiffness,
            );
        }
    }
}

/// The lowest positive `lambda` of `K x = lambda B x`.
fn lowest(
    shell: &Shell,
    system: &System,
    workspace: &mut Workspace,
    stiffness: &[f64],
    product: impl Fn(&[f64], &mut [f64]),
    count: usize,
) -> Result<Vec<Mode>, Fault> {
    let unknowns = system.unknowns();
    let block = (2 * count).max(count + 8).min(unknowns);
    if count == 0 || count > block {
        return Err(Fault::ModesNotConverged {
            asked: count,
            settled: 0,
        });
    }
    let mut vectors = starts(unknowns, block);
    let mut values: Vec<f64> = Vec::new();
    let mut settled = 0;
    for _ in 0..ITERATIONS {
        let mut images = vec![0.0; unknowns * block];
        for (x, out) in vectors.chunks(unknowns).zip(images.chunks_mut(unknowns)) {
            product(x, out);
        }
        let right = images.clone();
        workspace.solve(system, &mut images)?;
        let (next, ritz) = stationary(&images, &right, &product, unknowns, block)?;
        vectors = next;
        settled = ritz
            .iter()
            .zip(&values)
            .take(count)
            .take_while(|(new, old)| **new > 0.0 && (*new - *old).abs() <= SETTLED * new.abs())
            .count();
        values = ritz;
        if settled >= count {
            break;
        }
    }
    let modes: Vec<Mode> = values
        .iter()
        .zip(vectors.chunks(unknowns))
        .take(settled)
        .map(|(value, x)| {
            let (mut kx, mut bx) = (vec![0.0; unknowns], vec![0.0; unknowns]);
            times(system, stiffness, x, &mut kx);
            product(x, &mut bx);
            let rest: Vec<f64> = kx.iter().zip(&bx).map(|(k, b)| k - b / value).collect();
            Mode {
                value: 1.0 / value,
                shape: shape(shell, system, x),
                residual: norm(&rest) / norm(&kx),
            }
        })
        .take_while(|mode| mode.residual <= RESIDUAL)
        .collect();
    if modes.len() < count {
        return Err(Fault::ModesNotConverged {
            asked: count,
            settled: modes.len(),
        });
    }
    Ok(modes)
}

/// Stationary vectors in the block `images = K^-1 right`, with the values of `1 / lambda`, the
/// largest first.
fn stationary(
    images: &[f64],
    right: &[f64],
    product: &impl Fn(&[f64], &mut [f64]),
    unknowns: usize,
    block: usize,
) -> Result<(Vec<f64>, Vec<f64>), Fault> {
    let (stiff, other, sizes) = projected(images, right, product, unknowns, block);
    // Through the eigenvectors of the small stiffness, leaving out directions that have become
    // the same: an indefinite or singular block is then no hindrance.
    let basis = eigen(&stiff)?;
    let largest = basis.0.iter().fold(0.0_f64, |m, v| m.max(*v));
    let kept: Vec<usize> = (0..block)
        .filter(|i| basis.0[*i] > 1e-13 * largest)
        .collect();
    let reduce = Mat::from_fn(block, kept.len(), |i, j| {
        basis.1[(i, kept[j])] / basis.0[kept[j]].sqrt()
    });
    let mut small = reduce.transpose() * &other * &reduce;
    symmetric(&mut small);
    let (values, turned) = eigen(&small)?;
    let combine = &reduce * &turned;
    let mut order: Vec<usize> = (0..kept.len()).collect();
    order.sort_by(|a, b| values[*b].total_cmp(&values[*a]));
    let mut out = vec![0.0; unknowns * block];
    for (place, &from) in order.iter().enumerate() {
        let target = &mut out[place * unknowns..(place + 1) * unknowns];
        for i in 0..block {
            let factor = combine[(i, from)] / sizes[i];
            for (t, x) in target
                .iter_mut()
                .zip(&images[i * unknowns..(i + 1) * unknowns])
            {
                *t += factor * x;
            }
        }
    }
    for place in order.len()..block {
        let own = place * unknowns..(place + 1) * unknowns;
        out[own.clone()].copy_from_slice(&starts(unknowns, block)[own]);
    }
    Ok((out, order.iter().map(|i| values[*i]).collect()))
}

/// Stiffness and the other matrix in the block, brought to vectors of one size, and their sizes.
fn projected(
    images: &[f64],
    right: &[f64],
    product: &impl Fn(&[f64], &mut [f64]),
    unknowns: usize,
    block: usize,
) -> (Mat<f64>, Mat<f64>, Vec<f64>) {
    let mut stiff = Mat::<f64>::zeros(block, block);
    let mut other = Mat::<f64>::zeros(block, block);
    let mut image = vec![0.0; unknowns];
    for j in 0..block {
        product(&images[j * unknowns..(j + 1) * unknowns], &mut image);
        for i in 0..block {
            let x = &images[i * unknowns..(i + 1) * unknowns];
            stiff[(i, j)] = inner(x, &right[j * unknowns..(j + 1) * unknowns]);
            other[(i, j)] = inner(x, &image);
        }
    }
    symmetric(&mut stiff);
    symmetric(&mut other);
    // Vectors of very different size would spoil the reduction: bring them to the same.
    let sizes: Vec<f64> = (0..block)
        .map(|i| stiff[(i, i)].abs().sqrt().max(f64::MIN_POSITIVE))
        .collect();
    for i in 0..block {
        for j in 0..block {
            stiff[(i, j)] /= sizes[i] * sizes[j];
            other[(i, j)] /= sizes[i] * sizes[j];
        }
    }
    (stiff, other, sizes)
}

fn eigen(matrix: &Mat<f64>) -> Result<(Vec<f64>, Mat<f64>), Fault> {
    let found = matrix
        .self_adjoint_eigen(Side::Lower)
        .map_err(|_| Fault::Solver {
            what: "a small eigenvalue problem did not converge".into(),
        })?;
    let values = found.S().column_vector().iter().copied().collect();
    Ok((values, found.U().to_owned()))
}

fn symmetric(matrix: &mut Mat<f64>) {
    for i in 0..matrix.nrows() {
        for j in 0..i {
            let mean = 0.5 * (matrix[(i, j)] + matrix[(j, i)]);
            matrix[(i, j)] = mean;
            matrix[(j, i)] = mean;
        }
    }
}

/// Start vectors that hold some of every mode, the same at every run: a linear congruential
/// sequence (Knuth).
fn starts(unknowns: usize, block: usize) -> Vec<f64> {
    let mut state = 0x9e37_79b9_7f4a_7c15_u64;
    (0..unknowns * block)
        .map(|_| {
            state = state
                .wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1_442_695_040_888_963_407);
            (state >> 11) as f64 / (1_u64 << 53) as f64 - 0.5
        })
        .collect()
}

fn shape(shell: &Shell, system: &System, x: &[f64]) -> Vec<[f64; 6]> {
    let mut out = vec![[0.0; 6]; shell.nodes.len()];
    for (six, equations) in out.iter_mut().zip(&system.equations) {
        for (value, &equation) in six.iter_mut().zip(equations) {
            if equation != NONE {
                *value = x[equation as usize];
            }
        }
    }
    let largest = out
        .iter()
        .flat_map(|d| &d[..3])
        .fold(0.0_f64, |m, v| if v.abs() > m.abs() { *v } else { m });
    if largest != 0.0 {
        out.iter_mut().flatten().for_each(|v| *v /= largest);
    }
    out
}

fn inner(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(x, y)| x * y).sum()
}

fn norm(a: &[f64]) -> f64 {
    inner(a, a).sqrt()
}
