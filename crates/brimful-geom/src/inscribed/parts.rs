//! Solids cut into convex parts, along the planes of their re-entrant faces.

use crate::boolean::{BooleanFault, clip, pieces};
use crate::frame::Plane;
use crate::solid::{Edge, Solid};

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
        let mut re_entrant: Vec<&Edge> = edges
            .iter()
            .filter(|edge| edge.angle > std::f64::consts::PI + STRAIGHT)
            .collect();
        if re_entrant.is_empty() {
            convex.push(part);
            continue;
        }
        if convex.len() + waiting.len() > MOST_PARTS {
            return Err(BooleanFault::Result);
        }
        re_entrant.sort_by(|a, b| b.angle.total_cmp(&a.angle));
        // Where one cut comes out as slivers that cannot be put together another may not.
        let mut cuts = re_entrant
            .iter()
            .flat_map(|edge| [edge.face, edge.twin])
            .map(|face| in_two(&part, &part.faces[face].plane));
        let mut halves = cuts.next().unwrap_or(Err(BooleanFault::Result));
        while halves.is_err() {
            match cuts.next() {
                Some(next) => halves = next,
                None => break,
            }
        }
        waiting.extend(halves?);
    }
    Ok(convex)
}

/// A cut that takes off nothing but rounding is none: it would be made for ever.
fn in_two(part: &Solid, plane: &Plane) -> Result<Vec<Solid>, BooleanFault> {
    let mut both = pieces(&clip(part, plane)?)?;
    both.extend(pieces(&clip(part, &plane.flipped())?)?);
    let whole = part.moments().volume;
    let is_whole = |half: &Solid| half.moments().volume > whole - NOTHING;
    match both.iter().any(is_whole) {
        true => Err(BooleanFault::Result),
        false => Ok(both),
    }
}
