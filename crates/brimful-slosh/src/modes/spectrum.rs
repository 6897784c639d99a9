//! The lowest modes of a liquid.

use super::fault::ModesFault;
use super::krylov::{BLOCK, Pair, dot, largest};
use super::moved::{Moved, Rigid, moved, rigid};
use super::network::{Network, SurfaceCell};
use crate::cavity::Cavity;
use faer::linalg::solvers::Solve;
use faer::sparse::linalg::solvers::Llt;
use faer::sparse::{SparseColMat, Triplet};
use faer::{Mat, Side};

/// The modes of a liquid, from the lowest on.
#[derive(Clone, Debug, PartialEq)]
pub struct Modes {
    /// The liquid that a surface is joined to, m3; all shares are of it.
    pub volume: f64,
    /// What no surface is joined to, m3.
    pub shut_in: f64,
    /// How many bodies the liquid is in: within one it is joined below the surface.
    pub bodies: usize,
    /// The still surface, piece by piece.
    pub surface: Vec<SurfaceCell>,
    /// The modes that were asked for, from the lowest on; fewer where the grid has fewer.
    pub modes: Vec<Mode>,
    /// What moves as if frozen, along x and along y.
    pub rigid: [Rigid; 2],
    /// The unknowns that were solved for.
    pub unknowns: usize,
}

/// A natural mode.
#[derive(Clone, Debug, PartialEq)]
pub struct Mode {
    /// `omega^2 / g`, 1/m.
    pub eigenvalue: f64,
    /// What it moves along x and along y.
    pub moved: [Moved; 2],
    /// How far the surface is from rest in each of its pieces, the farthest being one.
    pub shape: Vec<f64>,
}

impl Mode {
    /// The frequency under a gravity, m/s2, in Hz.
    pub fn frequency(&self, gravity: f64) -> f64 {
        (self.eigenvalue.max(0.0) * gravity).sqrt() / std::f64::consts::TAU
    }
}

/// Vectors after which the iteration gives up: three times what the most divided of our cavities took.
const MOST_VECTORS: usize = 240;
/// Layers of cells that the shallowest liquid gets: the fewest of which a second grid has one less.
const LAYERS: f64 = 3.0;
/// Eigenvalues nearer to each other than this are one, as a share: they differ by rounding and by residuals.
const SAME: f64 = 1e-6;

/// The `count` lowest modes of the liquid below the height `level`, m, on cells of about `spacing`, m; of shallow liquid in three layers at least.
///
/// # Errors
/// [`ModesFault`].
pub fn modes(cavity: &Cavity, level: f64, spacing: f64, count: usize) -> Result<Modes, ModesFault> {
    modes_on(cavity, level, layered(cavity, level, spacing), count)
}

/// The spacing along each axis that leaves a few layers of cells in shallow liquid.
pub(super) fn layered(cavity: &Cavity, level: f64, spacing: f64) -> [f64; 3] {
    let depth = level - cavity.solid.bounds().0.z;
    [spacing, spacing, spacing.min(depth / LAYERS)]
}

/// As [`modes`], with a spacing of its own along each axis.
pub(super) fn modes_on(
    cavity: &Cavity,
    level: f64,
    spacing: [f64; 3],
    count: usize,
) -> Result<Modes, ModesFault> {
    let network = Network::below(cavity, level, spacing)?;
    let roots: Vec<f64> = network.surface.iter().map(|it| it.area.sqrt()).collect();
    let (low, high) = cavity.solid.bounds();
    // About the lowest eigenvalue of a deep liquid as long as the cavity.
    let shift = 1.0 / (high.x - low.x).max(high.y - low.y);
    let factor = factored(&network, shift)?;
    let operator = |block: &[Vec<f64>]| answers(&network, &roots, &factor, block);
    let constants = constants(&network, &roots);
    let seeds = seeds(&network, &roots);
    let pairs = largest(operator, seeds.to_vec(), &constants, count, MOST_VECTORS)
        .map_err(ModesFault::NotConverged)?;
    let modes = parted(pairs, &seeds)
        .into_iter()
        .map(|pair| mode(&network, &roots, &factor, shift, &pair))
        .collect();
    Ok(Modes {
        volume: network.volume,
        shut_in: network.shut_in,
        bodies: network.bodies,
        modes,
        rigid: rigid(&network),
        unknowns: network.places.len(),
        surface: network.surface,
    })
}

/// `K + s M`, factored.
fn factored(network: &Network, shift: f64) -> Result<Llt<usize, f64>, ModesFault> {
    let size = network.places.len();
    let mut entries = Vec::with_capacity(size + network.links.len());
    let mut diagonal = vec![0.0; size];
    for link in &network.links {
        let [a, b] = link.ends;
        diagonal[a] += link.conductance;
        diagonal[b] += link.conductance;
        entries.push(Triplet::new(a.max(b), a.min(b), -link.conductance));
    }
    for (face, piece) in network.surface.iter().enumerate() {
        diagonal[network.cells + face] += shift * piece.area;
    }
    entries.extend(
        diagonal
            .iter()
            .enumerate()
            .map(|(number, &value)| Triplet::new(number, number, value)),
    );
    let matrix = SparseColMat::<usize, f64>::try_new_from_triplets(size, size, &entries)
        .map_err(|_| ModesFault::Singular)?;
    matrix
        .sp_cholesky(Side::Lower)
        .map_err(|_| ModesFault::Singular)
}

