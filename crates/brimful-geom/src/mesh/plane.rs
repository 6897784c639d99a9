//! One flat as triangles over its divided edges and a lattice.

use super::arrange::{Arrangement, Edge, EdgeFlat};
use super::fill::{Ground, lattice};
use super::size::{SizeField, Source};
use super::{Flat, LinePart, MeshFault, fault, repair};
use crate::polygon::Outline;
use crate::vector::{Point2, Vec2};
use spade::{ConstrainedDelaunayTriangulation, Triangulation};
use std::collections::{BTreeMap, BTreeSet, VecDeque};

/// The triangles of one flat, as indices into `fixed` and then `inner`.
pub(super) struct Part {
    /// Nodes of the whole mesh on the lines of the flat.
    pub fixed: Vec<usize>,
    /// Places of the nodes of this flat alone.
    pub inner: Vec<Point2>,
    /// Counter-clockwise in the flat's frame.
    pub triangles: Vec<[usize; 3]>,
}

/// What the triangles of a flat must keep.
pub(super) struct Lines {
    /// Places of the nodes on lines and of points.
    pub places: Vec<Point2>,
    /// Sides that must be there, as indices into `places`; edges of the flat come first.
    pub sides: Vec<[usize; 2]>,
    /// How many of them are edges of the flat.
    pub outline: usize,
}

/// Meshes flat number `index` with at most `room` nodes of its own.
pub(super) fn fill_flat(
    flats: &[Flat],
    index: usize,
    arrangement: &Arrangement,
    field: &SizeField,
    merge: f64,
    room: usize,
) -> Result<Part, MeshFault> {
    let flat = &flats[index];
    let (fixed, lines) = lines_of(flat, index, arrangement);
    if lines.outline < 3 {
        let place = flat.frame.world_from_flat(flat.outlines[0].0[0]);
        return Err(MeshFault::SidesTouch(index, place));
    }
    let segment = |&[i, j]: &[usize; 2]| (lines.places[i], lines.places[j]);
    let mut segments: Vec<_> = lines.sides.iter().map(segment).collect();
    segments.extend(flat.points.iter().map(|&p| (p, p)));
    let field = own_field(flat, field, &segments);
    let ground = Ground {
        frame: &flat.frame,
        segments: &segments,
        outlines: &flat.outlines,
        field: &field,
        cap: flat.size,
    };
    let too_many = || MeshFault::TooManyNodes(index, room);
    let inner = lattice(&ground, room).ok_or_else(too_many)?;
    let cross = |place: Point2| MeshFault::LinesCross(index, flat.frame.world_from_flat(place));
    let meshed = repair::best(&lines, inner).map_err(cross)?;
    let part = Part {
        fixed,
        inner: meshed.places[lines.places.len()..].to_vec(),
        triangles: meshed.triangles,
    };
    check_area(flat, index, &lines, &meshed.places, &part.triangles, merge)?;
    Ok(part)
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

/// The nodes of a flat's lines and points, and the lines between them.
fn lines_of(flat: &Flat, index: usize, arrangement: &Arrangement) -> (Vec<usize>, Lines) {
    let mut local: BTreeMap<usize, usize> = BTreeMap::new();
    let mut fixed = Vec::new();
    let mut number = |node: usize| {
        *local.entry(node).or_insert_with(|| {
            fixed.push(node);
            fixed.len() - 1
        })
    };
    let (mut sides, mut outline) = (Vec::new(), 0);
    for wanted in [LinePart::Edge, LinePart::Interior] {
        let part = |(_, lies): &(&Edge, &EdgeFlat)| lies.part == wanted;
        for (edge, lies) in arrangement.edges_of(index).filter(part) {
            for pair in edge.nodes.windows(2) {
                let (i, j) = (number(pair[0]), number(pair[1]));
                let backward = wanted == LinePart::Edge && !lies.forward;
                sides.push(if backward { [j, i] } else { [i, j] });
            }
        }
        if wanted == LinePart::Edge {
            outline = sides.len();
        }
    }
    for &node in &arrangement.points[index] {
        number(node);
    }
    let place = |&node: &usize| flat.frame.flat_from_world(arrangement.nodes[node]);
    let places = fixed.iter().map(place).collect();
    let lines = Lines {
        places,
        sides,
        outline,
    };
    (fixed, lines)
}

/// The size field near one flat, with the lengths its lines have in the end.
fn own_field(flat: &Flat, field: &SizeField, segments: &[(Point2, Point2)]) -> SizeField {
    let (low, high) = flat.outlines[0].bounds();
    let centre = flat.frame.world_from_flat(low.midpoint(high));
    let near = field.near(&field.all(), centre, low.distance(high) / 2.0, flat.size);
    let mut sources: Vec<_> = near.iter().map(|&i| field.sources[i]).collect();
    let short = segments
        .iter()
        .filter(|(a, b)| a != b && a.distance(*b) < SHORT * flat.size);
    sources.extend(short.map(|&(a, b)| Source {
        a: flat.frame.world_from_flat(a),
        b: flat.frame.world_from_flat(b),
        size: a.distance(b),
    }));
    SizeField {
        sources,
        growth: field.growth,
    }
}

/// Compares the triangles with the polygon they fill, and that with the polygon given.
fn check_area(
    flat: &Flat,
    index: usize,
    lines: &Lines,
    places: &[Point2],
    triangles: &[[usize; 3]],
    merge: f64,
) -> Result<(), MeshFault> {
    let origin = places[0];
    let cross = |i: usize, j: usize| (places[i] - origin).cross(places[j] - origin);
    let twice = |&[i, j, k]: &[usize; 3]| (places[j] - places[i]).cross(places[k] - places[i]);
    let found = triangles.iter().map(twice).sum::<f64>() / 2.0;
    let outline = &lines.sides[..lines.outline];
    let filled = outline.iter().map(|&[i, j]| cross(i, j)).sum::<f64>() / 2.0;
    let given = fault::area(&flat.outlines);
    let around: f64 = flat.outlines.iter().map(Outline::perimeter).sum();
    let rounding = AREA_ROUNDING * given.abs();
    let folded = triangles.iter().any(|t| twice(t) <= 0.0);
    if folded
        || (found - filled).abs() > rounding
        || (found - given).abs() > rounding + merge * around
    {
        return Err(MeshFault::AreaLost(index, found, given));
    }
    Ok(())
}

/// Zero for what rounding leaves of zero: the mesher refuses numbers under 1.8e-43, which
/// products of roundings reach and no length does.
fn not_tiny(v: f64) -> f64 {
    if v.abs() < 1e-30 { 0.0 } else { v }
}

/// Quality of a triangle: its area over that of the equilateral one with the same sum of squared
/// sides; 1 at best, negative where it is folded over.
pub(super) fn shape(a: Point2, b: Point2, c: Point2) -> f64 {
    let squared = |v: Vec2| v.dot(v);
    let sum = squared(b - a) + squared(c - b) + squared(a - c);
    2.0 * 3.0_f64.sqrt() * (b - a).cross(c - a) / sum
}

/// Sides shorter than this share of the flat's size make elements near them smaller.
const SHORT: f64 = 0.8;
/// Rounding of sums over many triangles, relative to the area.
const AREA_ROUNDING: f64 = 1e-9;
