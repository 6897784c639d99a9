//! Constrained Delaunay triangles inside an outline.

use crate::vector::Point2;
use spade::{ConstrainedDelaunayTriangulation, Triangulation};
use std::collections::{BTreeSet, VecDeque};

/// What the triangles of a flat must keep.
pub(super) struct Lines {
    /// Places of the nodes on lines and of points.
    pub places: Vec<Point2>,
    /// Sides that must be there, as indices into `places`; edges of the flat come first.
    pub sides: Vec<[usize; 2]>,
    /// How many of them are edges of the flat.
    pub outline: usize,
}

/// Places and triangles over them.
#[derive(Clone)]
pub(super) struct Meshed {
    pub places: Vec<Point2>,
    pub triangles: Vec<[usize; 3]>,
}

/// The constrained Delaunay triangles over `places` that are inside the outline; the place of
/// a side that cannot be kept, if there is one.
pub(super) fn triangles(lines: &Lines, places: &[Point2]) -> Result<Vec<[usize; 3]>, Point2> {
    let middle = |[i, j]: [usize; 2]| places[i].midpoint(places[j]);
    let vertices = places
        .iter()
        .map(|p| spade::Point2::new(not_tiny(p.x), not_tiny(p.y)))
        .collect();
    let mut lost = None;
    let conflict = |side: [usize; 2]| lost = lost.or(Some(side));
    let mesh = ConstrainedDelaunayTriangulation::<spade::Point2<f64>>::try_bulk_load_cdt(
        vertices,
        lines.sides.clone(),
        conflict,
    )
    .map_err(|_| middle(lines.sides[0]))?;
    if mesh.num_vertices() != places.len() {
        return Err(middle(lost.unwrap_or(lines.sides[0])));
    }
    // A place exactly on a side would have cut it in two.
    let handle = spade::handles::FixedVertexHandle::from_index;
    let kept = |side: &&[usize; 2]| !mesh.exists_constraint(handle(side[0]), handle(side[1]));
    match lost.or(lines.sides.iter().find(kept).copied()) {
        Some(side) => Err(middle(side)),
        None => Ok(inside_faces(&mesh, &lines.sides[..lines.outline])),
    }
}

/// Faces reached from outside through an odd number of sides of the outline. Counting sides,
/// unlike testing centroids, cannot take a sliver along the hull for an inside face.
fn inside_faces(
    mesh: &ConstrainedDelaunayTriangulation<spade::Point2<f64>>,
    outline: &[[usize; 2]],
) -> Vec<[usize; 3]> {
    let outline: BTreeSet<(usize, usize)> =
        outline.iter().map(|&[i, j]| (i.min(j), i.max(j))).collect();
    let is_outline = |edge: spade::handles::DirectedEdgeHandle<_, _, _, _>| {
        let (i, j) = (edge.from().index(), edge.to().index());
        mesh.is_constraint_edge(edge.as_undirected().fix())
            && outline.contains(&(i.min(j), i.max(j)))
    };
    let mut inside: Vec<Option<bool>> = vec![None; mesh.num_all_faces()];
    inside[mesh.outer_face().fix().index()] = Some(false);
    let mut queue = VecDeque::new();
    for edge in mesh.convex_hull() {
        let face = edge.rev().face().fix();
        if inside[face.index()].is_none() {
            inside[face.index()] = Some(is_outline(edge));
            queue.push_back(face);
        }
    }
    while let Some(face) = queue.pop_front() {
        let here = inside[face.index()] == Some(true);
        let Some(face) = mesh.face(face).as_inner() else {
            continue;
        };
        for edge in face.adjacent_edges() {
            let next = edge.rev().face().fix();
            if inside[next.index()].is_none() {
                inside[next.index()] = Some(here != is_outline(edge));
                queue.push_back(next);
            }
        }
    }
    mesh.inner_faces()
        .filter(|face| inside[face.fix().index()] == Some(true))
        .map(|face| face.vertices().map(|vertex| vertex.fix().index()))
        .collect()
}

/// Zero for what rounding leaves of zero: the mesher refuses numbers under 1.8e-43, which
/// products of roundings reach and no length does.
fn not_tiny(v: f64) -> f64 {
    if v.abs() < 1e-30 { 0.0 } else { v }
}
