//! Plain names, by rule: the same body has the same name whatever stands beside it.

use super::body::Candidate;
use crate::name::{CandidateName, CandidateShape, Letter, View};
use brimful_geom::solid::{Face, Solid};
use brimful_geom::vector::Vec3;

/// A normal this near to an axis is along it.
const ALONG: f64 = 1.0 - 1e-9;

/// What a body is called by its shape.
pub(super) fn shape_of(solid: &Solid, every: bool) -> CandidateShape {
    if every {
        return CandidateShape::EveryFacet;
    }
    if solid.faces.len() == 6 && square_faces(solid) == 6 {
        return CandidateShape::PlainBox;
    }
    if solid.faces.len() == 6 && is_turned_box(solid) {
        return CandidateShape::TurnedBox;
    }
    for (axis, view) in [
        (Vec3::Z, View::Above),
        (Vec3::X, View::Front),
        (Vec3::Y, View::Side),
    ] {
        if let Some(letter) = letter(solid, axis) {
            return CandidateShape::Letter(letter, view);
        }
    }
    let inside = solid
        .edges()
        .iter()
        .any(|edge| edge.angle > std::f64::consts::PI + 1e-9);
    match (solid.faces.len(), inside) {
        (5, false) => CandidateShape::Wedge,
        (6, false) => CandidateShape::LeaningBox,
        (faces, false) => CandidateShape::Convex(faces),
        (faces, true) => CandidateShape::Faces(faces),
    }
}

fn square_faces(solid: &Solid) -> usize {
    let square = |face: &&Face| {
        let n = face.plane.normal;
        n.x.abs().max(n.y.abs()).max(n.z.abs()) > ALONG
    };
    solid.faces.iter().filter(square).count()
}

/// Whether all neighbouring faces are square to each other.
fn is_turned_box(solid: &Solid) -> bool {
    let square = std::f64::consts::FRAC_PI_2;
    solid
        .edges()
        .iter()
        .all(|edge| (edge.angle - square).abs() < 1.0 - ALONG)
}

/// A side that leans by more than this is no longer one of a letter drawn out: sine of 30 degrees.
const LEANING: f64 = 0.5;

/// The letter that a body drawn out along `axis` makes: two faces square to the axis, all others
/// along it but for some lean, and an outline with inside corners.
fn letter(solid: &Solid, axis: Vec3) -> Option<Letter> {
    let (mut floors, mut lids) = (Vec::new(), Vec::new());
    for (face, about) in solid.faces.iter().enumerate() {
        let along = about.plane.normal.dot(axis);
        if along > ALONG {
            lids.push(face);
        } else if along < -ALONG {
            floors.push(face);
        } else if along.abs() > LEANING {
            return None;
        }
    }
    let (&[first], &[_]) = (&floors[..], &lids[..]) else {
        return None;
    };
    if solid.faces[first].loops.len() > 1 {
        return None;
    }
    let frame = solid.face_frame(first);
    let outline = &solid.face_outlines(first, &frame)[0].0;
    let n = outline.len();
    let turns: Vec<bool> = (0..n)
        .map(|i| {
            let (a, b, c) = (outline[(i + n - 1) % n], outline[i], outline[(i + 1) % n]);
            (b - a).cross(c - b) < 0.0
        })
        .collect();
    let inside: Vec<usize> = (0..n).filter(|&i| turns[i]).collect();
    match inside[..] {
        [_] => Some(Letter::L),
        // A notch has its two inside corners side by side; a T has the stem between them.
        [a, b] if b - a == 1 || (a == 0 && b == n - 1) => Some(Letter::C),
        [_, _] if n == 8 => Some(Letter::T),
        _ => None,
    }
}

/// Gives those that share a name a number from the second on.
pub(super) fn make_unique(candidates: &mut [Candidate]) {
    for place in 0..candidates.len() {
        let (before, from) = candidates.split_at_mut(place);
        let name = &mut from[0].name;
        let without_number = |name: &CandidateName| CandidateName {
            number: 1,
            ..name.clone()
        };
        let same = |other: &&Candidate| without_number(&other.name) == *name;
        name.number += before.iter().filter(same).count();
    }
}
