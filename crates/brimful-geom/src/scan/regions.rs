//! Flat regions of a scan, and the plane of each.

use super::report::{FoundPlane, ScanReport};
use super::surface::{Joined, bounds};
use crate::frame::{Frame, Plane};
use crate::vector::{Point2, Point3, Vec3};
use std::collections::{BTreeMap, VecDeque};

/// Normals are smoothed over so many times the noise.
const SMOOTHED: f64 = 8.0;
/// Rounds of smoothing at most: each spreads a normal by one triangle.
const MOST_ROUNDS: usize = 80;
/// A smoothed normal belongs to a flat within this angle (cosine of 10 degrees).
const ALIKE: f64 = 0.985;
/// A point belongs to a flat within so many times the noise.
const NEAR: f64 = 4.0;
/// What a scan without noise may be off by, m.
const LEAST_NOISE: f64 = 1e-4;
/// Triangles of the smallest flat.
const FEWEST: usize = 24;
/// Side of the smallest flat: times the noise.
const SMALLEST: f64 = 20.0;
/// Points of a patch whose mean tells where the wall is.
const PATCH: f64 = 150.0;
/// Points of the smallest patch that is believed, as a share of [`PATCH`].
const SMALL_PATCH: f64 = 0.4;
/// A plane keeps so many standard errors of a patch's mean away from it.
const APART: f64 = 1.0;
/// Flats whose planes are this near are one: cosine, and times the noise.
const SAME_TURN: f64 = 0.9995;
const SAME_PLACE: f64 = 1.5;

/// A flat with what it stands for.
pub(super) struct Flat {
    pub(super) found: FoundPlane,
    /// Its triangles.
    pub(super) triangles: Vec<usize>,
}

/// The flats of a surface, largest first, and the triangles that belong to none.
pub(super) fn regions(
    surface: &Joined,
    noise: f64,
    report: &mut ScanReport,
) -> (Vec<Flat>, Vec<usize>) {
    let noise = noise.max(LEAST_NOISE);
    let normals = smoothed(surface, noise);
    let mut order: Vec<(f64, usize)> = (0..surface.triangles.len())
        .map(|number| (unevenness(surface, &normals, number), number))
        .collect();
    order.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
    let mut taken = vec![false; surface.triangles.len()];
    let mut grown = Vec::new();
    for (_, seed) in order {
        if taken[seed] {
            continue;
        }
        let region = grow(surface, &normals, seed, noise, &taken);
        if region.len() >= FEWEST {
            region.iter().for_each(|&number| taken[number] = true);
            grown.push(region);
        } else {
            // Too small a start: nothing near it will do better.
            taken[seed] = true;
        }
    }
    let regions = merged(surface, grown, noise);
    let mut flats: Vec<Flat> = regions
        .into_iter()
        .filter_map(|triangles| flat(surface, triangles))
        .collect();
    flats.sort_by(|a, b| b.found.area.total_cmp(&a.found.area));
    // A crease is smoothed over and belongs to neither side; it is where their planes meet.
    flats.retain(|flat| flat.found.area > (SMALLEST * noise).powi(2));
    let mut own = vec![false; surface.triangles.len()];
    flats
        .iter()
        .flat_map(|flat| &flat.triangles)
        .for_each(|&it| own[it] = true);
    let beside: Vec<Near> = flats
        .iter()
        .map(|flat| Near::of(surface, flat, noise))
        .collect();
    let at_a_crease = |number: usize| {
        let middle = surface.middle(number);
        beside.iter().any(|near| near.holds(middle))
    };
    let rest: Vec<usize> = (0..own.len())
        .filter(|&number| !own[number] && !at_a_crease(number))
        .collect();
    let area = |number: &usize| surface.twice_area(*number).length();
    let whole: f64 = (0..own.len()).map(|number| area(&number)).sum();
    report.rough = rest.iter().map(area).sum::<f64>() / whole;
    (flats, rest)
}

/// The slab round a flat.
struct Near {
    plane: Plane,
    low: Point3,
    high: Point3,
    room: f64,
}

impl Near {
    fn of(surface: &Joined, flat: &Flat, noise: f64) -> Self {
        let points = flat.triangles.iter().map(|&number| surface.middle(number));
        let (low, high) = bounds(points);
        let round = SMOOTHED * noise * 1.5;
        let round = Vec3::new(round, round, round);
        Self {
            plane: flat.found.plane,
            low: low - round,
            high: high + round,
            room: NEAR * noise + flat.found.inward,
        }
    }

