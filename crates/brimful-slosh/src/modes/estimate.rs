//! Modes with an error from two grids, and sweeps over levels.

use super::fault::ModesFault;
use super::spectrum::{Modes, layered, modes_on};
use crate::cavity::Cavity;
use rayon::prelude::*;

/// Modes on two grids.
#[derive(Clone, Debug, PartialEq)]
pub struct Estimated {
    /// Those of the finer grid.
    pub modes: Modes,
    /// How far each eigenvalue may be off, as a share of it; of a frequency it is half of that. None where the two
    /// grids do not agree on how many bodies of liquid there are.
    pub errors: Vec<Option<f64>>,
}

/// How much coarser the second grid is.
const COARSER: f64 = 1.5;
/// What the difference of two grids is taken times once it is carried on to a grid without end (P. J. Roache, *Perspective: a method
/// for uniform reporting of grid refinement studies*, J. Fluids Eng. 116 (1994) 405-413: three where there are two
/// grids; from memory).
const SAFETY: f64 = 3.0;

/// The `count` lowest modes on cells of about `spacing`, m, with their errors from a second grid half as coarse again: the scheme is of second
/// order, so that what the two differ by tells what the finer is off by.
///
/// # Errors
/// [`ModesFault`].
pub fn estimated(
    cavity: &Cavity,
    level: f64,
    spacing: f64,
    count: usize,
) -> Result<Estimated, ModesFault> {
    let spacing = layered(cavity, level, spacing);
    let fine = modes_on(cavity, level, spacing, count)?;
    let coarse = modes_on(cavity, level, spacing.map(|it| it * COARSER), count)?;
    let is_alike = fine.bodies == coarse.bodies;
    let errors = fine.modes.iter().enumerate().map(|(number, mode)| {
        // The lowest of one grid tend to the same as the lowest of another, in order.
        let other = coarse.modes.get(number).filter(|_| is_alike)?;
        let apart = (mode.eigenvalue - other.eigenvalue).abs() / mode.eigenvalue;
        Some(SAFETY * apart / (COARSER * COARSER - 1.0))
    });
    Ok(Estimated {
        errors: errors.collect(),
        modes: fine,
    })
}

/// [`estimated`] at each of some levels, on all processors; the figures do not hang on how many those are.
pub fn sweep(
    cavity: &Cavity,
    levels: &[f64],
    spacing: f64,
    count: usize,
) -> Vec<Result<Estimated, ModesFault>> {
    let at = |&level: &f64| estimated(cavity, level, spacing, count);
    levels.par_iter().map(at).collect()
}
