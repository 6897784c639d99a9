//! Inner nodes moved to where the triangles around them are best.

use super::fill::ROW;
use crate::vector::{Point2, Vec2};

/// The triangles round each node.
pub(super) struct Stars {
    first: Vec<usize>,
    triangles: Vec<usize>,
}

impl Stars {
    /// Of `nodes` nodes.
    pub fn of(nodes: usize, triangles: &[[usize; 3]]) -> Self {
        let mut first = vec![0; nodes + 1];
        for &node in triangles.iter().flatten() {
            first[node + 1] += 1;
        }
        for node in 0..nodes {
            first[node + 1] += first[node];
        }
        let mut next = first.clone();
        let mut star = vec![0; first[nodes]];
        for (index, triangle) in triangles.iter().enumerate() {
            for &node in triangle {
                star[next[node]] = index;
                next[node] += 1;
            }
        }
        Self {
            first,
            triangles: star,
        }
    }

    /// Triangles with this node.
    pub fn round(&self, node: usize) -> &[usize] {
        &self.triangles[self.first[node]..self.first[node + 1]]
    }
}

/// Moves every node from `fixed` on, several times over, where that improves its worst triangle:
/// to the middle of its neighbours, or to the mean of the tips of equilateral triangles on the
/// sides around it.
pub(super) fn smooth(places: &mut [Point2], fixed: usize, triangles: &[[usize; 3]]) {
    let stars = Stars::of(places.len(), triangles);
    for _ in 0..SWEEPS {
        for node in fixed..places.len() {
            let star = stars.round(node);
            let (mut middle, mut tips) = (Vec2::default(), Vec2::default());
            for &t in star {
                let (a, b) = opposite(&triangles[t], node);
                let (a, b) = (places[a].to_vec(), places[b].to_vec());
                middle += (a + b) / 2.0;
                tips += (a + b) / 2.0 + (b - a).left() * ROW;
            }
            let count = star.len() as f64;
            let worst = |at: Point2| {
                let of = |&t: &usize| {
                    let (a, b) = opposite(&triangles[t], node);
                    shape(at, places[a], places[b])
                };
                star.iter().map(of).fold(f64::INFINITY, f64::min)
            };
            let mut best = (worst(places[node]) + LEAST_GAIN, places[node]);
            for sum in [middle, tips] {
                let at = Point2::default() + sum / count;
                let gain = worst(at);
                if gain > best.0 {
                    best = (gain, at);
                }
            }
            places[node] = best.1;
        }
    }
}

/// The side of a triangle across from a node, in the order round the triangle.
fn opposite(triangle: &[usize; 3], node: usize) -> (usize, usize) {
    match *triangle {
        [n, a, b] if n == node => (a, b),
        [b, n, a] if n == node => (a, b),
        [a, b, _] => (a, b),
    }
}

/// Quality of a triangle: its area over that of the equilateral one with the same sum of squared
/// sides; 1 at best, negative where it is folded over.
fn shape(a: Point2, b: Point2, c: Point2) -> f64 {
    let squared = |v: Vec2| v.dot(v);
    let sum = squared(b - a) + squared(c - b) + squared(a - c);
    2.0 * 3.0_f64.sqrt() * (b - a).cross(c - a) / sum
}

/// How often all nodes are moved before the sides are chosen again.
const SWEEPS: usize = 3;
/// A move that gains less than this is not worth making; it keeps rounding from moving nodes.
const LEAST_GAIN: f64 = 1e-6;
