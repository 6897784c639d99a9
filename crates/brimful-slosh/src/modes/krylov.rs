//! The largest eigenvalues of a symmetric operator, by a block of Krylov vectors that are all kept orthogonal.
//!
//! A block finds eigenvalues that are double, as those of a square surface, which a single vector would find by rounding alone (B. N. Parlett,
//! *The Symmetric Eigenvalue Problem*, chapter 13; from memory). All sums run in a fixed order, so that the same input
//! gives the same bytes.

use faer::{Mat, Side};

/// A pair that has settled.
#[derive(Clone, Debug)]
pub(super) struct Pair {
    pub value: f64,
    /// Of length one.
    pub vector: Vec<f64>,
}

/// Residual, as a share of the value, at which a pair has settled: the value's error is of the order of its square.
const SETTLED: f64 = 1e-7;
/// A vector that is shorter than this once the others are taken out of it is one of them but for rounding.
const DEPENDENT: f64 = 1e-9;

/// The `count` largest eigenvalues of `operator`, which takes and gives vectors a column each, in the space square to the orthonormal vectors
/// `without`, starting from `seeds`; fewer where the space has fewer.
///
/// # Errors
/// How many vectors were tried, where they do not settle.
pub(super) fn largest(
    operator: impl Fn(&[Vec<f64>]) -> Vec<Vec<f64>>,
    seeds: Vec<Vec<f64>>,
    without: &[Vec<f64>],
    count: usize,
    most: usize,
) -> Result<Vec<Pair>, usize> {
    let mut basis: Vec<Vec<f64>> = Vec::new();
    let mut images: Vec<Vec<f64>> = Vec::new();
    let mut projected: Vec<Vec<f64>> = Vec::new();
    let mut block = orthogonal(seeds, without, &basis);
    loop {
        let new = operator(&block);
        for (vector, image) in block.into_iter().zip(new) {
            basis.push(vector);
            projected.push(basis.iter().map(|it| dot(it, &image)).collect());
            images.push(image);
        }
        let next: Vec<_> = images[images.len().saturating_sub(BLOCK)..].to_vec();
        block = orthogonal(next, without, &basis);
        let is_all = block.is_empty();
        if is_all || basis.len() >= count {
            let pairs = settled(&basis, &images, &projected, count, is_all);
            if pairs.len() == count.min(basis.len()) {
                return Ok(pairs);
            }
        }
        if is_all || basis.len() >= most {
            return Err(basis.len());
        }
    }
}

/// Vectors a step.
pub(super) const BLOCK: usize = 3;

/// What is new in some vectors, orthonormal.
fn orthogonal(vectors: Vec<Vec<f64>>, without: &[Vec<f64>], basis: &[Vec<f64>]) -> Vec<Vec<f64>> {
    let mut new: Vec<Vec<f64>> = Vec::new();
    for mut vector in vectors {
        if !scale(&mut vector, 0.0) {
            continue;
        }
        // Twice is enough (Parlett, section 6.9).
        let mut is_new = true;
        for _ in 0..2 {
            for other in without.iter().chain(basis).chain(&new) {
                let share = dot(&vector, other);
                vector
                    .iter_mut()
                    .zip(other)
                    .for_each(|(v, o)| *v -= share * o);
            }
            is_new = is_new && scale(&mut vector, DEPENDENT);
        }
        if is_new {
            new.push(vector);
        }
    }
    new
}

/// Makes a vector of length one; not where it is no longer than `least`.
fn scale(vector: &mut [f64], least: f64) -> bool {
    let length = dot(vector, vector).sqrt();
    let is_long = length > least;
    if is_long {
        vector.iter_mut().for_each(|it| *it /= length);
    }
    is_long
}

/// The pairs of the projected operator from the largest on, up to the first that has not settled.
fn settled(
    basis: &[Vec<f64>],
    images: &[Vec<f64>],
    projected: &[Vec<f64>],
    count: usize,
    is_all: bool,
) -> Vec<Pair> {
    let size = basis.len();
    let matrix = Mat::<f64>::from_fn(size, size, |i, j| projected[i.max(j)][i.min(j)]);
    let Ok(found) = matrix.self_adjoint_eigen(Side::Lower) else {
        return Vec::new();
    };
    let pair = |number: usize| {
        let value = found.S().column_vector()[number];
        let mix = |of: &[Vec<f64>]| {
            let mut sum = vec![0.0; basis[0].len()];
            for (row, vector) in of.iter().enumerate() {
                let share = found.U()[(row, number)];
                sum.iter_mut()
                    .zip(vector)
                    .for_each(|(s, v)| *s += share * v);
            }
            sum
        };
        let (vector, image) = (mix(basis), mix(images));
        let residual: f64 = image
            .iter()
            .zip(&vector)
            .map(|(i, v)| (i - value * v).powi(2))
            .sum();
        let is_settled = is_all || residual.sqrt() < SETTLED * value.abs();
        is_settled.then_some(Pair { value, vector })
    };
    (0..size).rev().take(count).map_while(pair).collect()
}

pub(super) fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}
