//! The largest upright box in a body.

use brimful_geom::solid::Solid;

/// The largest boxes, with how each lies.
pub(super) fn largest_boxes(_solid: &Solid) -> Vec<(Solid, String)> {
    Vec::new()
}
