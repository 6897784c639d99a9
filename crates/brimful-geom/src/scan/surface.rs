//! A scanned surface welded, turned one way and rid of crumbs.

use super::{Hole, ScanFault, ScanReport, Surface};
use crate::vector::{Point3, Vec3};
use std::collections::BTreeMap;

/// Points nearer than about this are one, metres: files with a point a corner repeat it to the
/// last digit of single precision.
const WELD: f64 = 1e-6;

/// Pieces with less than this share of the largest one's area are crumbs.
const CRUMB: f64 = 0.02;

/// The surface mended, its faces looking out of what they enclose, and what was found.
pub fn mended(surface: &Surface) -> Result<(Surface, ScanReport), ScanFault> {
    let mut surface = welded(surface)?;
    let mut report = ScanReport::default();
    let edges = Edges::of(&surface);
    report.non_manifold = edges
        .0
        .chunk_by(|a, b| a.key() == b.key())
        .filter(|e| e.len() > 2)
        .count();
    let (piece, turned) = edges.turned(surface.triangles.len());
    report.flipped = turn(&mut surface, &piece, turned);
    report.loose = drop_crumbs(&mut surface, &piece);
    report.holes = holes(&surface);
    Ok((surface, report))
}

fn welded(surface: &Surface) -> Result<Surface, ScanFault> {
    let there = |t: &[usize; 3]| t.iter().all(|&v| v < surface.points.len());
    let finite = |p: &Point3| p.to_array().iter().all(|c| c.is_finite() && c.abs() < 1e9);
    if !surface.triangles.iter().all(there) || !surface.points.iter().all(finite) {
        return Err(ScanFault::NoSurface);
    }
    let mut number = BTreeMap::new();
    let mut points = Vec::new();
    let mut merged = Vec::with_capacity(surface.points.len());
    for p in &surface.points {
        let key = p.to_array().map(|c| (c / WELD).round() as i64);
        let next = points.len();
        let at = *number.entry(key).or_insert(next);
        if at == next {
            points.push(*p);
        }
        merged.push(at);
    }
    let triangles: Vec<[usize; 3]> = surface
        .triangles
        .iter()
        .map(|t| t.map(|v| merged[v]))
        .filter(|[a, b, c]| a != b && b != c && c != a)
        .collect();
    if triangles.is_empty() {
        return Err(ScanFault::NoSurface);
    }
    Ok(Surface { points, triangles })
}

/// One side of a triangle.
#[derive(Clone, Copy)]
struct Side {
    from: usize,
    to: usize,
    triangle: usize,
}

impl Side {
    fn key(&self) -> (usize, usize) {
        (self.from.min(self.to), self.from.max(self.to))
    }
}

/// All sides, those of one edge together.
struct Edges(Vec<Side>);

impl Edges {
    fn of(surface: &Surface) -> Self {
        let sides = surface
            .triangles
            .iter()
            .enumerate()
            .flat_map(|(triangle, t)| {
                [0, 1, 2].map(|i| Side {
                    from: t[i],
                    to: t[(i + 1) % 3],
                    triangle,
                })
            });
        let mut sides: Vec<Side> = sides.collect();
        sides.sort_by_key(|s| (s.key(), s.triangle));
        Self(sides)
    }

    /// For every triangle its piece, and whether it must be turned to agree with the piece's first.
    /// Triangles hang together at edges of just two.
    fn turned(&self, triangles: usize) -> (Vec<usize>, Vec<bool>) {
        let mut beside: Vec<Vec<(usize, bool)>> = vec![Vec::new(); triangles];
        for edge in self.0.chunk_by(|a, b| a.key() == b.key()) {
            if let [a, b] = edge {
                let against = a.from == b.from;
                beside[a.triangle].push((b.triangle, against));
                beside[b.triangle].push((a.triangle, against));
            }
        }
        let mut piece = vec![usize::MAX; triangles];
        let mut turned = vec![false; triangles];
        for first in 0..triangles {
            if piece[first] != usize::MAX {
                continue;
            }
            piece[first] = first;
            let mut stack = vec![first];
            while let Some(t) = stack.pop() {
                for &(next, against) in &beside[t] {
                    if piece[next] == usize::MAX {
                        piece[next] = first;
                        turned[next] = turned[t] != against;
                        stack.push(next);
                    }
                }
            }
        }
        (piece, turned)
    }
}

/// Turns triangles so that each piece looks outward; how many were against most of their piece.
fn turn(surface: &mut Surface, piece: &[usize], turned: Vec<bool>) -> usize {
    let mut volume: BTreeMap<usize, f64> = BTreeMap::new();
    let mut counts: BTreeMap<usize, [usize; 2]> = BTreeMap::new();
    let middle = mean(&surface.points);
    for (t, triangle) in surface.triangles.iter_mut().enumerate() {
        if turned[t] {
            triangle.swap(1, 2);
        }
        let [a, b, c] = triangle.map(|v| surface.points[v] - middle);
        *volume.entry(piece[t]).or_default() += a.dot(b.cross(c));
        counts.entry(piece[t]).or_default()[usize::from(turned[t])] += 1;
    }
    for (t, triangle) in surface.triangles.iter_mut().enumerate() {
        if volume[&piece[t]] < 0.0 {
            triangle.swap(1, 2);
        }
    }
    counts.values().map(|[a, b]| a.min(b)).sum()
}

fn mean(points: &[Point3]) -> Point3 {
    let sum = points.iter().fold(Vec3::ZERO, |sum, p| sum + p.to_vec());
    Point3::ORIGIN + sum / points.len() as f64
}

fn drop_crumbs(surface: &mut Surface, piece: &[usize]) -> usize {
    let mut area: BTreeMap<usize, f64> = BTreeMap::new();
    for (t, triangle) in surface.triangles.iter().enumerate() {
        let [a, b, c] = triangle.map(|v| surface.points[v]);
        *area.entry(piece[t]).or_default() += (b - a).cross(c - a).length();
    }
    let largest = area.values().copied().fold(0.0, f64::max);
    let mut t = 0;
    surface.triangles.retain(|_| {
        t += 1;
        area[&piece[t - 1]] >= CRUMB * largest
    });
    area.values().filter(|&&a| a < CRUMB * largest).count()
}

/// Rims of open edges, longest first.
fn holes(surface: &Surface) -> Vec<Hole> {
    let edges = Edges::of(surface);
    let open = edges
        .0
        .chunk_by(|a, b| a.key() == b.key())
        .filter(|e| e.len() == 1);
    let mut next: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    for edge in open {
        next.entry(edge[0].from).or_default().push(edge[0].to);
    }
    let mut holes = Vec::new();
    while let Some((&start, _)) = next.first_key_value() {
        let mut rim = Vec::new();
        let mut at = start;
        while let Some(ends) = next.get_mut(&at) {
            rim.push(surface.points[at]);
            let to = ends.pop();
            if ends.is_empty() {
                next.remove(&at);
            }
            match to {
                Some(to) => at = to,
                None => break,
            }
        }
        let n = rim.len();
        let perimeter = (0..n).map(|i| rim[i].distance(rim[(i + 1) % n])).sum();
        holes.push(Hole {
            centre: mean(&rim),
            perimeter,
            edges: n,
        });
    }
    holes.sort_by(|a, b| b.perimeter.total_cmp(&a.perimeter));
    holes
}
