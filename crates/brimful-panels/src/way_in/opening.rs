//! The opening as it lies in the space, and the room a body moves in on its way: the space with
//! its opening and free ground before it, less every obstacle.

use crate::space::Room;
use brimful_geom::boolean::{clip, difference};
use brimful_geom::frame::{Frame, Plane};
use brimful_geom::passage::{Opening, room_with_approach};
use brimful_geom::solid::Solid;
use brimful_geom::vector::{Point3, Vec3};
use brimful_job::{Side, WayIn};

/// A side of the space that leans by less than this from square to the way in is the one the
/// opening is in: cosine of 60 degrees.
const FACING: f64 = 0.5;
/// Room before the opening beyond the body's own diagonal, metres: to stand and turn it.
const TO_STAND: f64 = 0.3;

/// Width and height of the opening less the clearance kept in it, metres.
pub(super) fn clear(way_in: &WayIn) -> [f64; 2] {
    way_in
        .size
        .map(|size| size.m() - 2.0 * way_in.clearance.m())
}

/// The clear opening in its side of the space: where the job says, else in the middle of the
/// side's width and at its foot.
pub(super) fn placed(way_in: &WayIn, side: Side, room: &Room) -> Opening {
    let way = inward(side);
    let (across, up) = plane_axes(side);
    let [width, height] = clear(way_in);
    let ((left, right), (foot, top)) = (reach(&room.shell, across), reach(&room.shell, up));
    let [u, v] = match way_in.at {
        Some(at) => [0, 1].map(|i| at[i].m() + way_in.size[i].m() / 2.0),
        None if matches!(side, Side::Above | Side::Below) => {
            [(left + right) / 2.0, (foot + top) / 2.0]
        }
        None => [(left + right) / 2.0, foot + way_in.size[1].m() / 2.0],
    };
    let (mouth, _) = reach(&room.shell, way);
    // Right-handed about the way in: across the opening or against it.
    let x = if across.cross(up).dot(way) > 0.0 {
        across
    } else {
        -across
    };
    let frame = Frame {
        origin: Point3::ORIGIN + across * u + up * v + way * mouth,
        x,
        y: up,
        z: way,
    };
    let opening = Opening {
        frame,
        width,
        height,
        depth: 0.0,
    };
    Opening {
        depth: depth(&opening, &room.shell),
        ..opening
    }
}

/// An opening by itself, in its own axes.
pub(super) fn alone(way_in: &WayIn) -> Opening {
    let [width, height] = clear(way_in);
    Opening {
        frame: Frame::WORLD,
        width,
        height,
        depth: 0.0,
    }
}

/// How far in the furthest place is, within the opening, of the sides of the space that it is in.
fn depth(opening: &Opening, shell: &Solid) -> f64 {
    let frame = &opening.frame;
    let sides = [
        (frame.x, opening.width),
        (-frame.x, opening.width),
        (frame.y, opening.height),
        (-frame.y, opening.height),
    ];
    let planes = sides.map(|(normal, size)| Plane {
        normal,
        offset: normal.dot(frame.origin.to_vec()) + size / 2.0,
    });
    let seen = planes
        .iter()
        .try_fold(shell.clone(), |solid, plane| clip(&solid, plane));
    let Ok(seen) = seen else {
        return 0.0;
    };
    seen.faces
        .iter()
        .filter(|face| face.plane.normal.dot(frame.z) < -FACING)
        .flat_map(|face| face.loops.iter().flatten())
        .map(|&corner| (seen.vertices[corner] - frame.origin).dot(frame.z))
        .fold(0.0, f64::max)
}

/// The room a body moves in; none where it cannot be made.
pub(super) fn way_room(opening: &Opening, room: &Room, body: &Solid) -> Option<Solid> {
    let (low, high) = body.bounds();
    let open = room_with_approach(&room.shell, opening, low.distance(high) + TO_STAND).ok()?;
    let obstacles: Vec<&Solid> = room.obstacles.iter().map(|named| &named.solid).collect();
    match obstacles.is_empty() {
        true => Some(open),
        false => difference(&open, &obstacles).ok(),
    }
}

/// The way from outside into the space through a side.
fn inward(side: Side) -> Vec3 {
    match side {
        Side::Front => -Vec3::X,
        Side::Rear => Vec3::X,
        Side::Left => -Vec3::Y,
        Side::Right => Vec3::Y,
        Side::Above => -Vec3::Z,
        Side::Below => Vec3::Z,
    }
}

/// The two axes of a side's plane: of the opening's width and of its height.
fn plane_axes(side: Side) -> (Vec3, Vec3) {
    match side {
        Side::Front | Side::Rear => (Vec3::Y, Vec3::Z),
        Side::Left | Side::Right => (Vec3::X, Vec3::Z),
        Side::Above | Side::Below => (Vec3::X, Vec3::Y),
    }
}

fn reach(solid: &Solid, axis: Vec3) -> (f64, f64) {
    let along = solid.vertices.iter().map(|p| axis.dot(p.to_vec()));
    along.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), v| {
        (low.min(v), high.max(v))
    })
}
