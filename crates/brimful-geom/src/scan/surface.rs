//! A scan put in order: equal points joined, triangles turned alike, small pieces left out, holes found.

use super::report::{Hole, ScanFault, ScanReport};
use crate::vector::{Point3, Vec3};
use std::collections::{BTreeMap, VecDeque};

/// Points nearer than this are one, m: far below any scanner's noise.
const SAME: f64 = 1e-6;
/// Pieces with a smaller share of the triangles are left out.
const LEAST_PIECE: f64 = 0.01;
/// Fewer triangles enclose nothing.
const FEWEST: usize = 4;

/// A triangle surface, metres.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Surface {
    /// Its points.
    pub points: Vec<Point3>,
    /// Numbers of points.
    pub triangles: Vec<[usize; 3]>,
}

/// A surface in order.
pub(super) struct Joined {
    pub(super) points: Vec<Point3>,
    /// Counter-clockwise seen from outside the room.
    pub(super) triangles: Vec<[usize; 3]>,
    /// Up to three triangles that share an edge with each.
    pub(super) beside: Vec<Vec<u32>>,
}

impl Joined {
    /// Twice the area of a triangle, along its normal.
    pub(super) fn twice_area(&self, number: usize) -> Vec3 {
        let [a, b, c] = self.triangles[number].map(|it| self.points[it]);
        (b - a).cross(c - a)
    }

    pub(super) fn middle(&self, number: usize) -> Point3 {
        let [a, b, c] = self.triangles[number].map(|it| self.points[it].to_vec());
        Point3::ORIGIN + (a + b + c) / 3.0
    }
}

pub(super) fn joined(surface: &Surface) -> Result<(Joined, ScanReport), ScanFault> {
    let mut report = ScanReport::default();
    let (points, mut triangles) = welded(surface);
    if triangles.len() < FEWEST {
        return Err(ScanFault::NoSurface);
    }
    let edges = edges(&triangles);
    report.non_manifold = edges.values().filter(|sides| sides.len() > 2).count();
    let (piece, flips) = turned_alike(&triangles, &edges);
    report.flipped = flips.iter().filter(|flip| **flip).count();
    for (triangle, flip) in triangles.iter_mut().zip(&flips) {
        if *flip {
            triangle.swap(1, 2);
        }
    }
    let kept = large_pieces(&piece, &mut report);
    let triangles: Vec<[usize; 3]> = kept.iter().map(|&number| triangles[number]).collect();
    let piece: Vec<usize> = kept.iter().map(|&number| piece[number]).collect();
    let triangles = outward(&points, triangles, &piece);
    if triangles.len() < FEWEST {
        return Err(ScanFault::NoSurface);
    }
    let edges = self::edges(&triangles);
    report.holes = holes(&points, &edges);
    let mut beside = vec![Vec::new(); triangles.len()];
    for sides in edges.values().filter(|sides| sides.len() == 2) {
        let [(a, _), (b, _)] = [sides[0], sides[1]];
        beside[a as usize].push(b);
        beside[b as usize].push(a);
    }
    Ok((
        Joined {
            points,
            triangles,
            beside,
        },
        report,
    ))
}

fn welded(surface: &Surface) -> (Vec<Point3>, Vec<[usize; 3]>) {
    // Measured places are round numbers: a step that is none keeps them off the bounds between cells.
    let key = |p: Point3| {
        p.to_array()
            .map(|value| (value / SAME + 0.317).floor() as i64)
    };
    let mut numbers: BTreeMap<[i64; 3], usize> = BTreeMap::new();
    let mut points = Vec::new();
    let own: Vec<usize> = surface
        .points
        .iter()
        .map(|&p| {
            *numbers.entry(key(p)).or_insert_with(|| {
                points.push(p);
                points.len() - 1
            })
        })
        .collect();
    let there = |it: &&[usize; 3]| it.iter().all(|&corner| corner < own.len());
    let triangles = surface
        .triangles
        .iter()
        .filter(there)
        .map(|it| it.map(|corner| own[corner]))
        .filter(|[a, b, c]| a != b && b != c && c != a)
        .collect();
    (points, triangles)
}

type Edges = BTreeMap<(usize, usize), Vec<(u32, bool)>>;

/// For every edge its triangles, each with whether it runs from the lower point to the higher one.
fn edges(triangles: &[[usize; 3]]) -> Edges {
    let mut edges = Edges::new();
    for (number, triangle) in triangles.iter().enumerate() {
        for i in 0..3 {
            let (a, b) = (triangle[i], triangle[(i + 1) % 3]);
            let side = (number as u32, a < b);
            edges.entry((a.min(b), a.max(b))).or_default().push(side);
        }
    }
    edges
}

