//! Planes in a noisy surface.
//!
//! RANSAC after R. Schnabel, R. Wahl and R. Klein, "Efficient RANSAC for point-cloud shape
//! detection", Computer Graphics Forum 26 (2007) (from memory): planes through three samples not far
//! apart, the one with most samples near it is put in the mean of them and taken out, and so on.
//! Seeded: the same surface gives the same planes.

use super::Surface;
use crate::frame::Plane;
use crate::vector::{Point3, Vec3};
use fastrand::Rng;

/// A place on the surface, with the share of area it stands for as a vector along the normal.
#[derive(Clone, Copy)]
pub struct Sample {
    pub place: Point3,
    pub area: Vec3,
}

/// A plane in the mean of its samples, facing out.
pub struct Found {
    pub plane: Plane,
    pub members: Vec<usize>,
}

/// Samples taken, about.
const SAMPLES: usize = 20_000;

/// Triples tried for one plane.
const TRIPLES: usize = 400;

/// A sample is in a plane where it is within this many times the noise.
const NEAR: f64 = 3.0;

/// Noise is at least this, metres: planes in a clean mesh are as flat as single precision.
const LEAST_NOISE: f64 = 2e-5;

/// A plane has at least this share of the samples.
const LEAST_SHARE: f64 = 0.004;

const MOST_PLANES: usize = 40;

/// Fits to its own members, after which a plane stands still.
const FITS: usize = 6;

/// Places spread evenly over the area: each triangle gives as many as it has area.
pub fn samples(surface: &Surface) -> Vec<Sample> {
    let corners = |t: &[usize; 3]| t.map(|v| surface.points[v]);
    let area = |t: &[usize; 3]| {
        let [a, b, c] = corners(t);
        (b - a).cross(c - a) * 0.5
    };
    let whole: f64 = surface.triangles.iter().map(|t| area(t).length()).sum();
    let each = whole / SAMPLES as f64;
    let mut rng = Rng::with_seed(1);
    let mut samples = Vec::with_capacity(SAMPLES + 1);
    let mut due = 0.5;
    for triangle in &surface.triangles {
        let (a, own) = (corners(triangle), area(triangle));
        due += own.length() / each;
        while due >= 1.0 {
            due -= 1.0;
            let (mut u, mut v) = (rng.f64(), rng.f64());
            if u + v > 1.0 {
                (u, v) = (1.0 - u, 1.0 - v);
            }
            samples.push(Sample {
                place: a[0] + (a[1] - a[0]) * u + (a[2] - a[0]) * v,
                area: own.unit().unwrap_or(Vec3::Z) * each,
            });
        }
    }
    samples
}

/// The planes with most samples, one after the other.
pub fn find_planes(samples: &[Sample], noise: f64) -> Vec<Found> {
    let near = NEAR * noise.max(LEAST_NOISE);
    let least = (LEAST_SHARE * samples.len() as f64).max(10.0) as usize;
    let mut rng = Rng::with_seed(2);
    let mut free: Vec<usize> = (0..samples.len()).collect();
    let mut found = Vec::new();
    while free.len() >= least && found.len() < MOST_PLANES {
        let Some(plane) = best_triple(samples, &free, near, &mut rng) else {
            break;
        };
        let Some(plane) = fitted(samples, &free, plane, near) else {
            break;
        };
        let (members, rest): (Vec<usize>, Vec<usize>) = free
            .iter()
            .partition(|&&i| plane.distance(samples[i].place).abs() < near);
        if members.len() < least {
            break;
        }
        free = rest;
        found.push(Found {
            plane: facing_out(samples, &members, plane),
            members,
        });
    }
    away_from_edges(samples, found, near)
}

/// Samples are taken for a plane's fit only beyond this many times the band of another plane.
const FROM_EDGES: f64 = 2.0;

