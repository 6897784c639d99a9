//! The opening and the free ground before it.

use crate::boolean::{BooleanFault, union};
use crate::frame::Frame;
use crate::polygon::Outline;
use crate::solid::Solid;
use crate::vector::Vec2;

/// A rectangular opening: `frame` has its origin in the middle, x along the width, y along the
/// height and z into the space.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Opening {
    /// Where it is.
    pub frame: Frame,
    /// Along x, metres.
    pub width: f64,
    /// Along y, metres.
    pub height: f64,
    /// How far in along z the space begins all over the opening, metres.
    pub depth: f64,
}

/// Thickness of the wall the opening is in, metres: about a sheet of ply or a door frame's rebate.
pub(super) const WALL: f64 = 0.02;

/// How far two parts reach into each other, so that they are one solid, metres: far over rounding,
/// far under what is measured.
const OVERLAP: f64 = 1e-6;

/// The space with its opening and free ground before it, `reach` to all sides and away from it.
///
/// # Errors
/// A [`BooleanFault`], where the union cannot be made.
pub fn room_with_approach(
    space: &Solid,
    opening: &Opening,
    reach: f64,
) -> Result<Solid, BooleanFault> {
    let centred = |w: f64, h: f64| {
        let shift = Vec2::new(w / 2.0, h / 2.0);
        let corners = Outline::rectangle(w, h).0;
        Outline(corners.into_iter().map(|p| p - shift).collect())
    };
    let hole = Solid::prism(
        &centred(opening.width, opening.height),
        &opening.frame,
        -WALL - OVERLAP,
        opening.depth + OVERLAP,
    );
    let before = Solid::prism(
        &centred(2.0 * reach, 2.0 * reach),
        &opening.frame,
        -WALL - reach,
        -WALL,
    );
    union(&[space, &hole, &before])
}
