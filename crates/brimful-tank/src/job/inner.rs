//! `[[inner]]`: baffles and dividers.

use super::place::Place;
use super::shape::Axis;
use brimful_units::Length;

/// A baffle or divider.
#[derive(Clone, Debug, PartialEq)]
pub struct Inner {
    /// What the shop calls it.
    pub name: String,
    /// Baffle or divider.
    pub kind: InnerKind,
    /// Where it stands.
    pub at: InnerPlace,
    /// Its sheet thickness; none: chosen from the stock.
    pub thickness: Option<Length>,
    /// Left open under the lid; zero for a divider.
    pub air_gap: Length,
    /// Left open above the floor; zero for a divider.
    pub drain_gap: Length,
    /// Round holes; none in a divider.
    pub holes: Vec<Hole>,
    /// How it is joined to the walls.
    pub joint: InnerJoint,
    /// From where to where along the wall it crosses (y for one that stands across x), in the
    /// body's axes; none: from wall to wall.
    pub span: Option<[Length; 2]>,
    /// Where it is written.
    pub place: Place,
}

/// Baffle or divider.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum InnerKind {
    /// With openings; slows the liquid down.
    Baffle,
    /// Without any; keeps two liquids apart.
    Divider,
}

/// Where an inner panel stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum InnerPlace {
    /// Square to an axis, its middle plane at a place in the body's own axes.
    At {
        /// The axis it is square to: x or y.
        across: Axis,
        /// Where its middle plane lies on that axis.
        at: Length,
    },
    /// Where Brimful finds best.
    Auto,
}

/// A round hole in an inner panel.
#[derive(Clone, Debug, PartialEq)]
pub struct Hole {
    /// Its diameter.
    pub diameter: Length,
    /// Its middle, in the body's axes (y, z) or (x, z); none: Brimful places it.
    pub at: Option<[Length; 2]>,
    /// Where it is written.
    pub place: Place,
}

/// How an inner panel is joined to the walls.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum InnerJoint {
    /// Welded against the wall inside.
    Tee,
    /// Tongues through the wall, welded outside.
    SlotThrough,
}