/// The planes fitted once more, without samples near another plane: next to an edge a plane's
/// band holds samples of its neighbour too, which all lie on one side and would draw it there.
fn away_from_edges(samples: &[Sample], found: Vec<Found>, near: f64) -> Vec<Found> {
    let planes: Vec<Plane> = found.iter().map(|f| f.plane).collect();
    let clear = |own: usize, place: Point3| {
        let far = |&(other, plane): &(usize, &Plane)| {
            other == own || plane.distance(place).abs() > FROM_EDGES * near
        };
        planes.iter().enumerate().all(|pair| far(&pair))
    };
    let refitted = |(own, found): (usize, Found)| {
        let places: Vec<Point3> = found
            .members
            .iter()
            .map(|&i| samples[i].place)
            .filter(|&place| clear(own, place))
            .collect();
        let plane = if places.len() < FEWEST_TO_FIT {
            found.plane
        } else {
            mean_plane(&places, found.plane.normal).unwrap_or(found.plane)
        };
        Found { plane, ..found }
    };
    found.into_iter().enumerate().map(refitted).collect()
}

/// With fewer samples a plane is not fitted again.
const FEWEST_TO_FIT: usize = 30;

fn best_triple(samples: &[Sample], free: &[usize], near: f64, rng: &mut Rng) -> Option<Plane> {
    let mut best: Option<(usize, Plane)> = None;
    // Scored on a part of the samples: enough to tell a side from a chance.
    let stride = (free.len() / 2000).max(1);
    for _ in 0..TRIPLES {
        let first = samples[free[rng.usize(..free.len())]].place;
        // Of some samples the two nearest: wide enough apart to see past the noise, near enough
        // to be of the same side.
        let mut others: Vec<Point3> = (0..rng.usize(8..80))
            .map(|_| samples[free[rng.usize(..free.len())]].place)
            .filter(|p| p.distance(first) > 4.0 * near)
            .collect();
        others.sort_by(|a, b| a.distance(first).total_cmp(&b.distance(first)));
        let [second, third, ..] = others[..] else {
            continue;
        };
        let Some(plane) = Plane::through(first, (second - first).cross(third - first)) else {
            continue;
        };
        let close = |i: &&usize| plane.distance(samples[**i].place).abs() < near;
        let count = free.iter().step_by(stride).filter(close).count();
        if best.is_none_or(|(most, _)| count > most) {
            best = Some((count, plane));
        }
    }
    best.map(|(_, plane)| plane)
}

/// The plane put in the mean of the samples near it, until these stay the same.
fn fitted(samples: &[Sample], free: &[usize], mut plane: Plane, near: f64) -> Option<Plane> {
    for _ in 0..FITS {
        let close = |i: &&usize| plane.distance(samples[**i].place).abs() < near;
        let places: Vec<Point3> = free
            .iter()
            .filter(close)
            .map(|&i| samples[i].place)
            .collect();
        if places.len() < 3 {
            return None;
        }
        plane = mean_plane(&places, plane.normal)?;
    }
    Some(plane)
}

/// The plane of least squares: through the mean, square to the way of least spread, found from a
/// guess by inverse iteration (the guess is near, and the sides are flat: a few turns do).
fn mean_plane(places: &[Point3], guess: Vec3) -> Option<Plane> {
    let sum = places.iter().fold(Vec3::ZERO, |sum, p| sum + p.to_vec());
    let middle = Point3::ORIGIN + sum / places.len() as f64;
    let (mut x, mut y, mut z) = (Vec3::ZERO, Vec3::ZERO, Vec3::ZERO);
    for place in places {
        let way = *place - middle;
        x += way * way.x;
        y += way * way.y;
        z += way * way.z;
    }
    // Keeps the matrix from being singular where all are in one plane exactly.
    let lift = 1e-9 * (x.x + y.y + z.z);
    x.x += lift;
    y.y += lift;
    z.z += lift;
    let mut normal = guess;
    for _ in 0..20 {
        // Cramer: the inverse times the normal, but for its scale.
        let next = y.cross(z) * normal.x + z.cross(x) * normal.y + x.cross(y) * normal.z;
        normal = next.unit()?;
    }
    Plane::through(middle, normal)
}

fn facing_out(samples: &[Sample], members: &[usize], plane: Plane) -> Plane {
    let area = members
        .iter()
        .fold(Vec3::ZERO, |sum, &i| sum + samples[i].area);
    if area.dot(plane.normal) < 0.0 {
        plane.flipped()
    } else {
        plane
    }
}
