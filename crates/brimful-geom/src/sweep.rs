//! What faces sweep when they are moved, and how far they can be.

use crate::boolean::{BooleanFault, Part, difference, pieces, remaining_parts};
use crate::frame::Plane;
use crate::solid::{Face, Solid};
use crate::triangulate::triangulate;
use crate::vector::{Point3, Vec3};

/// Less than this beyond a room is rounding, m3: a cube of half a millimetre.
const NO_VOLUME: f64 = 1e-10;

/// The slanted prism that a face of a solid sweeps when it is moved by `by`, the way it looks.
pub fn swept_face(solid: &Solid, face: &Face, by: Vec3) -> Solid {
    let mut vertices: Vec<Point3> = Vec::new();
    let rings: Vec<Vec<usize>> = face
        .loops
        .iter()
        .map(|ring| {
            let first = vertices.len();
            vertices.extend(ring.iter().map(|&v| solid.vertices[v]));
            (first..vertices.len()).collect()
        })
        .collect();
    let n = vertices.len();
    let far: Vec<Point3> = vertices.iter().map(|&p| p + by).collect();
    vertices.extend(far);
    let mut faces = vec![
        Face {
            plane: face.plane.flipped(),
            loops: rings
                .iter()
                .map(|ring| ring.iter().rev().copied().collect())
                .collect(),
        },
        Face {
            plane: face.plane.moved(face.plane.normal.dot(by)),
            loops: rings
                .iter()
                .map(|ring| ring.iter().map(|v| v + n).collect())
                .collect(),
        },
    ];
    for ring in &rings {
        for (place, &i) in ring.iter().enumerate() {
            let j = ring[(place + 1) % ring.len()];
            let out = (vertices[j] - vertices[i]).cross(by);
            // A proper face has no side of no length, and none lies along the way.
            if let Some(plane) = Plane::through(vertices[i], out) {
                faces.push(Face {
                    plane,
                    loops: vec![vec![i, j, n + j, n + i]],
                });
            }
        }
    }
    Solid { vertices, faces }
}

/// How far a face of a solid can be moved along the unit vector `way`, which it looks along, before
/// it meets what is not of the room, metres; none where it meets nothing within `most`.
///
/// What the face sweeps beyond the room has flat faces, so the nearest place of it is a corner. Where it is
/// no proper solid, for skins as thin as rounding, the corners of its mesh are taken: a skin may then
/// make the way shorter, and nothing makes it longer.
///
/// # Errors
/// A [`BooleanFault`].
pub fn air_before(
    solid: &Solid,
    face: &Face,
    way: Vec3,
    most: f64,
    room: &Solid,
) -> Result<Option<f64>, BooleanFault> {
    let slope = face.plane.normal.dot(way);
    let corners = match beyond(&swept_face(solid, face, way * most), room)? {
        Beyond::Pieces(pieces) => pieces
            .into_iter()
            .flat_map(|piece| piece.vertices)
            .collect(),
        Beyond::Corners(corners) => corners,
    };
    let nearest = corners
        .iter()
        .map(|&p| (face.plane.distance(p) / slope).max(0.0))
        .reduce(f64::min);
    Ok(nearest)
}

/// What lies before a face.
#[derive(Clone, Debug, PartialEq)]
pub enum Obstacles {
    /// All that looks at the face of what it would meet, in triangles.
    Faces(Vec<[Point3; 3]>),
    /// Only corners of what it would meet, the nearest among them: see [`air_before`].
    Corners(Vec<Point3>),
}

/// What a face of a solid would meet of what is not of the room, were it moved by `most` along the unit
/// vector `way`, which it looks along.
///
/// # Errors
/// A [`BooleanFault`].
pub fn obstacles_before(
    solid: &Solid,
    face: &Face,
    way: Vec3,
    most: f64,
    room: &Solid,
) -> Result<Obstacles, BooleanFault> {
    let pieces = match beyond(&swept_face(solid, face, way * most), room)? {
        Beyond::Pieces(pieces) => pieces,
        Beyond::Corners(corners) => return Ok(Obstacles::Corners(corners)),
    };
    let mut triangles = Vec::new();
    for piece in &pieces {
        for (number, face) in piece.faces.iter().enumerate() {
            // One along the way ends where those that look at it do.
            if face.plane.normal.dot(way) >= -LOOKS_AT {
                continue;
            }
            let corners: Vec<usize> = face.loops.iter().flatten().copied().collect();
            let own = triangulate(&piece.face_outlines(number, &piece.face_frame(number)));
            if own.is_empty() {
                let corners = pieces.iter().flat_map(|piece| piece.vertices.clone());
                return Ok(Obstacles::Corners(corners.collect()));
            }
            triangles.extend(own.iter().map(|t| t.map(|i| piece.vertices[corners[i]])));
        }
    }
    Ok(Obstacles::Faces(triangles))
}

