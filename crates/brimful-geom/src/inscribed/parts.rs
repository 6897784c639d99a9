//! What is about a solid, cut into convex parts along the planes of the solid's own faces.
//!
//! A binary space partition (W. C. Thibault and B. F. Naylor, "Set operations on polyhedra using
//! binary space partitioning trees", Computer Graphics 21 (1987), from memory): a cell with pieces
//! of faces in it is cut along one of them, until none is left inside; the last cut says on which side
//! the solid is. Cells and pieces are convex and cut one by one, so that no rounding can keep them
//! from being put together; that they are right is checked by their volume.

use super::cell::{Cell, Ring, parted};
use crate::frame::Plane;
use crate::solid::Solid;
use crate::triangulate::triangulate;
use std::collections::BTreeMap;

/// More cells than this are refused.
const MOST_CELLS: usize = 4000;

/// A piece of a face, by the face's number.
#[derive(Clone)]
struct Piece {
    face: usize,
    ring: Ring,
}

/// Convex parts of `hull`, which holds the whole solid, that together are all of it that is not the
/// solid; none thinner than `least`. `walls` says of each face whether it bounds the hull.
///
/// `None` where the parts are not that: the solid is not a proper one.
pub fn parts_about(solid: &Solid, hull: &Cell, walls: &[bool], least: f64) -> Option<Vec<Cell>> {
    let mut parts = Vec::new();
    for group in groups(solid, walls) {
        let mut pieces = Vec::new();
        for face in group {
            pieces.extend(convex_pieces(solid, face)?);
        }
        parts.extend(cells_before(solid, hull.clone(), pieces)?);
    }
    let about: f64 = parts.iter().map(Cell::volume).sum();
    let want = hull.volume() - solid.moments().volume;
    // What is thinner than `least` along the faces may count either way.
    if (about - want).abs() > least * solid.area() {
        return None;
    }
    parts.retain(|part| part.width() > least);
    Some(parts)
}

/// The faces that are no walls, those together that hang together by their corners: each group bounds
/// a room about the solid of its own. Where the solid is of several pieces a room may lie between
/// two of them, and all are taken together.
fn groups(solid: &Solid, walls: &[bool]) -> Vec<Vec<usize>> {
    let inner: Vec<usize> = (0..solid.faces.len()).filter(|&f| !walls[f]).collect();
    let all: Vec<usize> = (0..solid.faces.len()).collect();
    let is_piece = |shell: &Vec<usize>| {
        let faces = shell.iter().map(|&f| solid.faces[f].clone()).collect();
        let vertices = solid.vertices.clone();
        Solid { vertices, faces }.moments().volume > 0.0
    };
    let shells = hanging_together(solid, &all);
    match shells.iter().filter(|shell| is_piece(shell)).count() {
        0 | 1 => hanging_together(solid, &inner),
        _ => vec![inner],
    }
}

/// Faces in groups that share corners.
fn hanging_together(solid: &Solid, faces: &[usize]) -> Vec<Vec<usize>> {
    let mut at_corner: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    for &face in faces {
        for &corner in solid.faces[face].loops.iter().flatten() {
            at_corner.entry(corner).or_default().push(face);
        }
    }
    let mut seen = vec![false; solid.faces.len()];
    let mut groups = Vec::new();
    for &first in faces {
        if seen[first] {
            continue;
        }
        seen[first] = true;
        let mut group = vec![first];
        let mut next = 0;
        while next < group.len() {
            for corner in solid.faces[group[next]].loops.iter().flatten() {
                for &other in &at_corner[corner] {
                    if !seen[other] {
                        seen[other] = true;
                        group.push(other);
                    }
                }
            }
            next += 1;
        }
        groups.push(group);
    }
    groups
}

/// A face as triangles; none where it crosses itself.
fn convex_pieces(solid: &Solid, face: usize) -> Option<Vec<Piece>> {
    let triangles = triangulate(&solid.face_outlines(face, &solid.face_frame(face)));
    let corners: Vec<usize> = solid.faces[face].loops.iter().flatten().copied().collect();
    let piece = |triangle: &[usize; 3]| Piece {
        face,
        ring: triangle.map(|i| solid.vertices[corners[i]]).to_vec(),
    };
    (!triangles.is_empty()).then(|| triangles.iter().map(piece).collect())
}

/// The cells of `hull` that lie before the pieces.
fn cells_before(solid: &Solid, hull: Cell, pieces: Vec<Piece>) -> Option<Vec<Cell>> {
    let mut outside = Vec::new();
    let mut waiting = vec![(hull, pieces)];
    let mut made = 0;
    while let Some((cell, pieces)) = waiting.pop() {
        made += 1;
        if made > MOST_CELLS {
            return None;
        }
        let Some(cut) = best_cut(solid, &pieces) else {
            continue;
        };
        let (behind, before) = divided(&pieces, &cut);
        let solid_behind = behind.is_empty();
        let open_before = before.is_empty();
        if let Some(half) = cell.behind(&cut)
            && !solid_behind
        {
            waiting.push((half, behind));
        }
        if let Some(half) = cell.behind(&cut.flipped()) {
            match open_before {
                true => outside.push(half),
                false => waiting.push((half, before)),
            }
        }
    }
    Some(outside)
}

/// The pieces behind and before a plane; those in it are used up.
fn divided(pieces: &[Piece], plane: &Plane) -> (Vec<Piece>, Vec<Piece>) {
    let (mut all_behind, mut all_before) = (Vec::new(), Vec::new());
    for Piece { face, ring } in pieces {
        let (behind, before) = parted(ring, plane);
        for (ring, list) in [(behind, &mut all_behind), (before, &mut all_before)] {
            if !ring.is_empty() {
                list.push(Piece { face: *face, ring });
            }
        }
    }
    (all_behind, all_before)
}

/// The plane of the face that cuts the fewest pieces in two; among those one that leaves nothing on
/// a side, then the first.
fn best_cut(solid: &Solid, pieces: &[Piece]) -> Option<Plane> {
    let mut faces: Vec<usize> = pieces.iter().map(|piece| piece.face).collect();
    faces.sort_unstable();
    faces.dedup();
    let cost = |&face: &usize| {
        let (mut halved, mut behind, mut before) = (0, 0, 0);
        for piece in pieces {
            let (near, far) = parted(&piece.ring, &solid.faces[face].plane);
            halved += usize::from(!near.is_empty() && !far.is_empty());
            behind += near.len();
            before += far.len();
        }
        (halved, behind.min(before))
    };
    let best = faces.into_iter().min_by_key(cost)?;
    Some(solid.faces[best].plane)
}
