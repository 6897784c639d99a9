//! Bodies kept as far off as they grow by warmth, where the clearance asked for is less.
//!
//! A side that would bear is moved in by what is wanting, d = (growth - gap) / (1 + strain): moved so
//! far it grows by strain x d less, if the middle of the foot stays where it is. Where that moves too a
//! little is left wanting, which a few rounds take.

use crate::finding::kind::NoRoomToGrow;
use crate::growth::{Growth, middle_of_foot};
use crate::space::{Room, is_stood_on};
use brimful_geom::offset::offset_inward;
use brimful_geom::solid::{Face, Solid};
use brimful_geom::sweep::air_before;
use brimful_job::Space;
use brimful_units::Length;

/// Rounds: each leaves about a hundredth, the strain, of what was wanting before.
const ROUNDS: usize = 6;
/// Less than this is not wanting, metres: rounding of the booleans that measure it.
const NOT_WANTING: f64 = 1e-9;

/// A body of the room with as much air to the free inside as each side of it grows at most, and whether anything was taken of it.
///
/// # Errors
/// Why it cannot be made.
pub fn with_room_to_grow(
    space: &Space,
    room: &Room,
    growth: &Growth,
    body: &Solid,
) -> Result<(Solid, bool), NoRoomToGrow> {
    let mut moved = vec![0.0; body.faces.len()];
    let mut grown = body.clone();
    for _ in 0..ROUNDS {
        let wanting: Vec<f64> = grown
            .faces
            .iter()
            .map(|face| wanting(space, room, growth, &grown, face))
            .collect::<Result<_, _>>()?;
        if wanting.iter().all(|by| *by <= NOT_WANTING) {
            let touched = moved.iter().any(|by| *by > 0.0);
            return Ok((grown, touched));
        }
        for (moved, by) in moved.iter_mut().zip(&wanting) {
            *moved += by;
        }
        let offset = offset_inward(body, &moved).map_err(NoRoomToGrow::NotMoved)?;
        if offset.solid.faces.len() != moved.len() {
            return Err(NoRoomToGrow::SideGone);
        }
        grown = offset.solid;
    }
    Err(NoRoomToGrow::NotConverged)
}

/// By how much a face is to be moved in.
fn wanting(
    space: &Space,
    room: &Room,
    growth: &Growth,
    body: &Solid,
    face: &Face,
) -> Result<f64, NoRoomToGrow> {
    let way = face.plane.normal;
    let Some([_, most]) = growth.outward(body, face, way, middle_of_foot(body)) else {
        return Ok(0.0);
    };
    // Nothing is nearer to the body than the clearance: most sides need no measuring.
    if is_stood_on(way) || most <= space.clearance {
        return Ok(0.0);
    }
    let strain = growth.strain.map_or(0.0, |[_, most]| most);
    let gap =
        air_before(body, face, way, most.m(), &room.free).map_err(NoRoomToGrow::NotMeasured)?;
    Ok(gap.map_or(0.0, |gap| {
        (most - Length::from_m(gap)).m().max(0.0) / (1.0 + strain)
    }))
}
