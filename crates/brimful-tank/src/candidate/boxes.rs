//! The largest boxes in a body: along the axes of the space and, where its sides run slantwise in
//! plan, turned about the vertical.

use brimful_geom::inscribed::{Inscribed, Search, TurnedBox, level_box, upright_box};
use brimful_geom::solid::Solid;

/// A box within 2 % of the largest there can be does as a plain box: sizes are rounded anyway.
const SEARCH: Search = Search {
    gap: 0.02,
    boxes: 300,
    angles: 1,
};
/// Angles are many and each search stops early where it cannot better what is had.
const TURNED: Search = Search {
    gap: 0.02,
    boxes: 100,
    angles: 40,
};
/// A normal off its axis in plan by more than this runs slantwise: sine of a tenth of a degree.
const SLANTWISE: f64 = 0.0017;
/// A face within this of level has no side in plan: cosine of 60 degrees.
const UPRIGHT: f64 = 0.5;

/// The largest boxes, with how each lies; none where the search finds none. A turned one only where
/// it beats the other by more than the search may be off.
pub(super) fn largest_boxes(solid: &Solid) -> Vec<(Solid, String)> {
    let level = level_box(solid, &SEARCH).ok();
    let had = level.as_ref().map_or(0.0, |found| found.size);
    let turned = slantwise(solid)
        .then(|| upright_box(solid, &TURNED).ok())
        .flatten()
        .filter(|found| found.size > had * (1.0 + TURNED.gap));
    let level = level.map(|found| {
        (
            found.best.solid(),
            "the largest box along the space".to_owned(),
        )
    });
    let turned = turned.map(|found| (found.best.solid(), told(&found)));
    level.into_iter().chain(turned).collect()
}

fn told(found: &Inscribed<TurnedBox>) -> String {
    let x = found.best.frame.x;
    format!(
        "the largest upright box, turned by {:.1} degrees about the vertical, within {:.0} % of what any can hold",
        x.y.atan2(x.x).to_degrees(),
        (found.gap() * 100.0).ceil()
    )
}

/// Whether a side runs slantwise in plan.
fn slantwise(solid: &Solid) -> bool {
    solid.faces.iter().any(|face| {
        let normal = face.plane.normal;
        normal.z.abs() < UPRIGHT && normal.x.abs().min(normal.y.abs()) > SLANTWISE
    })
}
