//! How far apart two triangle surfaces are at least, in any place of the one.
//!
//! A tree of boxes over the triangles of the one that stands; the other's triangles are put
//! against it one by one. Two triangles are at least as far apart as the widest gap between their
//! shadows along any direction; the directions tried are the separating axes of two triangles, so
//! that where they have a point in common, and only there, no gap is left (S. Gottschalk,
//! "Separating axis theorem", TR96-024, 1996, from memory). A gap is never more than the true
//! distance, so erring is on the safe side.

use crate::solid::Solid;
use crate::triangulate::solid_triangles;
use crate::vector::{Point3, Vec3};
use std::cell::Cell;

pub type Triangle = [Vec3; 3];

/// The faces of a solid as triangles.
pub fn triangles(solid: &Solid) -> Vec<[Point3; 3]> {
    let places = |t: [usize; 3]| t.map(|v| solid.vertices[v]);
    solid_triangles(solid).into_iter().map(places).collect()
}

#[derive(Clone, Copy)]
struct Bounds {
    low: Vec3,
    high: Vec3,
}

impl Bounds {
    fn of<'a>(triangles: impl IntoIterator<Item = &'a Triangle>) -> Self {
        let (mut low, mut high) = ([f64::INFINITY; 3], [f64::NEG_INFINITY; 3]);
        for p in triangles.into_iter().flatten() {
            for (i, c) in p.to_array().into_iter().enumerate() {
                low[i] = low[i].min(c);
                high[i] = high[i].max(c);
            }
        }
        let vec = |[x, y, z]: [f64; 3]| Vec3::new(x, y, z);
        Self {
            low: vec(low),
            high: vec(high),
        }
    }

    fn gap(&self, other: &Self) -> f64 {
        let (a, b) = (self.low - other.high, other.low - self.high);
        let axis = |a: f64, b: f64| a.max(b).max(0.0);
        Vec3::new(axis(a.x, b.x), axis(a.y, b.y), axis(a.z, b.z)).length()
    }
}

/// A node holds `count` triangles from `first` on; with more than a few, its halves follow as
/// nodes `left` and `left + 1`.
struct Node {
    bounds: Bounds,
    first: usize,
    count: usize,
    left: usize,
}

const LEAF: usize = 4;

/// A surface that stands still.
pub struct Standing {
    triangles: Vec<Triangle>,
    nodes: Vec<Node>,
}

impl Standing {
    pub fn new(triangles: Vec<Triangle>) -> Self {
        let mut tree = Self {
            nodes: vec![Node {
                bounds: Bounds::of(&triangles),
                first: 0,
                count: triangles.len(),
                left: 0,
            }],
            triangles,
        };
        let mut next = 0;
        while next < tree.nodes.len() {
            tree.divide(next);
            next += 1;
        }
        tree
    }

    fn divide(&mut self, node: usize) {
        let Node {
            bounds,
            first,
            count,
            ..
        } = self.nodes[node];
        if count <= LEAF {
            return;
        }
        let size = (bounds.high - bounds.low).to_array();
        let axis = (0..3)
            .max_by(|&a, &b| size[a].total_cmp(&size[b]))
            .unwrap_or(0);
        let middle = |t: &Triangle| t.iter().map(|p| p.to_array()[axis]).sum::<f64>();
        self.triangles[first..first + count].sort_by(|a, b| middle(a).total_cmp(&middle(b)));
        self.nodes[node].left = self.nodes.len();
        let half = count / 2;
        for (first, count) in [(first, half), (first + half, count - half)] {
            self.nodes.push(Node {
                bounds: Bounds::of(&self.triangles[first..first + count]),
                first,
                count,
                left: 0,
            });
        }
    }

