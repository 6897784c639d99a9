//! Why there are no modes.

use crate::grid::GridFault;
use std::fmt;

/// Why there are no modes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ModesFault {
    /// There is no grid.
    Grid(GridFault),
    /// The liquid has no surface that could move: it fills its room to the brim, or to a plate that lies on it.
    NoSurface,
    /// The iteration gave up (after so many vectors).
    NotConverged(usize),
    /// A matrix could not be factored: the grid is finer than its numbers can tell apart.
    Singular,
}

impl From<GridFault> for ModesFault {
    fn from(fault: GridFault) -> Self {
        Self::Grid(fault)
    }
}

impl fmt::Display for ModesFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Grid(fault) => write!(f, "{fault}"),
            Self::NoSurface => write!(f, "there is no free surface"),
            Self::NotConverged(vectors) => {
                write!(f, "the modes did not settle within {vectors} vectors")
            }
            Self::Singular => write!(f, "a matrix could not be factored"),
        }
    }
}

impl std::error::Error for ModesFault {}
