//! What a writer refuses.

use std::fmt;

/// Why a file could not be written. Every case is a fault of the data handed over.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum FormatError {
    /// A number is not finite, or too large to be written with all its digits.
    Number {
        /// What the number belongs to.
        place: String,
    },
    /// A drawing uses a layer that it does not declare.
    UnknownLayer {
        /// The layer's name.
        layer: String,
    },
    /// An outline has too few corners to enclose anything.
    TooFewCorners {
        /// What the outline belongs to.
        place: String,
        /// How many it has.
        corners: usize,
    },
    /// The faces of a solid do not close: an edge lacks its second face, or has too many.
    NotClosed {
        /// The solid's name.
        solid: String,
        /// Positions of the ends of the edge among the solid's vertices.
        edge: (usize, usize),
    },
    /// A face or a hole refers to something that the solid does not have, or that has no extent.
    BadReference {
        /// The solid's name.
        solid: String,
        /// What is wrong, as a clause.
        what: String,
    },
    /// A row of a table has not one cell a column.
    RowLength {
        /// The row, from 1, without the header.
        row: usize,
        /// Columns in the header.
        columns: usize,
        /// Cells in the row.
        cells: usize,
    },
    /// The file would be larger than its format can say.
    TooLarge {
        /// Which format.
        format: &'static str,
    },
}

impl fmt::Display for FormatError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Number { place } => {
                write!(
                    f,
                    "{place} has a number that is not finite or beyond {LARGEST:e}; work it out again."
                )
            }
            Self::UnknownLayer { layer } => {
                write!(
                    f,
                    "The drawing uses layer {layer:?} without declaring it; declare it first."
                )
            }
            Self::TooFewCorners { place, corners } => {
                write!(
                    f,
                    "{place} has {corners} corners and encloses nothing; give it at least three."
                )
            }
            Self::NotClosed {
                solid,
                edge: (a, b),
            } => write!(
                f,
                "Solid {solid:?} is not closed: the edge between its vertices {a} and {b} must be walked \
                 once each way by the loops of its faces. Give each face all its loops, counterclockwise from outside."
            ),
            Self::BadReference { solid, what } => {
                write!(f, "Solid {solid:?} cannot be written because {what}.")
            }
            Self::RowLength {
                row,
                columns,
                cells,
            } => {
                write!(
                    f,
                    "Row {row} of the table has {cells} cells for {columns} columns; give one a column."
                )
            }
            Self::TooLarge { format } => {
                write!(
                    f,
                    "The model does not fit into one {format} file (4 GiB); write fewer parts."
                )
            }
        }
    }
}

impl std::error::Error for FormatError {}

/// The largest number written. Beyond it a double no longer holds nine decimals' worth of
/// anything that is made in a workshop, and readers differ.
pub(crate) const LARGEST: f64 = 1e12;
