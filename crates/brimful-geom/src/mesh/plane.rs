//! One flat as triangles over its divided edges and a lattice.

use super::arrange::{Arrangement, Edge, EdgeFlat};
use super::delaunay::Lines;
use super::fault::MeshFault;
use super::fill::{Ground, lattice};
use super::flat::Flat;
use super::line::LinePart;
use super::repair;
use super::size::{SizeField, Source};
use crate::polygon::Outline;
use crate::vector::Point2;
use std::collections::BTreeMap;

/// The triangles of one flat, as indices into `fixed` and then `inner`.
pub(super) struct Part {
    /// Nodes of the whole mesh on the lines of the flat.
    pub fixed: Vec<usize>,
    /// Places of the nodes of this flat alone.
    pub inner: Vec<Point2>,
    /// Counter-clockwise in the flat's frame.
    pub triangles: Vec<[usize; 3]>,
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
    let given = flat.area();
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

/// Sides shorter than this share of the flat's size make elements near them smaller.
const SHORT: f64 = 0.8;
/// Rounding of sums over many triangles, relative to the area.
const AREA_ROUNDING: f64 = 1e-9;
