//! Where flats meet: the lines that must become lines of the mesh.

use super::fault::MeshFault;
use super::flat::Flat;
use super::line::LinePart;
use crate::frame::Plane;
use crate::polygon::Outline;
use crate::triangulate::triangulate;
use crate::vector::{Point2, Point3, Vec2};

/// A straight line in space with the flats it lies in.
#[derive(Clone, Debug)]
pub(super) struct Piece {
    /// First end.
    pub a: Point3,
    /// Second end; material of a flat that ends here is on the left.
    pub b: Point3,
    /// The flats, and how the line lies in each.
    pub flats: Vec<(usize, LinePart)>,
    /// The extra segment it comes from, by number in its flat.
    pub segment: Option<usize>,
    /// Whether it goes round a hole, and how long that hole's outline is, m.
    pub hole: Option<f64>,
}

/// All lines of the mesh before they are cut by each other: sides of outlines, common lines of
/// flats, extra segments.
pub(super) fn pieces(flats: &[Flat], merge: f64) -> Result<Vec<Piece>, MeshFault> {
    let mut pieces = sides(flats);
    let boxes: Vec<_> = flats.iter().map(bounds).collect();
    for a in 0..flats.len() {
        for b in a + 1..flats.len() {
            if boxes_touch(boxes[a], boxes[b], merge) {
                pieces.extend(common_lines(flats, a, b, merge));
            }
        }
    }
    pieces.extend(segments(flats, merge)?);
    Ok(pieces)
}

/// Refuses flats in one plane that lie on each other.
pub(super) fn check_no_overlap(flats: &[Flat], merge: f64) -> Result<(), MeshFault> {
    let boxes: Vec<_> = flats.iter().map(bounds).collect();
    for a in 0..flats.len() {
        for b in a + 1..flats.len() {
            if boxes_touch(boxes[a], boxes[b], merge)
                && coplanar(&flats[a], &flats[b], merge)
                && let Some(place) = common_place(&flats[a], &flats[b], merge)
                    .or_else(|| common_place(&flats[b], &flats[a], merge))
            {
                return Err(MeshFault::Overlap(a, b, place));
            }
        }
    }
    Ok(())
}

/// Whether a place is in the closed polygon, give or take `merge`.
pub(super) fn covers(outlines: &[Outline], p: Point2, merge: f64) -> bool {
    on_outline(outlines, p, merge) || inside(outlines, p)
}

fn sides(flats: &[Flat]) -> Vec<Piece> {
    let mut pieces = Vec::new();
    for (index, flat) in flats.iter().enumerate() {
        for (number, outline) in flat.outlines.iter().enumerate() {
            let hole = (number > 0).then(|| outline.perimeter());
            pieces.extend(outline.sides().map(|(a, b)| Piece {
                a: flat.frame.world_from_flat(a),
                b: flat.frame.world_from_flat(b),
                flats: vec![(index, LinePart::Edge)],
                segment: None,
                hole,
            }));
        }
    }
    pieces
}

/// The parts of the line of two planes that lie in both flats.
fn common_lines(flats: &[Flat], a: usize, b: usize, merge: f64) -> Vec<Piece> {
    let (first, second) = (&flats[a], &flats[b]);
    let (p, q) = (first.frame.plane(), second.frame.plane());
    let way = p.normal.cross(q.normal);
    let Some(direction) = way.unit().filter(|_| way.length() > PARALLEL_SINE) else {
        return Vec::new();
    };
    let near = first.frame.world_from_flat(first.outlines[0].0[0]);
    let Some(start) = Plane::through(near, direction).and_then(|r| Plane::meet(&p, &q, &r)) else {
        return Vec::new();
    };
    let spans = |flat: &Flat| {
        let origin = flat.frame.flat_from_world(start);
        let along = flat.frame.flat_from_world_vec(direction);
        spans(&flat.outlines, origin, along, merge)
    };
    let mut pieces = Vec::new();
    let theirs = spans(second);
    for (low, high) in spans(first) {
        for &(from, to) in &theirs {
            let (from, to) = (low.max(from), high.min(to));
            if to - from > merge {
                pieces.push(Piece {
                    a: start + direction * from,
                    b: start + direction * to,
                    flats: vec![(a, LinePart::Interior), (b, LinePart::Interior)],
                    segment: None,
                    hole: None,
                });
            }
        }
    }
    pieces
}

fn segments(flats: &[Flat], merge: f64) -> Result<Vec<Piece>, MeshFault> {
    let mut pieces = Vec::new();
    for (index, flat) in flats.iter().enumerate() {
        for (number, &(a, b)) in flat.segments.iter().enumerate() {
            let length = a.distance(b);
            let outside = MeshFault::SegmentOutside(index, number);
            let along = (b - a)
                .unit()
                .filter(|_| length > merge)
                .ok_or(outside.clone())?;
            let parts: Vec<_> = spans(&flat.outlines, a, along, merge)
                .into_iter()
                .map(|(from, to)| (from.max(0.0), to.min(length)))
                .filter(|(from, to)| to - from > merge)
                .collect();
            if parts.is_empty() {
                return Err(outside);
            }
            pieces.extend(parts.into_iter().map(|(from, to)| Piece {
                a: flat.frame.world_from_flat(a + along * from),
                b: flat.frame.world_from_flat(a + along * to),
                flats: vec![(index, LinePart::Interior)],
                segment: Some(number),
                hole: None,
            }));
        }
        for (number, &point) in flat.points.iter().enumerate() {
            if !covers(&flat.outlines, point, merge) {
                return Err(MeshFault::PointOutside(index, number));
            }
        }
    }
    Ok(pieces)
}

