//! Solids cut into convex parts, along the planes of their re-entrant faces.

use crate::boolean::{BooleanFault, clip, pieces};
use crate::solid::Solid;

/// An edge counts as re-entrant above a half turn by more than this, radians: what rounding bends.
const STRAIGHT: f64 = 1e-6;

/// Parts with less volume are rounding, m3 (a cube of a tenth of a millimetre).
const NOTHING: f64 = 1e-12;

/// More parts than this are refused.
const MOST_PARTS: usize = 2000;

/// Convex solids that together are `solid`.
pub fn convex_parts(solid: &Solid) -> Result<Vec<Solid>, BooleanFault> {
    let mut waiting = pieces(solid)?;
    waiting.reverse();
    let mut convex = Vec::new();
    while let Some(part) = waiting.pop() {
        if part.moments().volume < NOTHING {
            continue;
        }
        let edges = part.edges();
        let re_entrant = edges
            .iter()
            .filter(|edge| edge.angle > std::f64::consts::PI + STRAIGHT)
            .max_by(|a, b| a.angle.total_cmp(&b.angle));
        let Some(edge) = re_entrant else {
            convex.push(part);
            continue;
        };
        if convex.len() + waiting.len() > MOST_PARTS {
            return Err(BooleanFault::Result);
        }
        let plane = part.faces[edge.face].plane;
        for side in [plane, plane.flipped()] {
            waiting.extend(pieces(&clip(&part, &side)?)?);
        }
    }
    Ok(convex)
}
