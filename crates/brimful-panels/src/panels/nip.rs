//! Corners nipped off where more than three sheets meet.
//!
//! Where three faces meet, each sheet ends at its two neighbours and all is settled. At a tip of
//! four and more, sheets that are no neighbours come together too: of two such the lower in rank
//! ends at the inside of the other, and the higher at the outside of the lower. The corner is
//! sawn off by a short side of its own. At a corner with re-entrant edges no rule holds for all
//! shapes; nothing is nipped there, and the proof of panels tells if something overlaps.

use super::joint::rank;
use crate::body::Body;
use brimful_geom::frame::Frame;
use brimful_geom::plate::{PlateFace, Side, corner};
use brimful_geom::solid::Solid;
use std::f64::consts::PI;

/// A corner that reaches past a plane by less than this is left: a thousandth of what a saw shows.
const LEAST_NIP: f64 = 1e-7;

const BOTH_FACES: [PlateFace; 2] = [PlateFace::Outside, PlateFace::Inside];

/// The sides of one loop of a face with the corners nipped off that reach into other sheets.
/// `ring` is the loop of vertices, `sides[i]` runs from `ring[i]`.
pub fn nipped(
    body: &Body,
    face: usize,
    ring: &[usize],
    sides: Vec<Side>,
    frame: &Frame,
    gap: f64,
) -> Vec<Side> {
    let n = sides.len();
    let mut result = Vec::with_capacity(n);
    for i in 0..n {
        let mut sequence = vec![sides[(i + n - 1) % n], sides[i]];
        for other in strangers(&body.solid, face, ring[i]) {
            let start = frame.flat_from_world(body.solid.vertices[ring[i]]);
            let outranks =
                rank(&body.solid, &body.faces, face) > rank(&body.solid, &body.faces, other);
            let outside = body.solid.faces[other].plane;
            let plane = if outranks {
                outside
            } else {
                outside.moved(-body.faces[other].thickness.m() - gap)
            };
            let thickness = body.faces[face].thickness.m();
            if let Some(cut) = Side::cut_by(&plane, frame, thickness, start, 0) {
                sequence = cut_corner(sequence, Side { mark: None, ..cut });
            }
        }
        // The first of the sequence is the side before, which has its own turn.
        result.extend(sequence.into_iter().skip(1));
    }
    result
}

/// The faces at a vertex that share no edge with `face` there, if all edges there are convex.
fn strangers(solid: &Solid, face: usize, vertex: usize) -> Vec<usize> {
    let edges = solid.edges();
    let at_vertex = || {
        edges
            .iter()
            .filter(|edge| edge.from == vertex || edge.to == vertex)
    };
    if at_vertex().count() < 4 || at_vertex().any(|edge| edge.angle > PI) {
        return Vec::new();
    }
    let neighbour = |other: usize| {
        at_vertex().any(|edge| {
            [edge.face, edge.twin] == [face, other] || [edge.twin, edge.face] == [face, other]
        })
    };
    let mut others: Vec<usize> = at_vertex()
        .flat_map(|edge| [edge.face, edge.twin])
        .filter(|&other| other != face && !neighbour(other))
        .collect();
    others.sort_unstable();
    others.dedup();
    others
}

/// Puts `cut` in between the sides of a corner where it takes something off. On a face where the
/// corner does not reach the cut, the cut just touches it, so that it never runs backwards.
fn cut_corner(sequence: Vec<Side>, cut: Side) -> Vec<Side> {
    let reach = |k: usize, face: PlateFace| {
        cut.normal
            .dot(corner(&sequence[k], &sequence[k + 1], face).to_vec())
    };
    let corners = 0..sequence.len() - 1;
    let past: Vec<usize> = corners
        .filter(|&k| {
            BOTH_FACES
                .iter()
                .any(|&face| reach(k, face) > cut.offset(face) + LEAST_NIP)
        })
        .collect();
    let (Some(&first), Some(&last)) = (past.first(), past.last()) else {
        return sequence;
    };
    let offset = |face: PlateFace| {
        let furthest = (first..=last)
            .map(|k| reach(k, face))
            .fold(f64::NEG_INFINITY, f64::max);
        cut.offset(face).min(furthest)
    };
    let cut = Side {
        outer: offset(PlateFace::Outside),
        inner: offset(PlateFace::Inside),
        ..cut
    };
    [&sequence[..=first], &[cut], &sequence[last + 1..]].concat()
}