    fn holds(&self, place: Point3) -> bool {
        let within = |low: f64, at: f64, high: f64| (low..=high).contains(&at);
        self.plane.distance(place).abs() < self.room
            && within(self.low.x, place.x, self.high.x)
            && within(self.low.y, place.y, self.high.y)
            && within(self.low.z, place.z, self.high.z)
    }
}

/// A normal a triangle: sums of area vectors over what is near, in which the noise cancels.
fn smoothed(surface: &Joined, noise: f64) -> Vec<Vec3> {
    let mut normals: Vec<Vec3> = (0..surface.triangles.len())
        .map(|number| surface.twice_area(number))
        .collect();
    let mean = normals.iter().map(|it| it.length()).sum::<f64>() / normals.len() as f64;
    // An equilateral triangle of this doubled area has sides of about the root of it.
    let side = mean.sqrt().max(f64::MIN_POSITIVE);
    let rounds = ((SMOOTHED * noise / side).powi(2).ceil() as usize).clamp(1, MOST_ROUNDS);
    for _ in 0..rounds {
        normals = (0..normals.len())
            .map(|number| {
                let near = surface.beside[number].iter();
                near.fold(normals[number], |sum, &it| sum + normals[it as usize])
            })
            .collect();
        // Only directions and shares matter; this keeps the numbers small.
        normals
            .iter_mut()
            .for_each(|normal| *normal = *normal / 4.0);
    }
    normals
        .into_iter()
        .map(|normal| normal.unit().unwrap_or(Vec3::ZERO))
        .collect()
}

fn unevenness(surface: &Joined, normals: &[Vec3], number: usize) -> f64 {
    let near = surface.beside[number].iter();
    near.map(|&it| 1.0 - normals[number].dot(normals[it as usize]))
        .fold(0.0, f64::max)
}

/// What is connected with a seed and lies in one plane with it.
fn grow(surface: &Joined, normals: &[Vec3], seed: usize, noise: f64, taken: &[bool]) -> Vec<usize> {
    let mut region = vec![seed];
    let mut seen: BTreeMap<usize, ()> = BTreeMap::from([(seed, ())]);
    let mut queue = VecDeque::from([seed]);
    let mut sums = Sums::default();
    sums.add(surface, seed);
    let mut plane = (normals[seed], surface.middle(seed));
    let mut fitted = 1;
    while let Some(number) = queue.pop_front() {
        for &next in &surface.beside[number] {
            let next = next as usize;
            if taken[next] || seen.contains_key(&next) {
                continue;
            }
            let alike = normals[next].dot(plane.0) > ALIKE;
            // A few points do not tell a plane: at first the normals alone decide.
            let near = region.len() < FEWEST
                || (surface.middle(next) - plane.1).dot(plane.0).abs() < NEAR * noise;
            if alike && near {
                seen.insert(next, ());
                region.push(next);
                sums.add(surface, next);
                queue.push_back(next);
                if region.len() >= 2 * fitted.max(FEWEST / 2) {
                    plane = sums.plane(plane.0);
                    fitted = region.len();
                }
            }
        }
    }
    region
}

/// What a plane is fitted to: sums over triangles, by their areas.
#[derive(Clone, Default)]
struct Sums {
    weight: f64,
    middle: Vec3,
    squares: [[f64; 3]; 3],
}

impl Sums {
    fn add(&mut self, surface: &Joined, number: usize) {
        let weight = surface.twice_area(number).length();
        let place = surface.middle(number).to_vec();
        let own = place.to_array();
        self.weight += weight;
        self.middle += place * weight;
        for (row, a) in self.squares.iter_mut().zip(own) {
            for (sum, b) in row.iter_mut().zip(own) {
                *sum += weight * a * b;
            }
        }
    }