/// A face whose normal is square to a way to within this cosine lies along it: a thousandth of a
/// degree, over which half a metre is a hundredth of a millimetre wide.
const LOOKS_AT: f64 = 2e-5;

/// What a prism has outside a room, skins of rounding left out.
enum Beyond {
    Pieces(Vec<Solid>),
    /// Of what is no proper solid.
    Corners(Vec<Point3>),
}

fn beyond(prism: &Solid, room: &Solid) -> Result<Beyond, BooleanFault> {
    if let Ok(pieces) = difference(prism, &[room]).and_then(|beyond| pieces(&beyond)) {
        let solid = |piece: &Solid| piece.moments().volume > NO_VOLUME;
        return Ok(Beyond::Pieces(pieces.into_iter().filter(solid).collect()));
    }
    let parts = remaining_parts(prism, &[room])?;
    let parts = parts
        .into_iter()
        .filter(|part: &Part| part.volume > NO_VOLUME);
    Ok(Beyond::Corners(
        parts.flat_map(|part| part.corners).collect(),
    ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::cube;

    #[test]
    fn what_is_swept_is_the_solid_and_the_prisms_of_its_faces() {
        // A unit cube moved by (1, 1, 0) sweeps a hexagonal prism of area 3.
        let unit = cube([0.0; 3], [1.0, 1.0, 1.0]);
        let by = Vec3::new(1.0, 1.0, 0.0);
        let swept: f64 = unit
            .faces
            .iter()
            .filter(|face| face.plane.normal.dot(by) > 0.0)
            .map(|face| {
                let prism = swept_face(&unit, face, by);
                assert_eq!(prism.faults(), []);
                prism.moments().volume
            })
            .sum();
        assert!((1.0 + swept - 3.0).abs() < 1e-12);
    }

    #[test]
    fn what_a_face_would_meet_is_known_by_its_places() {
        // A wall 0.5 before the face, and a sill 0.2 before it that is 0.1 high.
        let room = cube([0.0; 3], [2.0, 1.0, 1.0]);
        let sill = cube([1.7, 0.0, 0.0], [2.5, 1.0, 0.1]);
        let free = difference(&room, &[&sill]).unwrap();
        let body = cube([0.5, 0.0, 0.0], [1.5, 1.0, 1.0]);
        let met = obstacles_before(&body, &body.faces[1], Vec3::X, 1.0, &free).unwrap();
        let Obstacles::Faces(triangles) = met else {
            panic!("{met:?}");
        };
        let area_at = |x: f64| -> f64 {
            let at = triangles
                .iter()
                .filter(|t| t.iter().all(|p| (p.x - x).abs() < 1e-9));
            at.map(|[a, b, c]| (*b - *a).cross(*c - *a).length() / 2.0)
                .sum()
        };
        assert!((area_at(1.7) - 0.1).abs() < 1e-9 && (area_at(2.0) - 0.9).abs() < 1e-9);
    }

    #[test]
    fn a_face_meets_the_nearest_corner_of_what_is_before_it() {
        // A block 0.3 before the face on part of it, the wall of the room 0.5 before it elsewhere.
        let room = cube([0.0; 3], [2.0, 1.0, 1.0]);
        let block = cube([1.8, 0.2, 0.2], [2.5, 0.4, 0.4]);
        let free = difference(&room, &[&block]).unwrap();
        let body = cube([0.5, 0.1, 0.1], [1.5, 0.9, 0.9]);
        let front = &body.faces[1];
        let air = |most| air_before(&body, front, Vec3::X, most, &free).unwrap();
        assert!((air(1.0).unwrap() - 0.3).abs() < 1e-9);
        assert_eq!(air(0.29), None);
    }
}
