//! What faces sweep when they are moved, and how far they can be.

use crate::boolean::{BooleanFault, Part, difference, pieces, remaining_parts};
use crate::frame::Plane;
use crate::solid::{Face, Solid};
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
    let prism = swept_face(solid, face, way * most);
    let proper = difference(&prism, &[room]).and_then(|beyond| pieces(&beyond));
    let beyond: Vec<Part> = match proper {
        Ok(pieces) => pieces
            .into_iter()
            .map(|piece| Part {
                volume: piece.moments().volume,
                corners: piece.vertices,
            })
            .collect(),
        Err(_) => remaining_parts(&prism, &[room])?,
    };
    let slope = face.plane.normal.dot(way);
    let nearest = beyond
        .iter()
        .filter(|part| part.volume > NO_VOLUME)
        .flat_map(|part| &part.corners)
        .map(|&p| (face.plane.distance(p) / slope).max(0.0))
        .reduce(f64::min);
    Ok(nearest)
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