    /// Normal and a point of the plane of least squares, its normal on the side of `near`: in axes
    /// along a first normal it is `z = a x + b y`.
    fn plane(&self, near: Vec3) -> (Vec3, Point3) {
        let middle = self.middle / self.weight;
        let Some(first) = Plane::through(Point3::ORIGIN, near) else {
            return (near, Point3::ORIGIN + middle);
        };
        let frame = Frame::upright(&first, Point3::ORIGIN);
        let axes = [frame.x, frame.y, frame.z];
        let m = middle.to_array();
        let spread = |u: Vec3, v: Vec3| {
            let (u, v) = (u.to_array(), v.to_array());
            let mut sum = 0.0;
            for i in 0..3 {
                for j in 0..3 {
                    sum += u[i] * v[j] * (self.squares[i][j] / self.weight - m[i] * m[j]);
                }
            }
            sum
        };
        let (xx, xy, yy) = (
            spread(axes[0], axes[0]),
            spread(axes[0], axes[1]),
            spread(axes[1], axes[1]),
        );
        let (xz, yz) = (spread(axes[0], axes[2]), spread(axes[1], axes[2]));
        let determinant = xx * yy - xy * xy;
        if determinant <= f64::EPSILON * xx * yy {
            return (near, Point3::ORIGIN + middle);
        }
        let a = (xz * yy - yz * xy) / determinant;
        let b = (yz * xx - xz * xy) / determinant;
        let normal = (axes[2] - axes[0] * a - axes[1] * b).unit().unwrap_or(near);
        (normal, Point3::ORIGIN + middle)
    }
}

fn fit(surface: &Joined, triangles: &[usize]) -> (Vec3, Point3) {
    let mut sums = Sums::default();
    let mut normal = Vec3::ZERO;
    for &number in triangles {
        sums.add(surface, number);
        normal += surface.twice_area(number);
    }
    sums.plane(normal.unit().unwrap_or(Vec3::Z))
}

/// Regions of one plane put together: an obstacle may part a wall.
fn merged(surface: &Joined, mut regions: Vec<Vec<usize>>, noise: f64) -> Vec<Vec<usize>> {
    regions.sort_by_key(|region| std::cmp::Reverse(region.len()));
    let mut whole: Vec<((Vec3, Point3), Vec<usize>)> = Vec::new();
    for region in regions {
        let (normal, middle) = fit(surface, &region);
        let same = |((n, m), _): &&mut ((Vec3, Point3), Vec<usize>)| {
            n.dot(normal) > SAME_TURN
                && (middle - *m).dot(*n).abs() < SAME_PLACE * noise
                && (*m - middle).dot(normal).abs() < SAME_PLACE * noise
        };
        match whole.iter_mut().find(same) {
            Some((plane, triangles)) => {
                triangles.extend(region);
                *plane = fit(surface, triangles);
            }
            None => whole.push(((normal, middle), region)),
        }
    }
    whole.into_iter().map(|(_, triangles)| triangles).collect()
}

/// The plane of a region, moved inward until the mean of every patch lies outside it.
fn flat(surface: &Joined, triangles: Vec<usize>) -> Option<Flat> {
    let (normal, middle) = fit(surface, &triangles);
    let best = Plane::through(middle, normal)?;
    let frame = Frame::upright(&best, middle);
    let area: f64 = triangles
        .iter()
        .map(|&it| surface.twice_area(it).length() / 2.0)
        .sum();
    let mut points: Vec<usize> = triangles
        .iter()
        .flat_map(|&it| surface.triangles[it])
        .collect();
    points.sort_unstable();
    points.dedup();
    let off = |point: &usize| best.distance(surface.points[*point]);
    let squares: f64 = points.iter().map(|point| off(point).powi(2)).sum();
    let spread = (squares / points.len() as f64).sqrt();
    // Patches are squares with about so many points each.
    let side = (area * PATCH / points.len() as f64).sqrt();
    let mut patches: BTreeMap<[i64; 2], (f64, f64)> = BTreeMap::new();
    for point in &points {
        let Point2 { x, y } = frame.flat_from_world(surface.points[*point]);
        let patch = patches
            .entry([x, y].map(|v| (v / side).floor() as i64))
            .or_default();
        patch.0 += off(point);
        patch.1 += 1.0;
    }
    let furthest_in = patches
        .values()
        .filter(|(_, count)| *count >= SMALL_PATCH * PATCH)
        .map(|(sum, count)| sum / count - APART * spread / count.sqrt())
        .fold(-APART * spread / (points.len() as f64).sqrt(), f64::min);
    Some(Flat {
        found: FoundPlane {
            plane: best.moved(furthest_in),
            area,
            spread,
            inward: -furthest_in,
        },
        triangles,
    })
}
