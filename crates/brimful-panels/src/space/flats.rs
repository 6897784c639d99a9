//! Flats for twisted sides: one a side, or two triangles.
//!
//! A flat panel stays inside a ruled side where it leaves every point of the side outside it that
//! the tank can be near: between the caps and the flat sides, each moved in by what is kept free at
//! it. Those points are the ends of the strips' lines and diagonals within that reach. Of the planes
//! that leave all of them outside the one with the least mean distance loses least; as that is a
//! linear programme in the three numbers of a plane, the best one touches three of the points.

use super::kept::kept_at;
use super::stretch::{Stretch, fourth_off, inner_diagonal};
use super::tolerance::{ROUNDING, TAPE};
use brimful_geom::boolean::{BooleanFault, clip, union};
use brimful_geom::frame::Plane;
use brimful_geom::solid::Solid;
use brimful_geom::vector::{Point3, Vec3};
use brimful_job::{Space, Twisted};

/// Strips along a side at whose lines the plane is held outside. Between them it is held by the
/// diagonals, so more only lose less.
const LINES: usize = 8;

/// The room between two convex sections, all that is kept free taken off, with flats on its twisted
/// sides; none where a section has inside corners.
pub(super) fn kept_within(
    space: &Space,
    stretch: &Stretch<'_>,
) -> Result<Option<Solid>, BooleanFault> {
    if !(convex(stretch, 0.0) && convex(stretch, 1.0)) {
        return Ok(None);
    }
    let sides = stretch.sides();
    let mut planes = vec![
        Plane {
            normal: -Vec3::X,
            offset: -stretch.from.x,
        },
        Plane {
            normal: Vec3::X,
            offset: stretch.to.x,
        },
    ];
    let flat = |side: &[Point3; 4]| fourth_off(side) < TAPE;
    planes.extend(sides.iter().filter(|side| flat(side)).filter_map(outermost));
    let kept = |plane: &Plane| plane.moved(-kept_at(space, plane.normal).m());
    let reach: Vec<Plane> = planes.iter().map(kept).collect();
    let (low, high) = bounds(&sides);
    let mut solid = Solid::cuboid(low, high);
    for plane in &reach {
        solid = clip(&solid, plane)?;
    }
    for (number, side) in sides.iter().enumerate().filter(|(_, side)| !flat(side)) {
        solid = match space.twisted {
            Twisted::Flat => match supporting(&points(stretch, number, &reach), side) {
                Some(plane) => clip(&solid, &kept(&plane))?,
                None => return Ok(None),
            },
            // The fold is an inside corner: what is behind either plane is in the room.
            Twisted::TwoTriangles => {
                let parts = halves_of(side)
                    .iter()
                    .map(|plane| clip(&solid, &kept(plane)))
                    .collect::<Result<Vec<Solid>, _>>()?;
                union(&parts.iter().collect::<Vec<_>>())?
            }
        };
    }
    Ok(Some(solid))
}

/// The planes of the two triangles of a side, along the diagonal further in.
fn halves_of(side: &[Point3; 4]) -> Vec<Plane> {
    let triangles = match inner_diagonal(side) {
        [0, 2] => [[0, 1, 2], [0, 2, 3]],
        _ => [[1, 2, 3], [1, 3, 0]],
    };
    triangles
        .into_iter()
        .filter_map(|corners| {
            let [a, b, c] = corners.map(|corner| side[corner]);
            Plane::through(a, (b - a).cross(c - a))
        })
        .collect()
}

fn convex(stretch: &Stretch<'_>, share: f64) -> bool {
    let points = stretch.section(share).outline.0;
    let n = points.len();
    (0..n).all(|i| {
        let (a, b, c) = (points[i], points[(i + 1) % n], points[(i + 2) % n]);
        (b - a).cross(c - b) > -ROUNDING
    })
}

/// The plane of a side that is flat to a tape's reading: through three corners, the fourth outside.
fn outermost(side: &[Point3; 4]) -> Option<Plane> {
    supporting(side, side)
}

