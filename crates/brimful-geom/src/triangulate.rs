//! Faces with holes as triangles over their own corners, by constrained Delaunay triangulation.

use crate::polygon::Outline;
use crate::solid::Solid;
use spade::handles::FixedVertexHandle;
use spade::{ConstrainedDelaunayTriangulation, Triangulation};
use std::collections::VecDeque;

/// The faces of a solid as triangles over its vertices; none for a face that crosses itself.
pub fn solid_triangles(solid: &Solid) -> Vec<[usize; 3]> {
    let mut all = Vec::new();
    for (index, face) in solid.faces.iter().enumerate() {
        let outlines = solid.face_outlines(index, &solid.face_frame(index));
        let corners: Vec<usize> = face.loops.iter().flatten().copied().collect();
        let triangles = triangulate(&outlines);
        all.extend(triangles.into_iter().map(|t| t.map(|i| corners[i])));
    }
    all
}

/// Triangles over the corners of `outlines` (outer loop and holes that do not cross), as indices
/// into all corners counted through; counter-clockwise. Empty if the loops cannot be meshed.
pub fn triangulate(outlines: &[Outline]) -> Vec<[usize; 3]> {
    let mut mesh = ConstrainedDelaunayTriangulation::<spade::Point2<f64>>::new();
    let mut corner_of_vertex: Vec<usize> = Vec::new();
    let mut first = 0;
    for outline in outlines {
        let Some(handles) = insert(&mut mesh, outline, first, &mut corner_of_vertex) else {
            return Vec::new();
        };
        for i in 0..handles.len() {
            let (a, b) = (handles[i], handles[(i + 1) % handles.len()]);
            if a == b || !mesh.can_add_constraint(a, b) {
                return Vec::new();
            }
            mesh.add_constraint(a, b);
        }
        first += outline.0.len();
    }
    inside_faces(&mesh)
        .into_iter()
        .map(|vertices| vertices.map(|v| corner_of_vertex[v.index()]))
        .collect()
}

fn insert(
    mesh: &mut ConstrainedDelaunayTriangulation<spade::Point2<f64>>,
    outline: &Outline,
    first: usize,
    corner_of_vertex: &mut Vec<usize>,
) -> Option<Vec<FixedVertexHandle>> {
    let mut handles = Vec::with_capacity(outline.0.len());
    for (i, p) in outline.0.iter().enumerate() {
        let handle = mesh
            .insert(spade::Point2::new(not_tiny(p.x), not_tiny(p.y)))
            .ok()?;
        if handle.index() == corner_of_vertex.len() {
            corner_of_vertex.push(first + i);
        }
        handles.push(handle);
    }
    Some(handles)
}

/// Zero for what rounding leaves of zero: the mesher refuses numbers under 1.8e-43, which
/// products of roundings reach and no length does.
fn not_tiny(v: f64) -> f64 {
    if v.abs() < 1e-30 { 0.0 } else { v }
}

/// Triangles reached from outside through an odd number of loop sides. Counting sides, unlike
/// testing centroids, cannot take a sliver along the hull for an inside face.
fn inside_faces(
    mesh: &ConstrainedDelaunayTriangulation<spade::Point2<f64>>,
) -> Vec<[FixedVertexHandle; 3]> {
    let mut inside: Vec<Option<bool>> = vec![None; mesh.num_all_faces()];
    let outer = mesh.outer_face().fix();
    inside[outer.index()] = Some(false);
    let mut queue = VecDeque::new();
    for edge in mesh.convex_hull() {
        let face = edge.rev().face();
        if inside[face.fix().index()].is_none() {
            inside[face.fix().index()] = Some(mesh.is_constraint_edge(edge.as_undirected().fix()));
            queue.push_back(face.fix());
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
                let crosses = mesh.is_constraint_edge(edge.as_undirected().fix());
                inside[next.index()] = Some(here != crosses);
                queue.push_back(next);
            }
        }
    }
    mesh.inner_faces()
        .filter(|face| inside[face.fix().index()] == Some(true))
        .map(|face| face.vertices().map(|vertex| vertex.fix()))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::vector::Point2;

    #[test]
    fn a_frame_with_two_holes_keeps_its_area() {
        let outer = Outline::rectangle(1.0, 0.6);
        let hole = |x: f64| Outline::round(Point2::new(x, 0.3), 0.1, 24).reversed();
        let outlines = [outer, hole(0.3), hole(0.7)];
        let corners: Vec<_> = outlines.iter().flat_map(|o| o.0.clone()).collect();
        let area: f64 = triangulate(&outlines)
            .iter()
            .map(|&[a, b, c]| {
                let twice = (corners[b] - corners[a]).cross(corners[c] - corners[a]);
                assert!(twice > 0.0);
                twice / 2.0
            })
            .sum();
        let want: f64 = outlines.iter().map(Outline::signed_area).sum();
        assert!((area - want).abs() < 1e-14, "{area} {want}");
    }
}