/// `M^1/2 (K + s M)^-1 M^1/2` on vectors over the surface.
fn answers(
    network: &Network,
    roots: &[f64],
    factor: &Llt<usize, f64>,
    block: &[Vec<f64>],
) -> Vec<Vec<f64>> {
    let potentials = potentials(network, roots, factor, block);
    let of = |column: usize| {
        let rows = roots.iter().enumerate();
        rows.map(|(face, root)| root * potentials[(network.cells + face, column)])
            .collect()
    };
    (0..block.len()).map(of).collect()
}

fn potentials(
    network: &Network,
    roots: &[f64],
    factor: &Llt<usize, f64>,
    block: &[Vec<f64>],
) -> Mat<f64> {
    let mut potentials = Mat::<f64>::zeros(network.places.len(), block.len());
    for (column, vector) in block.iter().enumerate() {
        for (face, (root, value)) in roots.iter().zip(vector).enumerate() {
            potentials[(network.cells + face, column)] = root * value;
        }
    }
    factor.solve_in_place(&mut potentials);
    potentials
}

/// The modes of no frequency: each body's surface level, and free to stand at any height.
fn constants(network: &Network, roots: &[f64]) -> Vec<Vec<f64>> {
    let of = |body: usize| {
        let on = |(root, &of): (&f64, &usize)| if of == body { *root } else { 0.0 };
        let mut vector: Vec<f64> = roots
            .iter()
            .zip(&network.body[network.cells..])
            .map(on)
            .collect();
        let length = dot(&vector, &vector).sqrt();
        vector.iter_mut().for_each(|it| *it /= length);
        vector
    };
    (0..network.bodies).map(of).collect()
}

/// Surfaces that lean along x and along y, which hold all modes that a push moves, and one that leans no way.
fn seeds(network: &Network, roots: &[f64]) -> [Vec<f64>; BLOCK] {
    let over = |of: &dyn Fn(usize, [f64; 2]) -> f64| {
        let pieces = network.surface.iter().zip(roots).enumerate();
        pieces
            .map(|(number, (piece, root))| root * of(number, piece.middle))
            .collect()
    };
    // Any fixed sequence without a period does; the golden ratio's multiples have none.
    let scattered = |number: usize, _| (number as f64 * 0.618_033_988_749_895).fract() - 0.5;
    [over(&|_, [x, _]| x), over(&|_, [_, y]| y), over(&scattered)]
}

/// The pairs, those of one value turned among each other so that the first of them moves along x and the next along y.
fn parted(pairs: Vec<Pair>, seeds: &[Vec<f64>; BLOCK]) -> Vec<Pair> {
    let mut parted: Vec<Pair> = Vec::new();
    let mut rest = pairs.as_slice();
    while let Some(first) = rest.first() {
        let same = rest
            .iter()
            .take_while(|it| (it.value / first.value - 1.0).abs() < SAME)
            .count();
        let (one, others) = rest.split_at(same);
        parted.extend(turned(one, seeds));
        rest = others;
    }
    parted
}

fn turned(pairs: &[Pair], seeds: &[Vec<f64>; BLOCK]) -> Vec<Pair> {
    if let [pair] = pairs {
        return vec![pair.clone()];
    }
    let within = |vector: &[f64]| -> Vec<f64> {
        let mut sum = vec![0.0; vector.len()];
        for pair in pairs {
            let share = dot(&pair.vector, vector);
            sum.iter_mut()
                .zip(&pair.vector)
                .for_each(|(s, v)| *s += share * v);
        }
        sum
    };
    let wanted = seeds.iter().map(|it| within(it));
    let own = pairs.iter().map(|it| it.vector.clone());
    let mut turned: Vec<Pair> = Vec::new();
    for mut vector in wanted.chain(own) {
        let before = dot(&vector, &vector).sqrt();
        for other in &turned {
            let share = dot(&vector, &other.vector);
            vector
                .iter_mut()
                .zip(&other.vector)
                .for_each(|(v, o)| *v -= share * o);
        }
        let length = dot(&vector, &vector).sqrt();
        // What is left of one that the others span is rounding.
        if turned.len() < pairs.len() && length > SAME * before.max(f64::MIN_POSITIVE) {
            vector.iter_mut().for_each(|it| *it /= length);
            let value = pairs[turned.len()].value;
            turned.push(Pair { value, vector });
        }
    }
    turned
}

fn mode(
    network: &Network,
    roots: &[f64],
    factor: &Llt<usize, f64>,
    shift: f64,
    pair: &Pair,
) -> Mode {
    let eigenvalue = 1.0 / pair.value - shift;
    let solved = potentials(network, roots, factor, std::slice::from_ref(&pair.vector));
    let shape = |unknown: usize| solved[(unknown, 0)] / pair.value;
    let mut potential: Vec<f64> = (0..network.places.len()).map(shape).collect();
    // The farthest piece rises; of several as far the first.
    let farthest = potential[network.cells..].iter().fold(0.0_f64, |far, &it| {
        if it.abs() > far.abs() * (1.0 + SAME) {
            it
        } else {
            far
        }
    });
    potential.iter_mut().for_each(|it| *it /= farthest);
    Mode {
        eigenvalue,
        moved: moved(network, &potential, eigenvalue),
        shape: potential[network.cells..].to_vec(),
    }
}