/// The parts of a line inside the closed polygon, as distances along it; sides that lie on the
/// line within `merge` count as inside.
fn spans(outlines: &[Outline], origin: Point2, along: Vec2, merge: f64) -> Vec<(f64, f64)> {
    let mut cuts = Vec::new();
    for (a, b) in outlines.iter().flat_map(Outline::sides) {
        let (u, v) = (a - origin, b - origin);
        let (left_a, left_b) = (along.cross(u), along.cross(v));
        if left_a.abs() <= merge {
            cuts.push(along.dot(u));
        }
        let cross =
            left_a.abs() > merge && left_b.abs() > merge && (left_a > 0.0) != (left_b > 0.0);
        if cross {
            let share = left_a / (left_a - left_b);
            cuts.push(along.dot(u + (v - u) * share));
        }
    }
    cuts.sort_by(f64::total_cmp);
    let middle = |from: f64, to: f64| origin + along * ((from + to) / 2.0);
    cuts.windows(2)
        .map(|cut| (cut[0], cut[1]))
        .filter(|&(from, to)| to - from > merge && covers(outlines, middle(from, to), merge))
        .collect()
}

fn on_outline(outlines: &[Outline], p: Point2, merge: f64) -> bool {
    outlines.iter().any(|outline| outline.distance(p) <= merge)
}

fn inside(outlines: &[Outline], p: Point2) -> bool {
    outlines[0].contains(p) && !outlines[1..].iter().any(|hole| hole.contains(p))
}

fn coplanar(a: &Flat, b: &Flat, merge: f64) -> bool {
    let (p, q) = (a.frame.plane(), b.frame.plane());
    let near = |flat: &Flat, plane: &Plane| {
        let mut corners = flat.outlines[0].0.iter();
        corners.all(|&c| plane.distance(flat.frame.world_from_flat(c)).abs() <= merge)
    };
    p.normal.cross(q.normal).length() <= PARALLEL_SINE && near(a, &q) && near(b, &p)
}

/// A place of `flat` that is strictly inside `other`, of two flats in one plane. Where two
/// polygons overlap a part of a side of one is inside the other, unless they are the same.
fn common_place(flat: &Flat, other: &Flat, merge: f64) -> Option<Point3> {
    let across = |p: Point2| other.frame.flat_from_world(flat.frame.world_from_flat(p));
    let strictly = |p: Point2| inside(&other.outlines, p) && !on_outline(&other.outlines, p, merge);
    let on_side = |(a, b): (Point2, Point2)| {
        let (a, b) = (across(a), across(b));
        let along = (b - a).unit()?;
        spans(&other.outlines, a, along, merge)
            .into_iter()
            .map(|(from, to)| (from.max(0.0), to.min(a.distance(b))))
            .filter(|(from, to)| to - from > merge)
            .map(|(from, to)| a + along * ((from + to) / 2.0))
            .find(|&p| strictly(p))
    };
    let sides = flat.outlines.iter().flat_map(Outline::sides);
    let corners: Vec<_> = flat
        .outlines
        .iter()
        .flat_map(|o| o.0.iter().copied())
        .collect();
    let centre = |t: [usize; 3]| {
        let [a, b, c] = t.map(|i| corners[i].to_vec());
        let sum = (a + b + c) / 3.0;
        across(Point2::new(sum.x, sum.y))
    };
    let area = |t: &[usize; 3]| {
        let [a, b, c] = t.map(|i| corners[i]);
        (b - a).cross(c - a)
    };
    let middle = || {
        let triangles = triangulate(&flat.outlines);
        let largest = triangles
            .into_iter()
            .max_by(|a, b| area(a).total_cmp(&area(b)))?;
        Some(centre(largest)).filter(|&p| strictly(p))
    };
    let place = sides.into_iter().find_map(on_side).or_else(middle)?;
    Some(other.frame.world_from_flat(place))
}

fn bounds(flat: &Flat) -> (Point3, Point3) {
    let mut low = Point3::new(f64::INFINITY, f64::INFINITY, f64::INFINITY);
    let mut high = Point3::new(f64::NEG_INFINITY, f64::NEG_INFINITY, f64::NEG_INFINITY);
    for &corner in &flat.outlines[0].0 {
        let p = flat.frame.world_from_flat(corner);
        low = Point3::new(low.x.min(p.x), low.y.min(p.y), low.z.min(p.z));
        high = Point3::new(high.x.max(p.x), high.y.max(p.y), high.z.max(p.z));
    }
    (low, high)
}

fn boxes_touch(a: (Point3, Point3), b: (Point3, Point3), merge: f64) -> bool {
    let apart = |low: f64, high: f64| low > high + merge;
    !(apart(a.0.x, b.1.x)
        || apart(b.0.x, a.1.x)
        || apart(a.0.y, b.1.y)
        || apart(b.0.y, a.1.y)
        || apart(a.0.z, b.1.z)
        || apart(b.0.z, a.1.z))
}

/// Planes that lean less than this to each other (sine; 0.006 degrees) are taken as parallel:
/// rounding of 1e-9 m would move their common line by more than 0.01 mm. Their shared edges
/// are found all the same.
const PARALLEL_SINE: f64 = 1e-4;