fn bounds(sides: &[[Point3; 4]]) -> (Point3, Point3) {
    // Past the corners, so that the sides and not the block cut.
    const PAST: f64 = 1.0;
    let points = || sides.iter().flatten();
    let reach = |along: fn(&Point3) -> f64| {
        points()
            .map(along)
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), v| {
                (low.min(v - PAST), high.max(v + PAST))
            })
    };
    let (x, y, z) = (reach(|p| p.x), reach(|p| p.y), reach(|p| p.z));
    (Point3::new(x.0, y.0, z.0), Point3::new(x.1, y.1, z.1))
}

/// The points of a side that a plane must leave outside.
fn points(stretch: &Stretch<'_>, side: usize, reach: &[Plane]) -> Vec<Point3> {
    // Within the caps, so that no line is lost to them.
    let from = share_within(stretch, reach, 0.0);
    let to = share_within(stretch, reach, 1.0);
    let line = |step: usize| {
        let share = from + (to - from) * step as f64 / LINES as f64;
        let section = stretch.section(share);
        let n = section.outline.0.len();
        [side, (side + 1) % n].map(|corner| {
            let p = section.outline.0[corner];
            Point3::new(section.x, p.x, p.y)
        })
    };
    let mut points = Vec::new();
    for step in 0..=LINES {
        let rear = line(step);
        points.extend(clipped(rear, reach));
        if step < LINES {
            let front = line(step + 1);
            let ring = [rear[0], rear[1], front[1], front[0]];
            points.extend(clipped(inner_diagonal(&ring).map(|end| ring[end]), reach));
        }
    }
    points
}

/// The share of the stretch nearest to `share` that lies within the caps of the reach.
fn share_within(stretch: &Stretch<'_>, reach: &[Plane], share: f64) -> f64 {
    let length = stretch.to.x - stretch.from.x;
    let in_by = |cap: &Plane, at: f64| ((at - cap.offset * cap.normal.x) / length).abs();
    match share < 0.5 {
        true => in_by(&reach[0], stretch.from.x),
        false => 1.0 - in_by(&reach[1], stretch.to.x),
    }
}

/// The ends of what of a line lies within all planes; nothing where none of it does.
fn clipped([a, b]: [Point3; 2], planes: &[Plane]) -> Vec<Point3> {
    let (mut from, mut to) = (0.0_f64, 1.0_f64);
    for plane in planes {
        let (at_a, at_b) = (plane.distance(a), plane.distance(b));
        match (at_a > ROUNDING, at_b > ROUNDING) {
            (true, true) => return Vec::new(),
            (true, false) => from = from.max(at_a / (at_a - at_b)),
            (false, true) => to = to.min(at_a / (at_a - at_b)),
            (false, false) => {}
        }
    }
    if from > to {
        return Vec::new();
    }
    vec![a + (b - a) * from, a + (b - a) * to]
}

/// The plane that leaves all points outside or on it with the least mean distance, looking the way
/// the side does.
fn supporting(points: &[Point3], [a, b, c, d]: &[Point3; 4]) -> Option<Plane> {
    let out = (*c - *a).cross(*d - *b);
    let mut best: Option<(f64, Plane)> = None;
    for (i, &p) in points.iter().enumerate() {
        for (j, &q) in points.iter().enumerate().skip(i + 1) {
            for &r in &points[j + 1..] {
                let normal = (q - p).cross(r - p);
                let outward = if normal.dot(out) < 0.0 {
                    -normal
                } else {
                    normal
                };
                let Some(plane) = Plane::through(p, outward) else {
                    continue;
                };
                let distances = points.iter().map(|&point| plane.distance(point));
                let (least, sum) = distances.fold((f64::INFINITY, 0.0), |(least, sum), off| {
                    (f64::min(least, off), sum + off)
                });
                let better = best.as_ref().is_none_or(|(most, _)| sum < *most - ROUNDING);
                if least > -ROUNDING && better {
                    best = Some((sum, plane));
                }
            }
        }
    }
    best.map(|(_, plane)| plane)
}
