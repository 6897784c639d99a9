//! The room between planes cut into convex cells, and some of them put together again.

use super::planes::{Found, Sample};
use crate::boolean::{BooleanFault, clip, difference};
use crate::frame::Plane;
use crate::solid::Solid;
use crate::vector::{Point3, Vec3};

/// Points of a plane in a cell from which on the cell is cut by it.
const CUTTING_SAMPLES: usize = 4;

/// Cells with less volume than this share of the whole are not cut further and are left out.
const LEAST_CELL: f64 = 1e-7;

/// Most cells.
const MOST_CELLS: usize = 3000;

/// Depths below this are none, metres: corners of a few metres carry less rounding.
const TOUCH: f64 = 1e-8;

/// Volumes below this are none, m3.
const NOTHING: f64 = 1e-12;

/// Convex cells between the planes, within the box round all samples.
pub fn cells(
    found: &[Found],
    planes: &[Plane],
    samples: &[Sample],
    slack: f64,
) -> Result<Vec<Solid>, BooleanFault> {
    let (low, high) = bounds(samples.iter().map(|s| s.place));
    let room = Vec3::new(1.0, 1.0, 1.0) * (4.0 * slack + 0.01 * low.distance(high));
    let whole = Solid::cuboid(low - room, high + room);
    let least = LEAST_CELL * whole.moments().volume;
    let mut cells = vec![whole];
    for (found, plane) in found.iter().zip(planes) {
        let mut next = Vec::new();
        for cell in cells {
            let inside = |i: &&usize| {
                let deep =
                    |f: &crate::solid::Face| f.plane.distance(samples[**i].place) < -2.0 * slack;
                cell.faces.iter().all(deep)
            };
            let within = found.members.iter().filter(inside).count();
            if within < CUTTING_SAMPLES || next.len() > MOST_CELLS {
                next.push(cell);
                continue;
            }
            for side in [*plane, plane.flipped()] {
                let part = clip(&cell, &side)?;
                if part.moments().volume > least {
                    next.push(part);
                }
            }
        }
        cells = next;
    }
    Ok(cells)
}

fn bounds(points: impl Iterator<Item = Point3>) -> (Point3, Point3) {
    let far = f64::INFINITY;
    points.fold(
        (Point3::new(far, far, far), Point3::new(-far, -far, -far)),
        |(l, h), p| {
            (
                Point3::new(l.x.min(p.x), l.y.min(p.y), l.z.min(p.z)),
                Point3::new(h.x.max(p.x), h.y.max(p.y), h.z.max(p.z)),
            )
        },
    )
}

/// The cells that are kept, as one solid.
///
/// Cells that share a face have corners that differ by rounding, and a union would leave cracks.
/// So what is outside is taken off instead: every outside cell is let grow, by leaving out the
/// planes that do not part it from a kept one, until it meets kept cells in sides of the solid
/// alone and overlaps its neighbours.
pub fn joined(kept: &[Solid], outside: &[Solid]) -> Result<Solid, BooleanFault> {
    let (low, high) = bounds(kept.iter().flat_map(|cell| cell.vertices.iter().copied()));
    let room = Vec3::new(1.0, 1.0, 1.0) * (0.1 * low.distance(high));
    let mut grown: Vec<Vec<Plane>> = Vec::new();
    for cell in outside {
        let covered = |part: &Vec<Plane>| {
            let within = |plane: &Plane| cell.vertices.iter().all(|&p| plane.distance(p) < TOUCH);
            part.iter().all(within)
        };
        if !grown.iter().any(covered) {
            grown.push(grow(cell, kept)?);
        }
    }
    let mut solid = Solid::cuboid(low - room, high + room);
    for planes in grown {
        let mut part = Solid::cuboid(low - room * 2.0, high + room * 2.0);
        for plane in &planes {
            part = clip(&part, plane)?;
        }
        solid = difference(&solid, &[&part])?;
    }
    Ok(solid)
}

fn grow(cell: &Solid, kept: &[Solid]) -> Result<Vec<Plane>, BooleanFault> {
    let mut planes: Vec<Plane> = cell.faces.iter().map(|face| face.plane).collect();
    let mut next = planes.len();
    while next > 0 {
        next -= 1;
        let plane = planes.remove(next);
        let mut meets = false;
        for other in kept {
            meets = meets || overlaps(other, &planes)?;
        }
        if meets {
            planes.insert(next, plane);
        }
    }
    Ok(planes)
}

/// Whether a convex cell has a part on the inner side of all planes.
fn overlaps(cell: &Solid, planes: &[Plane]) -> Result<bool, BooleanFault> {
    let beyond = |plane: &Plane| cell.vertices.iter().all(|&p| plane.distance(p) > -TOUCH);
    if planes.iter().any(beyond) {
        return Ok(false);
    }
    let mut part = cell.clone();
    for plane in planes {
        let within = part.vertices.iter().all(|&p| plane.distance(p) < TOUCH);
        if !within {
            part = clip(&part, plane)?;
        }
        if part.moments().volume < NOTHING {
            return Ok(false);
        }
    }
    Ok(true)
}
