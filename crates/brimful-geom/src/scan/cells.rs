//! Convex cells between the planes; those inside the scan make the solid.

use super::regions::Flat;
use super::report::{ScanFault, ScanReport, Scanned};
use super::surface::{Joined, bounds};
use crate::boolean::{clip, difference, pieces};
use crate::frame::Plane;
use crate::solid::Solid;
use crate::triangulate::solid_triangles;
use crate::vector::{Point3, Vec3};
use std::collections::BTreeMap;

/// Planes that cut everything; more cut only where their own surface is near.
const CUT_ALL: usize = 14;
/// Planes at most.
const MOST_PLANES: usize = 80;
/// How much the box is larger than the scan, m.
const ROUND: f64 = 0.01;
/// A plane that leaves less than this of a cell on one side does not cut it, m.
const LEAST_CUT: f64 = 1e-5;
/// Far above rounding, far below any scanner's noise, m.
const HAIR: f64 = 1e-6;
/// Winding numbers are about zero or one; between these nobody knows.
const DOUBT: [f64; 2] = [0.35, 0.65];
/// The surface is thinned for winding numbers to cubes of this share of its size.
const THINNED: f64 = 1.0 / 60.0;
/// Rough places are kept out by cubes of so many times the noise.
const CUBE: f64 = 12.0;
/// Triangles in a cube for its mean to be believed.
const IN_A_CUBE: usize = 40;
/// Cubes at most; more are a surface that is not flat at all.
const MOST_CUBES: usize = 200;
/// A mean this far inside is no matter of noise: times the noise.
const DEEP: f64 = 1.0;

pub(super) fn put_together(
    surface: &Joined,
    flats: &[Flat],
    rest: &[usize],
    noise: f64,
    mut report: ScanReport,
) -> Result<Scanned, ScanFault> {
    let (low, high) = bounds(surface.points.iter().copied());
    let round = Vec3::new(ROUND, ROUND, ROUND);
    let whole = Solid::cuboid(low - round, high + round);
    let mut carving = Carving {
        thin: thinned(surface),
        knives: flats
            .iter()
            .take(MOST_PLANES)
            .map(|flat| Knife::of(surface, flat))
            .collect(),
        room: ROUND + noise,
        doubtful: 0.0,
    };
    let outside = match carving.carve(&whole, 0)? {
        Region::Outside => return Err(ScanFault::NothingInside(report)),
        Region::Inside => Vec::new(),
        Region::Mixed(outside) => outside,
    };
    report.doubtful = carving.doubtful;
    let outside: Result<Vec<Solid>, ScanFault> = outside.iter().map(grown).collect();
    let outside = outside?;
    let mut solid =
        difference(&whole, &outside.iter().collect::<Vec<_>>()).map_err(ScanFault::Boolean)?;
    let cubes = rough(surface, rest, &solid, noise);
    if cubes.len() > MOST_CUBES {
        return Err(ScanFault::TooRough(report));
    }
    if !cubes.is_empty() {
        let cubes: Vec<&Solid> = cubes.iter().collect();
        solid = difference(&solid, &cubes).map_err(ScanFault::Boolean)?;
    }
    let largest = pieces(&solid)
        .map_err(ScanFault::Boolean)?
        .into_iter()
        .max_by(|a, b| a.moments().volume.total_cmp(&b.moments().volume));
    match largest {
        Some(solid) => Ok(Scanned { solid, report }),
        None => Err(ScanFault::NothingInside(report)),
    }
}

/// A plane that cuts, and where its flat is.
struct Knife {
    plane: Plane,
    reach: (Point3, Point3),
}

impl Knife {
    fn of(surface: &Joined, flat: &Flat) -> Self {
        let corners = flat.triangles.iter().flat_map(|&it| surface.triangles[it]);
        Self {
            plane: flat.found.plane,
            reach: bounds(corners.map(|corner| surface.points[corner])),
        }
    }

    /// Whether it parts a cell.
    fn cuts(&self, cell: &Solid) -> bool {
        let distances = cell.vertices.iter().map(|&p| self.plane.distance(p));
        let (least, most) = distances.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, m), d| {
            (l.min(d), m.max(d))
        });
        least < -LEAST_CUT && most > LEAST_CUT
    }
}

/// What a cell is once it has been cut up.
enum Region {
    Inside,
    Outside,
    /// Its outside parts, each convex.
    Mixed(Vec<Solid>),
}

struct Carving {
    thin: Vec<[Point3; 3]>,
    knives: Vec<Knife>,
    room: f64,
    doubtful: f64,
}

impl Carving {
    /// Cuts a cell by the planes from this number on. Where all parts are outside the cell stays whole,
    /// so that few and large ones come out.
    fn carve(&mut self, cell: &Solid, from: usize) -> Result<Region, ScanFault> {
        let cutting = (from..self.knives.len()).find(|&number| {
            let knife = &self.knives[number];
            let near = number < CUT_ALL || overlap(cell.bounds(), knife.reach, self.room);
            near && knife.cuts(cell)
        });
        let Some(number) = cutting else {
            return Ok(self.judged(cell));
        };
        let plane = self.knives[number].plane;
        let mut parts = Vec::new();
        for plane in [plane, plane.flipped()] {
            let part = clip(cell, &plane).map_err(ScanFault::Boolean)?;
            parts.push((self.carve(&part, number + 1)?, part));
        }
        if parts
            .iter()
            .all(|(region, _)| matches!(region, Region::Inside))
        {
            return Ok(Region::Inside);
        }
        if parts
            .iter()
            .all(|(region, _)| matches!(region, Region::Outside))
        {
            return Ok(Region::Outside);
        }
        let outside = parts.into_iter().flat_map(|(region, part)| match region {
            Region::Inside => Vec::new(),
            Region::Outside => vec![part],
            Region::Mixed(parts) => parts,
        });
        Ok(Region::Mixed(outside.collect()))
    }

