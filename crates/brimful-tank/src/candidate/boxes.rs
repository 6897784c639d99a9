//! The largest upright box in a body.

use brimful_geom::inscribed::{Search, level_box};
use brimful_geom::solid::Solid;

/// A box within 2 % of the largest there can be does as a plain box: sizes are rounded anyway.
const SEARCH: Search = Search {
    gap: 0.02,
    boxes: 300,
    angles: 1,
};

/// The largest box along the axes of the space, with how it lies; none where the search finds none.
pub(super) fn largest_boxes(solid: &Solid) -> Vec<(Solid, String)> {
    let found = level_box(solid, &SEARCH).ok();
    let told = |best: brimful_geom::inscribed::TurnedBox| {
        (best.solid(), "the largest box along the space".to_owned())
    };
    found.map(|found| told(found.best)).into_iter().collect()
}
