//! `[support]`: what carries the tank.

use super::shape::Axis;
use brimful_units::Length;

/// What carries the tank. Places are in the body's own axes.
#[derive(Clone, Debug, PartialEq)]
pub enum Support {
    /// A flat floor under all of it.
    Floor,
    /// Bearers under the floor.
    Rails {
        /// The direction they run in: x or y.
        along: Axis,
        /// Their middle lines on the other axis; at least two.
        at: Vec<Length>,
        /// Their width.
        width: Length,
    },
    /// Straps round the tank, hung from above.
    Straps {
        /// The axis they stand square to: x or y.
        across: Axis,
        /// Their middle planes on that axis; at least two.
        at: Vec<Length>,
        /// Their width.
        width: Length,
    },
    /// Pads under the floor.
    Feet {
        /// Their middles (x, y); at least three.
        at: Vec<[Length; 2]>,
        /// Their sizes along x and y.
        size: [Length; 2],
    },
}