    fn judged(&mut self, cell: &Solid) -> Region {
        let moments = cell.moments();
        let winding = winding(&self.thin, moments.centroid());
        if winding > DOUBT[1] {
            return Region::Inside;
        }
        if winding > DOUBT[0] {
            self.doubtful += moments.volume;
        }
        Region::Outside
    }
}

/// A convex cell with all its faces moved out by a hair, so that no sheet of rounding is left between
/// two that are taken away; what stays is smaller by that hair all round.
fn grown(cell: &Solid) -> Result<Solid, ScanFault> {
    let (low, high) = cell.bounds();
    let round = Vec3::new(ROUND, ROUND, ROUND);
    let mut grown = Solid::cuboid(low - round, high + round);
    for face in &cell.faces {
        grown = clip(&grown, &face.plane.moved(HAIR)).map_err(ScanFault::Boolean)?;
    }
    Ok(grown)
}

fn overlap(a: (Point3, Point3), b: (Point3, Point3), room: f64) -> bool {
    let apart = |a: (f64, f64), b: (f64, f64)| a.0 > b.1 + room || b.0 > a.1 + room;
    !(apart((a.0.x, a.1.x), (b.0.x, b.1.x))
        || apart((a.0.y, a.1.y), (b.0.y, b.1.y))
        || apart((a.0.z, a.1.z), (b.0.z, b.1.z)))
}

/// The surface with the points of every small cube put together: winding numbers far from it stay the
/// same.
fn thinned(surface: &Joined) -> Vec<[Point3; 3]> {
    let (low, high) = bounds(surface.points.iter().copied());
    let side = low.distance(high) * THINNED;
    let key = |p: Point3| (p - low).to_array().map(|v| (v / side).floor() as i64);
    let mut cubes: BTreeMap<[i64; 3], (Vec3, f64)> = BTreeMap::new();
    for &p in &surface.points {
        let cube = cubes.entry(key(p)).or_insert((Vec3::ZERO, 0.0));
        cube.0 += p.to_vec();
        cube.1 += 1.0;
    }
    let middle = |point: usize| {
        let own = key(surface.points[point]);
        let (sum, count) = cubes[&own];
        (own, Point3::ORIGIN + sum / count)
    };
    let corners = surface.triangles.iter().map(|it| it.map(middle));
    corners
        .filter(|[a, b, c]| a.0 != b.0 && b.0 != c.0 && c.0 != a.0)
        .map(|corners| corners.map(|(_, place)| place))
        .collect()
}

/// How often a surface goes round a place: the solid angles of its triangles over 4 pi (A. van
/// Oosterom, J. Strackee, IEEE Trans. Biomed. Eng. 30 (1983) 125).
fn winding(triangles: &[[Point3; 3]], place: Point3) -> f64 {
    let angle = |corners: &[Point3; 3]| {
        let [a, b, c] = corners.map(|corner| corner - place);
        let (la, lb, lc) = (a.length(), b.length(), c.length());
        let over = a.dot(b.cross(c));
        let under = la * lb * lc + a.dot(b) * lc + b.dot(c) * la + c.dot(a) * lb;
        2.0 * over.atan2(under)
    };
    triangles.iter().map(angle).sum::<f64>() / (4.0 * std::f64::consts::PI)
}

/// Cubes round places of the surface that belong to no flat and would lie in the solid.
fn rough(surface: &Joined, rest: &[usize], solid: &Solid, noise: f64) -> Vec<Solid> {
    let side = (CUBE * noise).max(ROUND);
    let mut places: BTreeMap<[i64; 3], (Vec3, usize)> = BTreeMap::new();
    for &number in rest {
        let middle = surface.middle(number).to_vec();
        let key = middle.to_array().map(|v| (v / side).floor() as i64);
        let place = places.entry(key).or_insert((Vec3::ZERO, 0));
        place.0 += middle;
        place.1 += 1;
    }
    let shell = shell(solid);
    let half = Vec3::new(side, side, side) / 2.0;
    places
        .into_values()
        .filter(|(_, count)| *count >= IN_A_CUBE)
        .map(|(sum, count)| Point3::ORIGIN + sum / count as f64)
        .filter(|&place| winding(&shell, place) > 0.5 && depth(solid, place) > DEEP * noise)
        .map(|place| Solid::cuboid(place - half, place + half))
        .collect()
}

fn shell(solid: &Solid) -> Vec<[Point3; 3]> {
    let corners = |triangle: [usize; 3]| triangle.map(|corner| solid.vertices[corner]);
    solid_triangles(solid).into_iter().map(corners).collect()
}

/// How far a place inside is from the nearest plane of the solid, m: no more than from its surface.
fn depth(solid: &Solid, place: Point3) -> f64 {
    let planes = solid.faces.iter().map(|face| face.plane);
    planes
        .map(|plane: Plane| plane.distance(place).abs())
        .fold(f64::INFINITY, f64::min)
}
