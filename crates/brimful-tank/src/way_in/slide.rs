//! Pushed through an opening in a side of the space, then slid to its place.
//!
//! The body keeps the attitude it stands in. It is set before the opening, moved in the opening's
//! plane so that it lies within it, pushed in to its depth, and moved back to its place. Every
//! step is checked against the free space with the run before the opening, by boolean.

use super::{Entry, clear, inward};
use crate::job::{Side, WayIn};
use crate::space::Room;
use brimful_geom::boolean::{remaining_volume, union};
use brimful_geom::frame::Frame;
use brimful_geom::solid::Solid;
use brimful_geom::vector::{Point3, Vec3};
use brimful_units::Length;

/// Steps of the push and of the shift to its place: of a metre's push each is 40 mm.
const PUSHES: usize = 24;
const SHIFTS: usize = 6;
/// What is left of width and height may be this much less than nothing: rounding, metres.
const TOUCHING: f64 = 1e-9;

/// Less of the body than this outside the free space is rounding, m3: a face of a square metre
/// moved by a nanometre.
const SCRAPED: f64 = 1e-9;

/// The poses from before the opening to the body's place, if it gets there so.
pub(super) fn slid(way_in: &WayIn, side: Side, room: &Room, body: &Solid) -> Option<Entry> {
    let way = inward(side);
    let (across, up) = plane_axes(side);
    let size = clear(way_in);
    let corner = opening_corner(way_in, room, side);
    let mut shift = Vec3::ZERO;
    let mut margin = f64::INFINITY;
    for (axis, low, size) in [(across, corner[0], size[0]), (up, corner[1], size[1])] {
        let (from, to) = reach(body, axis);
        let left = size - (to - from);
        if left < -TOUCHING {
            return None;
        }
        margin = margin.min(left.max(0.0));
        // As little as lays it within the opening.
        let by = (low - from).max(0.0) - (to - (low + size)).max(0.0);
        shift += axis * by;
    }
    let poses = poses(room, body, way, shift);
    let path = corridor(room, way, across, up, way_in, corner)?;
    let free = |pose: &Frame| {
        remaining_volume(&body.moved(pose), &[&path]).is_ok_and(|outside| outside < SCRAPED)
    };
    poses.iter().all(free).then(|| Entry::Slid {
        poses,
        margin: Length::from_m(margin),
    })
}

/// The lower corner of the clear opening in the plane of its side: as stated, else in the middle
/// of the side's width and at its foot.
pub(super) fn opening_corner(way_in: &WayIn, room: &Room, side: Side) -> [f64; 2] {
    let keep = way_in.clearance.m();
    if let Some(at) = way_in.at {
        return at.map(|at| at.m() + keep);
    }
    let (across, up) = plane_axes(side);
    let ((low, high), (foot, top)) = (reach(&room.shell, across), reach(&room.shell, up));
    let width = way_in.size[0].m();
    let level = matches!(side, Side::Above | Side::Below);
    let foot = if level {
        (foot + top - way_in.size[1].m()) / 2.0
    } else {
        foot
    };
    [(low + high - width) / 2.0 + keep, foot + keep]
}

/// The two axes of a side's plane: of the opening's width and of its height.
pub(super) fn plane_axes(side: Side) -> (Vec3, Vec3) {
    match side {
        Side::Front | Side::Rear => (Vec3::Y, Vec3::Z),
        Side::Left | Side::Right => (Vec3::X, Vec3::Z),
        Side::Above | Side::Below => (Vec3::X, Vec3::Y),
    }
}

pub(super) fn reach(solid: &Solid, axis: Vec3) -> (f64, f64) {
    let along = solid.vertices.iter().map(|p| axis.dot(p.to_vec()));
    along.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), v| {
        (low.min(v), high.max(v))
    })
}

/// From before the opening to its depth, then to its place.
fn poses(room: &Room, body: &Solid, way: Vec3, shift: Vec3) -> Vec<Frame> {
    let (_, outside) = reach(body, way);
    let (mouth, _) = reach(&room.shell, way);
    let out = outside - mouth;
    let at = |move_by: Vec3| Frame {
        origin: Point3::ORIGIN + move_by,
        ..Frame::WORLD
    };
    let pushed = (0..=PUSHES).map(|step| {
        let left = 1.0 - step as f64 / PUSHES as f64;
        at(shift - way * (out * left))
    });
    let shifted = (1..=SHIFTS).map(|step| at(shift * (1.0 - step as f64 / SHIFTS as f64)));
    let moves = shift.length() > TOUCHING;
    pushed.chain(shifted.filter(move |_| moves)).collect()
}

/// The free space with the run before the opening: a prism of the opening from a little inside the
/// space to far outside.
fn corridor(
    room: &Room,
    way: Vec3,
    across: Vec3,
    up: Vec3,
    way_in: &WayIn,
    corner: [f64; 2],
) -> Option<Solid> {
    let keep = way_in.clearance.m();
    let [width, height] = way_in.size.map(Length::m);
    let (mouth, far) = reach(&room.shell, way);
    let run = far - mouth;
    let from = across * (corner[0] - keep) + up * (corner[1] - keep) + way * (mouth - RUN * run);
    let to = across * (corner[0] - keep + width)
        + up * (corner[1] - keep + height)
        + way * (mouth + INTO);
    let low = Point3::new(from.x.min(to.x), from.y.min(to.y), from.z.min(to.z));
    let high = Point3::new(from.x.max(to.x), from.y.max(to.y), from.z.max(to.z));
    union(&[&room.free, &Solid::cuboid(low, high)]).ok()
}

/// The run before the opening, in depths of the space: enough for the whole body and some more.
const RUN: f64 = 1.5;
/// How far the run reaches into the space, so that the two are one solid, metres.
const INTO: f64 = 1e-6;
