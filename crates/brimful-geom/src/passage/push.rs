//! A solid pushed through an opening and shifted to its place, in straight lines and without
//! turning, with proof.
//!
//! What a solid sweeps on a straight line is itself and, before each face that looks along the
//! line, the prism of that face along it: a place that is swept and not in the solid at the start
//! is left last through such a face. Each prism is put against the room by a boolean, so nothing
//! however thin is jumped, and what touches may slide along.

use super::opening::WALL;
use super::{Opening, TOUCHING, Way};
use crate::boolean::remaining_volume;
use crate::frame::Frame;
use crate::solid::Solid;
use crate::sweep::swept_face;
use crate::vector::{Point3, Vec3};

/// Less than this outside the room is rounding, m3: a square metre moved by a nanometre.
const SCRAPED: f64 = 1e-9;

/// Air before the opening at the start, metres.
const BEFORE: f64 = 0.05;

/// A way for `body`, given in its final place, through `opening` into `room`
/// ([`super::room_with_approach`]): set before the opening, within it as it stands and moved no
/// further than that needs, pushed to its depth, then shifted to its place, at once or first along
/// one side of the opening; or pushed just past the wall, shifted there, and pushed on. None where
/// none of these is free; another way may be.
/// No corner moves further than `step` metres between two poses.
pub fn push(body: &Solid, room: &Solid, opening: &Opening, step: f64) -> Option<Way> {
    let frame = &opening.frame;
    let middle = frame.origin.to_vec();
    let mut air = f64::INFINITY;
    let mut shifts = [Vec3::ZERO; 2];
    for (shift, (axis, size)) in shifts
        .iter_mut()
        .zip([(frame.x, opening.width), (frame.y, opening.height)])
    {
        let (low, high) = extent(body, axis);
        let (from, to) = (middle.dot(axis) - size / 2.0, middle.dot(axis) + size / 2.0);
        let left = size - (high - low);
        if left < -TOUCHING {
            return None;
        }
        air = air.min(left.max(0.0));
        // As little as lays it within the opening.
        *shift = axis * ((from - low).max(0.0) - (high - to).max(0.0));
    }
    let (behind, ahead) = extent(body, frame.z);
    let mouth = middle.dot(frame.z);
    let out = frame.z * (ahead - mouth + WALL + BEFORE);
    let past_the_wall = frame.z * (behind - mouth - opening.depth);
    if !within(body, room) {
        return None;
    }
    let mut short = vec![Vec3::ZERO];
    if past_the_wall.dot(frame.z) > TOUCHING {
        short.push(past_the_wall);
    }
    short
        .into_iter()
        .flat_map(|short| lines(shifts, out, short))
        .find(|line| {
            line.windows(2)
                .all(|leg| moves_within(body, leg[0], leg[1], room))
        })
        .map(|line| stepped(&line, air, step))
}

/// The lines of places that are tried: from before the opening, `out` of its depth, to `short` of it,
/// shifted there, then on to the end.
fn lines([across, up]: [Vec3; 2], out: Vec3, short: Vec3) -> Vec<Vec<Vec3>> {
    let start = across + up;
    let shifted = match (across.length() > TOUCHING, up.length() > TOUCHING) {
        (true, true) => vec![
            vec![Vec3::ZERO],
            vec![across, Vec3::ZERO],
            vec![up, Vec3::ZERO],
        ],
        (false, false) => vec![Vec::new()],
        _ => vec![vec![Vec3::ZERO]],
    };
    let line = |shifts: Vec<Vec3>| {
        let mut line = vec![start - out, start - short];
        line.extend(shifts.into_iter().map(|shift| shift - short));
        if short != Vec3::ZERO {
            line.push(Vec3::ZERO);
        }
        line
    };
    shifted.into_iter().map(line).collect()
}

/// Whether a solid moved by `by` stays within the room on the straight line, if it is in it at the
/// start. What touches is within.
pub(super) fn sweeps_within(solid: &Solid, by: Vec3, room: &Solid) -> bool {
    solid
        .faces
        .iter()
        .filter(|face| face.plane.normal.dot(by) > TOUCHING)
        .all(|face| within(&swept_face(solid, face, by), room))
}

fn moves_within(body: &Solid, from: Vec3, to: Vec3, room: &Solid) -> bool {
    sweeps_within(&body.moved(&moved_by(from)), to - from, room)
}

pub(super) fn within(solid: &Solid, room: &Solid) -> bool {
    remaining_volume(solid, &[room]).is_ok_and(|outside| outside < SCRAPED)
}

