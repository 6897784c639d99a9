//! The room that a job says stays dry, found by two panels that bound it.

use crate::panel::{Panel, Role};
use brimful_geom::plate::PlateFace;
use brimful_geom::polygon::Outline;
use brimful_geom::solid::Solid;
use brimful_geom::triangulate::triangulate;
use brimful_geom::vector::{Point2, Point3};
use brimful_job::DryRoom;

/// A face of a room lies on a face of a panel where its corners are no further off it, metres: rounding
/// of the booleans that the room is made by, far less than any sheet.
const ON_FACE: f64 = 1e-6;

/// The number of the room that two panels bound.
///
/// # Errors
/// How many they bound together, where that is not one.
pub fn dry_room(dry: &DryRoom, panels: &[Panel], rooms: &[&Solid]) -> Result<usize, usize> {
    let bounds = |room: &Solid, name: &String| {
        let mut named = panels.iter().filter(|panel| panel.name == **name);
        named.any(|panel| is_bounded_by(room, panel))
    };
    let between = |room: &Solid| dry.between.iter().all(|name| bounds(room, name));
    let own: Vec<usize> = (0..rooms.len())
        .filter(|&number| between(rooms[number]))
        .collect();
    let is_divider = |name: &String| {
        let mut named = panels.iter().filter(|panel| panel.name == **name);
        named.any(|panel| panel.role == Role::Divider)
    };
    if !dry.between.iter().any(is_divider) {
        return Err(0);
    }
    match own[..] {
        [room] => Ok(room),
        _ => Err(own.len()),
    }
}

/// Whether part of a room's surface is a face of a panel.
fn is_bounded_by(room: &Solid, panel: &Panel) -> bool {
    let plate = &panel.finished;
    let outlines = plate.outlines(PlateFace::Inside);
    let in_plate = |point: Point3| plate.frame.frame_from_world(point);
    room.faces.iter().enumerate().any(|(number, face)| {
        let corners = face.loops.iter().flatten();
        let heights = corners.map(|&corner| in_plate(room.vertices[corner]).z);
        let is_on = |side: f64| heights.clone().all(|z| (z - side).abs() < ON_FACE);
        if !is_on(0.0) && !is_on(-plate.thickness) {
            return false;
        }
        let frame = room.face_frame(number);
        let own = room.face_outlines(number, &frame);
        let corners: Vec<Point2> = own.iter().flat_map(|outline| outline.0.clone()).collect();
        // Either may be the larger: a divider parts a wall's inside, a butt seam parts a wall.
        let panel = outlines.first().map(Outline::centroid);
        let of_panel = panel.map(|at| plate.frame.world_from_frame(Point3::new(at.x, at.y, 0.0)));
        let in_face =
            |at: Point2| own[0].contains(at) && !own[1..].iter().any(|it| it.contains(at));
        let in_panel = |point: Point3| {
            let at = in_plate(point);
            let outline = outlines.first();
            outline.is_some_and(|outline| outline.contains(Point2::new(at.x, at.y)))
        };
        let mut middles = triangulate(&own).into_iter().map(|corners_of| {
            let [a, b, c] = corners_of.map(|corner| corners[corner].to_vec());
            let middle = (a + b + c) * (1.0 / 3.0);
            frame.world_from_flat(Point2::new(middle.x, middle.y))
        });
        middles.any(in_panel)
            || of_panel.is_some_and(|middle| in_face(frame.flat_from_world(middle)))
    })
}
