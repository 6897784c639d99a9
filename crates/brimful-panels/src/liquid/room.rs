//! Rooms and the panels that bound them.

use crate::panel::{Panel, Role};
use brimful_geom::plate::PlateFace;
use brimful_geom::solid::Solid;
use brimful_geom::triangulate::triangulate;
use brimful_geom::vector::{Point2, Point3, Vec2};

/// A face of a room lies on a face of a panel where its corners are no further off it, metres: rounding
/// of the booleans that the room is made by, far less than any sheet.
const ON_FACE: f64 = 1e-6;
/// Two flat shapes that lie over one another by less than this, metres, only touch: far less than any room
/// is wide, and more than a root gap that is filled by rod.
const OVERLAP: f64 = 0.005;

/// The number of the room that two panels bound, of which one is a divider.
///
/// # Errors
/// How many they bound together, where that is not one.
pub fn room_between(
    between: &[String; 2],
    panels: &[Panel],
    rooms: &[&Solid],
) -> Result<usize, usize> {
    let any_named = |name: &String, is_so: &dyn Fn(&Panel) -> bool| {
        let mut named = panels.iter().filter(|panel| panel.name == **name);
        named.any(is_so)
    };
    let is_divider = |panel: &Panel| panel.role == Role::Divider;
    if !between.iter().any(|name| any_named(name, &is_divider)) {
        return Err(0);
    }
    let is_between = |room: &Solid| {
        let bounds = |name: &String| any_named(name, &|panel| bounds(room, panel));
        between.iter().all(bounds)
    };
    let own: Vec<usize> = (0..rooms.len())
        .filter(|&number| is_between(rooms[number]))
        .collect();
    match own[..] {
        [room] => Ok(room),
        _ => Err(own.len()),
    }
}

/// Whether part of a room's surface is a face of a panel.
pub(super) fn bounds(room: &Solid, panel: &Panel) -> bool {
    touched_faces(room, panel).contains(&true)
}

/// Whether part of a room's surface lies on the face of a panel that its frame is on, and on the other.
pub fn touched_faces(room: &Solid, panel: &Panel) -> [bool; 2] {
    let plate = &panel.finished;
    let in_plate = |corner: usize| plate.frame.frame_from_world(room.vertices[corner]);
    let flat = |point: Point3| Point2::new(point.x, point.y);
    let outlines = plate.outlines(PlateFace::Inside);
    let of_panel: Vec<Point2> = outlines.iter().flat_map(|it| it.0.clone()).collect();
    let of_panel: Vec<[Point2; 3]> = triangulate(&outlines)
        .into_iter()
        .map(|corners| corners.map(|corner| of_panel[corner]))
        .collect();
    let touches = |height: f64| {
        room.faces.iter().enumerate().any(|(number, face)| {
            let mut corners = face.loops.iter().flatten();
            if !corners.all(|&corner| (in_plate(corner).z - height).abs() < ON_FACE) {
                return false;
            }
            let frame = room.face_frame(number);
            let own = room.face_outlines(number, &frame);
            let corners: Vec<Point2> = own
                .iter()
                .flat_map(|outline| outline.0.iter())
                .map(|&at| flat(plate.frame.frame_from_world(frame.world_from_flat(at))))
                .collect();
            triangulate(&own).into_iter().any(|triangle| {
                let triangle = triangle.map(|corner| corners[corner]);
                of_panel.iter().any(|other| overlap(&triangle, other))
            })
        })
    };
    [touches(0.0), touches(-plate.thickness)]
}

/// Whether two triangles lie over one another: no line along a side of either parts them.
fn overlap(one: &[Point2; 3], other: &[Point2; 3]) -> bool {
    let sides = |triangle: &[Point2; 3]| [0, 1, 2].map(|i| triangle[(i + 1) % 3] - triangle[i]);
    let parted = |side: Vec2| {
        let length = side.length();
        let reach = |triangle: &[Point2; 3]| {
            let along = triangle.map(|corner| side.cross(corner.to_vec()) / length);
            let least = along.into_iter().fold(f64::INFINITY, f64::min);
            (least, along.into_iter().fold(f64::NEG_INFINITY, f64::max))
        };
        let ((low, high), (other_low, other_high)) = (reach(one), reach(other));
        high.min(other_high) - low.max(other_low) < OVERLAP
    };
    !sides(one).into_iter().chain(sides(other)).any(parted)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn triangles_that_only_touch_do_not_overlap() {
        let at = |x: f64, y: f64| Point2::new(x, y);
        let one = [at(0.0, 0.0), at(1.0, 0.0), at(0.0, 1.0)];
        let beside = [at(1.0, 0.0), at(1.0, 1.0), at(0.0, 1.0)];
        let across = [at(0.4, 0.4), at(2.0, 0.4), at(2.0, 2.0)];
        let within = [at(0.1, 0.1), at(0.2, 0.1), at(0.1, 0.2)];
        assert!(!overlap(&one, &beside));
        assert!(overlap(&one, &across) && overlap(&one, &within));
    }
}
