//! Why there is no grid.

use std::fmt;

/// Why there is no grid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum GridFault {
    /// The spacing is not a length above zero, or there is nothing between the walls, or nothing below the surface.
    Nothing,
    /// A coordinate is not a number.
    NotFinite,
    /// A plate is square to no axis of the grid (its number).
    Oblique(usize),
    /// So many cells would not fit into memory.
    TooManyCells(f64),
}

impl fmt::Display for GridFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Nothing => write!(f, "there is nothing to lay a grid into"),
            Self::NotFinite => write!(f, "a coordinate is not a finite number"),
            Self::Oblique(plate) => write!(f, "plate {plate} is square to no axis of the grid"),
            Self::TooManyCells(cells) => write!(f, "a grid of {cells:.0} cells is too large"),
        }
    }
}

impl std::error::Error for GridFault {}