    /// A distance that all of `moving` keeps at least; `most` where it is more. The triangle of
    /// number `likely` is looked at first, and the number of the nearest put in its place: from
    /// pose to pose it is mostly the same, and a short distance known early spares the rest.
    pub fn distance(&self, moving: &[Triangle], most: f64, likely: &Cell<usize>) -> f64 {
        let mut least = most;
        let mut stack = Vec::new();
        let first = likely.get();
        let rest = (0..moving.len()).filter(|&number| number != first);
        for number in std::iter::once(first).chain(rest) {
            let Some(triangle) = moving.get(number) else {
                continue;
            };
            let bounds = Bounds::of([triangle]);
            stack.push(0);
            while let Some(node) = stack.pop() {
                let node: &Node = &self.nodes[node];
                if node.count == 0 || node.bounds.gap(&bounds) >= least {
                    continue;
                }
                if node.left > 0 {
                    // The nearer half on top: what it yields spares much of the other.
                    let far = |half: usize| self.nodes[half].bounds.gap(&bounds);
                    let (a, b) = (node.left, node.left + 1);
                    let order = if far(a) < far(b) { [b, a] } else { [a, b] };
                    stack.extend(order);
                    continue;
                }
                for other in &self.triangles[node.first..node.first + node.count] {
                    if Bounds::of([other]).gap(&bounds) >= least {
                        continue;
                    }
                    let gap = gap(triangle, other, least);
                    if gap < least {
                        least = gap;
                        likely.set(number);
                    }
                    if least <= 0.0 {
                        return 0.0;
                    }
                }
            }
        }
        least
    }
}

/// The widest gap between two triangles along any separating axis, or the first that is `enough`;
/// zero where they meet.
fn gap(a: &Triangle, b: &Triangle, enough: f64) -> f64 {
    let sides = |t: &Triangle| [t[1] - t[0], t[2] - t[1], t[0] - t[2]];
    let (u, v) = (sides(a), sides(b));
    let (m, n) = (u[0].cross(u[1]), v[0].cross(v[1]));
    let of_edges = u
        .into_iter()
        .flat_map(|e| std::iter::once(m.cross(e)).chain(v.map(|f| e.cross(f))));
    let axes = [m, n]
        .into_iter()
        .chain(of_edges)
        .chain(v.map(|f| n.cross(f)));
    let mut widest: f64 = 0.0;
    for axis in axes {
        widest = widest.max(gap_along(a, b, axis));
        if widest >= enough {
            break;
        }
    }
    widest
}

fn gap_along(a: &Triangle, b: &Triangle, axis: Vec3) -> f64 {
    let length = axis.length();
    if length <= 1e-12 {
        return 0.0;
    }
    let shadow = |t: &Triangle| {
        let [p, q, r] = t.map(|p| p.dot(axis));
        (p.min(q).min(r), p.max(q).max(r))
    };
    let (p, q) = (shadow(a), shadow(b));
    (p.0 - q.1).max(q.0 - p.1) / length
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::cube;

    fn surface(solid: &Solid) -> Vec<Triangle> {
        triangles(solid)
            .into_iter()
            .map(|t| t.map(Point3::to_vec))
            .collect()
    }

    #[test]
    fn boxes_are_as_far_apart_as_their_faces_and_zero_where_they_cross() {
        let still = Standing::new(surface(&cube([0.0; 3], [1.0, 1.0, 1.0])));
        let near = surface(&cube([1.03, 0.2, 0.2], [2.0, 0.4, 0.4]));
        assert!((still.distance(&near, 1.0, &Cell::new(0)) - 0.03).abs() < 1e-12);
        assert_eq!(still.distance(&near, 0.02, &Cell::new(7)), 0.02);
        let across = surface(&cube([0.9, 0.2, 0.2], [2.0, 0.4, 0.4]));
        assert_eq!(still.distance(&across, 1.0, &Cell::new(0)), 0.0);
        let inside = surface(&cube([0.2, 0.2, 0.2], [0.4, 0.4, 0.4]));
        assert!((still.distance(&inside, 1.0, &Cell::new(99)) - 0.2).abs() < 1e-12);
    }
}
