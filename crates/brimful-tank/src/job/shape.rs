//! Shapes as a tape gives them: boxes, the outlines of three views, prisms.

use super::place::Place;
use brimful_units::Length;

/// A direction: x along (forward), y to the left, z up.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Axis {
    /// Along; for a moving tank, forward.
    X,
    /// To the left.
    Y,
    /// Up.
    Z,
}

/// A closed outline: its corners in order, the last joined to the first. Not yet checked for
/// crossing itself.
#[derive(Clone, Debug, PartialEq)]
pub struct Outline {
    /// At least three corners.
    pub points: Vec<[Length; 2]>,
    /// Where the outline is written.
    pub place: Place,
}

/// A solid as measured or wished for, its lowest corner of a box at the origin.
#[derive(Clone, Debug, PartialEq)]
pub enum ShapeSpec {
    /// A box from the origin to `size`, every size above zero.
    Box {
        /// Sizes along x, y and z.
        size: [Length; 3],
        /// Where the box is written.
        place: Place,
    },
    /// What the three views have in common; a view that is missing does not limit.
    Outlines {
        /// From above: (x, y).
        plan: Option<Outline>,
        /// From the side: (x, z).
        side: Option<Outline>,
        /// From the front: (y, z).
        front: Option<Outline>,
        /// From z = 0 up; always there for a plan alone.
        height: Option<Length>,
        /// The length along x; always there for a front alone.
        length: Option<Length>,
        /// The width along y; always there for a side alone.
        width: Option<Length>,
    },
}

/// Something that sticks into the space, or is taken off the body.
#[derive(Clone, Debug, PartialEq)]
pub struct Obstacle {
    /// What the shop calls it.
    pub name: String,
    /// Its shape, in the axes of the space (or of the body, for a cut).
    pub shape: ObstacleShape,
    /// Where it is written.
    pub place: Place,
}

/// The shape of an obstacle.
#[derive(Clone, Debug, PartialEq)]
pub enum ObstacleShape {
    /// A box between two corners, each of `from` below its fellow in `to`.
    Box {
        /// The corner lowest in x, y and z.
        from: [Length; 3],
        /// The opposite corner.
        to: [Length; 3],
    },
    /// An outline drawn out along an axis. The outline's points are (y, z) for x, (x, z) for y
    /// and (x, y) for z, as in the three views.
    Prism {
        /// The cross-section.
        outline: Outline,
        /// The direction it is drawn out in.
        along: Axis,
        /// Where it begins.
        from: Length,
        /// Where it ends, above `from`.
        to: Length,
    },
}
