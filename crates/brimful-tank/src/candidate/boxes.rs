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

/// The largest boxes, with how each lies, and why one could not be looked for. A turned one only where
/// it beats the other by more than the search may be off.
pub(super) fn largest_boxes(solid: &Solid) -> (Vec<(Solid, String)>, Vec<String>) {
    let (mut boxes, mut unsearched) = (Vec::new(), Vec::new());
    let mut had = 0.0;
    match level_box(solid, &SEARCH) {
        Ok(found) => {
            had = found.size;
            boxes.push((
                found.best.solid(),
                "the largest box along the space".to_owned(),
            ));
        }
        Err(fault) => unsearched.push(format!("the largest box along the space: {fault}")),
    }
    if slantwise(solid) {
        match upright_box(solid, &TURNED) {
            Ok(found) if found.size > had * (1.0 + TURNED.gap) => {
                boxes.push((found.best.solid(), told(&found)));
            }
            Ok(_) => {}
            Err(fault) => unsearched.push(format!(
                "the largest box turned about the vertical: {fault}"
            )),
        }
    }
    (boxes, unsearched)
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