/// The motion by a vector.
pub(super) fn moved_by(by: Vec3) -> Frame {
    Frame {
        origin: Point3::ORIGIN + by,
        ..Frame::WORLD
    }
}

fn extent(solid: &Solid, way: Vec3) -> (f64, f64) {
    let along = solid.vertices.iter().map(|p| p.to_vec().dot(way));
    along.fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), v| {
        (a.min(v), b.max(v))
    })
}

/// The poses of a line of places, in steps.
fn stepped(line: &[Vec3], air: f64, step: f64) -> Way {
    let mut poses = vec![moved_by(line[0])];
    let mut stations = vec![0];
    for leg in line.windows(2) {
        let steps = ((leg[1] - leg[0]).length() / step).ceil().max(1.0);
        let place = |k: usize| leg[0] + (leg[1] - leg[0]) * (k as f64 / steps);
        poses.extend((1..=steps as usize).map(|k| moved_by(place(k))));
        stations.push(poses.len() - 1);
    }
    Way {
        poses,
        stations,
        air,
        tried: line.len(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::boolean::difference;
    use crate::passage::room_with_approach;
    use crate::testing::cube;

    fn front() -> Opening {
        Opening {
            frame: Frame {
                origin: Point3::new(0.5, 0.0, 0.15),
                x: Vec3::X,
                y: -Vec3::Z,
                z: Vec3::Y,
            },
            width: 0.96,
            height: 0.3,
            depth: 0.0,
        }
    }

    #[test]
    fn a_slab_that_fills_the_opening_is_pushed_in_and_lifted() {
        let space = cube([0.0; 3], [1.0, 0.5, 0.4]);
        let room = room_with_approach(&space, &front(), 1.5).unwrap();
        let body = cube([0.02, 0.0, 0.1], [0.98, 0.5, 0.4]);
        let way = push(&body, &room, &front(), 0.02).unwrap();
        assert!(way.air < 1e-9);
        // Down by 0.1 at the opening, in, then up.
        assert_eq!(way.stations.len(), 3);
        let start = body.moved(&way.poses[0]).bounds();
        assert!(start.1.y < 0.0 && (start.1.z - 0.3).abs() < 1e-9);
        assert_eq!(way.poses.last(), Some(&Frame::WORLD));
        assert!(
            push(
                &cube([0.02, 0.0, 0.05], [0.98, 0.5, 0.4]),
                &room,
                &front(),
                0.02
            )
            .is_none()
        );
    }

    #[test]
    fn no_obstacle_is_too_thin_to_be_met() {
        // A wire of a millimetre right across the way, 3 mm above the floor, midway between any
        // steps of a finite number.
        let space = cube([0.0; 3], [1.0, 0.5, 0.4]);
        let wire = cube([0.0, 0.2347, 0.003], [1.0, 0.2357, 0.004]);
        let walled = difference(&space, &[&wire]).unwrap();
        let room = room_with_approach(&walled, &front(), 1.5).unwrap();
        let behind = cube([0.1, 0.3, 0.0], [0.9, 0.45, 0.2]);
        assert!(push(&behind, &room, &front(), 0.5).is_none());
        let before = cube([0.1, 0.02, 0.0], [0.9, 0.2, 0.2]);
        assert!(push(&before, &room, &front(), 0.5).is_some());
    }

    #[test]
    fn what_stands_behind_a_step_is_shifted_over_it() {
        // A hatch of 0.4 square in the top, a step of 0.05 on the floor beside it, the place behind.
        let space = cube([0.0; 3], [1.0, 0.5, 0.4]);
        let hatch = Opening {
            frame: Frame {
                origin: Point3::new(0.25, 0.25, 0.4),
                x: Vec3::X,
                y: -Vec3::Y,
                z: -Vec3::Z,
            },
            width: 0.4,
            height: 0.4,
            depth: 0.0,
        };
        let stepped = |high: f64| {
            let step = cube([0.5, 0.0, 0.0], [0.55, 0.5, high]);
            let walled = difference(&space, &[&step]).unwrap();
            room_with_approach(&walled, &hatch, 1.5).unwrap()
        };
        // 0.06 is free over it where it stands.
        let body = cube([0.6, 0.1, 0.0], [0.95, 0.4, 0.34]);
        let way = push(&body, &stepped(0.05), &hatch, 0.02).unwrap();
        assert_eq!(way.stations.len(), 4);
        assert!(push(&body, &stepped(0.07), &hatch, 0.02).is_none());
    }
}
