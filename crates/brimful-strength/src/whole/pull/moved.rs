//! How far panels have moved since each was set, and the planes that lie nearest to them.

use super::super::model::Model;
use super::super::tank::Tank;
use super::bead::Part;
use brimful_geom::vector::Vec3;
use std::collections::BTreeMap;

/// How far the nodes of each panel have moved since it was set.
#[derive(Clone)]
pub(super) struct Moved {
    /// By panel: its nodes, and their displacements.
    nodes: Vec<BTreeMap<usize, Vec3>>,
}

/// A plane laid through a panel as it stands.
#[derive(Clone, Copy)]
pub(super) struct Plane {
    /// From the place farthest behind it to the one farthest ahead, m.
    pub bow: f64,
    /// How far the middle of it lies ahead of the plane, m.
    pub middle: f64,
    /// How it has turned.
    pub turn: Vec3,
}

impl Moved {
    pub(super) fn new(model: &Model, panels: usize) -> Self {
        let mut nodes = vec![BTreeMap::new(); panels];
        for (triangle, &panel) in model.mesh.triangles.iter().zip(&model.panel) {
            nodes[panel].extend(triangle.nodes.map(|node| (node, Vec3::ZERO)));
        }
        Self { nodes }
    }

    pub(super) fn add(&mut self, part: &Part<'_>, displacements: &[[f64; 6]]) {
        let mut stands = vec![false; self.nodes.len()];
        for &triangle in &part.triangles {
            stands[part.model.panel[triangle]] = true;
        }
        let standing = self.nodes.iter_mut().zip(stands);
        for (own, _) in standing.filter(|(_, stands)| *stands) {
            for (node, sum) in own {
                let [x, y, z, ..] = displacements[*node];
                *sum += Vec3::new(x, y, z);
            }
        }
    }

    /// Has a panel stand as in another.
    pub(super) fn take_over(&mut self, other: &Self, panel: usize) {
        self.nodes[panel].clone_from(&other.nodes[panel]);
    }

    /// How far a node of a panel has moved; none where it has no such node.
    pub(super) fn of(&self, panel: usize, node: usize) -> Option<Vec3> {
        self.nodes[panel].get(&node).copied()
    }

    /// By least squares, for each panel.
    pub(super) fn planes(&self, tank: &Tank<'_>, model: &Model) -> Vec<Plane> {
        let plane = |(panel, own): (usize, &BTreeMap<usize, Vec3>)| {
            let frame = tank.panels[panel].finished.frame;
            let points: Vec<[f64; 3]> = own
                .iter()
                .map(|(&node, moved)| {
                    let at = frame.flat_from_world(model.mesh.nodes[node]);
                    [at.x, at.y, moved.dot(frame.z)]
                })
                .collect();
            let [rise, along_x, along_y] = fitted(&points);
            let off = |[x, y, w]: &[f64; 3]| w - (rise + along_x * x + along_y * y);
            let (low, high) = points
                .iter()
                .map(off)
                .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), it| {
                    (low.min(it), high.max(it))
                });
            Plane {
                bow: (high - low).max(0.0),
                middle: nearest_middle(&points).map_or(0.0, off),
                turn: frame.x * along_y - frame.y * along_x,
            }
        };
        self.nodes.iter().enumerate().map(plane).collect()
    }
}

/// The point nearest to the middle of all.
fn nearest_middle(points: &[[f64; 3]]) -> Option<&[f64; 3]> {
    let count = points.len() as f64;
    let mean = |k: usize| points.iter().map(|it| it[k]).sum::<f64>() / count;
    let [x, y] = [0, 1].map(mean);
    let away = |it: &&[f64; 3]| (it[0] - x).hypot(it[1] - y);
    points.iter().min_by(|a, b| away(a).total_cmp(&away(b)))
}

/// So small a share of how far points spread makes the plane through points on one line level across it, and moves no other.
const LEVEL_ACROSS: f64 = 1e-9;

/// The plane `w = a + b x + c y` nearest to these points by least squares, about their middle.
pub(super) fn fitted(points: &[[f64; 3]]) -> [f64; 3] {
    let count = points.len().max(1) as f64;
    let mean = |k: usize| points.iter().map(|it| it[k]).sum::<f64>() / count;
    let [x, y, w] = [0, 1, 2].map(mean);
    let sum = |a: usize, b: usize| {
        let middle = [x, y, w];
        let product = |it: &[f64; 3]| (it[a] - middle[a]) * (it[b] - middle[b]);
        points.iter().map(product).sum::<f64>()
    };
    let (xx, xy, yy, xw, yw) = (sum(0, 0), sum(0, 1), sum(1, 1), sum(0, 2), sum(1, 2));
    let level = LEVEL_ACROSS * (xx + yy);
    let (xx, yy) = (xx + level, yy + level);
    let determinant = xx * yy - xy * xy;
    if determinant <= 0.0 {
        return [w, 0.0, 0.0];
    }
    let (b, c) = (
        (xw * yy - yw * xy) / determinant,
        (yw * xx - xw * xy) / determinant,
    );
    [w - b * x - c * y, b, c]
}