/// The connected piece of each triangle, and whether it has to be turned to face as most of its piece.
fn turned_alike(triangles: &[[usize; 3]], edges: &Edges) -> (Vec<usize>, Vec<bool>) {
    let mut beside: Vec<Vec<(u32, bool)>> = vec![Vec::new(); triangles.len()];
    for sides in edges.values().filter(|sides| sides.len() == 2) {
        let [(a, up), (b, other_up)] = [sides[0], sides[1]];
        // Neighbours that face alike run their edge in opposite directions.
        beside[a as usize].push((b, up == other_up));
        beside[b as usize].push((a, up == other_up));
    }
    let mut piece = vec![usize::MAX; triangles.len()];
    let mut flips = vec![false; triangles.len()];
    let mut count = 0;
    for first in 0..triangles.len() {
        if piece[first] != usize::MAX {
            continue;
        }
        let mut own = vec![first];
        let mut queue = VecDeque::from([first]);
        piece[first] = count;
        while let Some(number) = queue.pop_front() {
            for &(next, unlike) in &beside[number] {
                let next = next as usize;
                if piece[next] == usize::MAX {
                    piece[next] = count;
                    flips[next] = flips[number] != unlike;
                    own.push(next);
                    queue.push_back(next);
                }
            }
        }
        // Whichever are fewer are the flipped ones.
        let flipped = own.iter().filter(|number| flips[**number]).count();
        if 2 * flipped > own.len() {
            own.iter()
                .for_each(|&number| flips[number] = !flips[number]);
        }
        count += 1;
    }
    (piece, flips)
}

fn large_pieces(piece: &[usize], report: &mut ScanReport) -> Vec<usize> {
    let mut sizes: BTreeMap<usize, usize> = BTreeMap::new();
    piece
        .iter()
        .for_each(|own| *sizes.entry(*own).or_default() += 1);
    let least = LEAST_PIECE * piece.len() as f64;
    report.loose = sizes
        .values()
        .filter(|size| (**size as f64) < least)
        .count();
    (0..piece.len())
        .filter(|&number| sizes[&piece[number]] as f64 >= least)
        .collect()
}

/// The largest piece bounds the room from outside, the others what stands in it.
fn outward(points: &[Point3], mut triangles: Vec<[usize; 3]>, piece: &[usize]) -> Vec<[usize; 3]> {
    let mut volumes: BTreeMap<usize, f64> = BTreeMap::new();
    let middle = points.iter().fold(Vec3::ZERO, |sum, p| sum + p.to_vec()) / points.len() as f64;
    for (triangle, own) in triangles.iter().zip(piece) {
        let [a, b, c] = triangle.map(|it| points[it].to_vec() - middle);
        *volumes.entry(*own).or_default() += a.dot(b.cross(c)) / 6.0;
    }
    let largest = volumes
        .iter()
        .max_by(|a, b| a.1.abs().total_cmp(&b.1.abs()))
        .map(|(own, _)| *own);
    for (triangle, own) in triangles.iter_mut().zip(piece) {
        let wanted = if Some(*own) == largest { 1.0 } else { -1.0 };
        if volumes[own] * wanted < 0.0 {
            triangle.swap(1, 2);
        }
    }
    triangles
}

/// Rings of edges that only one triangle has.
fn holes(points: &[Point3], edges: &Edges) -> Vec<Hole> {
    let mut next: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    for (&(a, b), sides) in edges.iter().filter(|(_, sides)| sides.len() == 1) {
        let (from, to) = if sides[0].1 { (b, a) } else { (a, b) };
        next.entry(from).or_default().push(to);
    }
    let mut holes = Vec::new();
    while let Some((&first, _)) = next.iter().find(|(_, ends)| !ends.is_empty()) {
        let (mut at, mut ring) = (first, Vec::new());
        while let Some(to) = next.get_mut(&at).and_then(Vec::pop) {
            ring.push((at, to));
            at = to;
            if at == first {
                break;
            }
        }
        let length = |(a, b): &(usize, usize)| points[*a].distance(points[*b]);
        let sum = ring
            .iter()
            .fold(Vec3::ZERO, |sum, (a, _)| sum + points[*a].to_vec());
        holes.push(Hole {
            centre: Point3::ORIGIN + sum / ring.len() as f64,
            perimeter: ring.iter().map(length).sum(),
        });
        next.retain(|_, ends| !ends.is_empty());
    }
    holes.sort_by(|a, b| b.perimeter.total_cmp(&a.perimeter));
    holes
}

/// The lowest and the highest coordinates.
pub(super) fn bounds(points: impl Iterator<Item = Point3>) -> (Point3, Point3) {
    let (far, near) = (f64::INFINITY, f64::NEG_INFINITY);
    points.fold(
        (Point3::new(far, far, far), Point3::new(near, near, near)),
        |(low, high), p| {
            (
                Point3::new(low.x.min(p.x), low.y.min(p.y), low.z.min(p.z)),
                Point3::new(high.x.max(p.x), high.y.max(p.y), high.z.max(p.z)),
            )
        },
    )
}
