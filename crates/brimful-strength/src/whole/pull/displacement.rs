//! How far panels have moved since each was set, seen from the first of them, and the planes that lie nearest to them.

use super::super::model::Model;
use super::super::tank::Tank;
use super::bead::StandingShell;
use brimful_geom::vector::{Point3, Vec3};
use std::collections::BTreeMap;

/// How far the nodes of each panel have moved since it was set, for a strain of one.
#[derive(Clone)]
pub(super) struct PanelDisplacements {
    /// By panel its nodes.
    nodes: Vec<BTreeMap<usize, Node>>,
}

/// A node of a panel.
#[derive(Clone, Copy)]
struct Node {
    /// What of the panel is about it, m2: a mesh is finer in some places than in others.
    area: f64,
    /// How far it has moved, m.
    moved: Vec3,
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

impl PanelDisplacements {
    pub(super) fn new(model: &Model, panels: usize) -> Self {
        let mut nodes = vec![BTreeMap::new(); panels];
        for (triangle, &panel) in model.mesh.triangles.iter().zip(&model.panel) {
            let [a, b, c] = triangle.nodes.map(|node| model.mesh.nodes[node]);
            let third = (b - a).cross(c - a).length() / 6.0;
            for node in triangle.nodes {
                let own = nodes[panel].entry(node).or_insert(Node {
                    area: 0.0,
                    moved: Vec3::ZERO,
                });
                own.area += third;
            }
        }
        Self { nodes }
    }

    /// Adds how a step moves what stands, seen from the panel `seen_from`: what holds a free shell in space is not to be
    /// taken for its own motion.
    pub(super) fn add(
        &mut self,
        shell: &StandingShell<'_>,
        displacements: &[[f64; 6]],
        seen_from: usize,
    ) {
        let moved = |node: usize| {
            let [x, y, z, ..] = displacements[node];
            Vec3::new(x, y, z)
        };
        let at = |node: usize| shell.model.mesh.nodes[node];
        let reference = self.nodes[seen_from].iter();
        let reference = reference.map(|(&node, own)| (own.area, at(node), moved(node)));
        let rigid = RigidMotion::nearest(&reference.collect::<Vec<_>>());
        let mut stands = vec![false; self.nodes.len()];
        for &triangle in &shell.triangles {
            stands[shell.model.panel[triangle]] = true;
        }
        let standing = self.nodes.iter_mut().zip(stands);
        for (own, _) in standing.filter(|(_, stands)| *stands) {
            for (&node, own) in own {
                own.moved += moved(node) - rigid.at(at(node));
            }
        }
    }

    /// Has a panel stand as in another, at these nodes or at all of them.
    pub(super) fn take_over(&mut self, other: &Self, panel: usize, at: Option<&[usize]>) {
        match at {
            None => self.nodes[panel].clone_from(&other.nodes[panel]),
            Some(nodes) => {
                for node in nodes {
                    if let Some(own) = other.nodes[panel].get(node) {
                        self.nodes[panel].insert(*node, *own);
                    }
                }
            }
        }
    }

    /// How far a node of a panel has moved; none where it has no such node.
    pub(super) fn of(&self, panel: usize, node: usize) -> Option<Vec3> {
        Some(self.nodes[panel].get(&node)?.moved)
    }

    /// By least squares, for each panel.
    pub(super) fn planes(&self, tank: &Tank<'_>, model: &Model) -> Vec<Plane> {
        let plane = |(panel, own): (usize, &BTreeMap<usize, Node>)| {
            let frame = tank.panels[panel].finished.frame;
            let points: Vec<Offset> = own
                .iter()
                .map(|(&node, own)| {
                    let at = frame.flat_from_world(model.mesh.nodes[node]);
                    Offset {
                        counts: own.area,
                        at: [at.x, at.y],
                        off: own.moved.dot(frame.z),
                    }
                })
                .collect();
            let [rise, along_x, along_y] = fitted(&points);
            let off = |it: &Offset| it.off - (rise + along_x * it.at[0] + along_y * it.at[1]);
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

/// A small motion that leaves shapes as they are.
struct RigidMotion {
    about: Point3,
    shift: Vec3,
    turn: Vec3,
}

impl RigidMotion {
    /// The nearest to how these places move, by least squares; each counts by its area.
    fn nearest(places: &[(f64, Point3, Vec3)]) -> Self {
        let sum: f64 = places.iter().map(|it| it.0).sum();
        let mean = |of: &dyn Fn(&(f64, Point3, Vec3)) -> Vec3| {
            let parts = places.iter().map(|it| of(it) * (it.0 / sum));
            parts.fold(Vec3::ZERO, |sum, it| sum + it)
        };
        let about = Point3::ORIGIN + mean(&|it| it.1.to_vec());
        let shift = mean(&|it| it.2);
        let torque = mean(&|it| (it.1 - about).cross(it.2 - shift));
        // The moments of inertia about the axes, as columns.
        let column = |axis: Vec3| mean(&|it| (it.1 - about).cross(axis.cross(it.1 - about)));
        let [a, b, c] = [Vec3::X, Vec3::Y, Vec3::Z].map(column);
        let determinant = a.dot(b.cross(c));
        let turn = match determinant > 0.0 {
            true => {
                let parts = [b.cross(c), c.cross(a), a.cross(b)];
                let [x, y, z] = parts.map(|it| torque.dot(it) / determinant);
                Vec3::new(x, y, z)
            }
            false => Vec3::ZERO,
        };
        Self { about, shift, turn }
    }

    fn at(&self, place: Point3) -> Vec3 {
        self.shift + self.turn.cross(place - self.about)
    }
}

/// How far a place of a panel lies off its plane.
#[derive(Clone, Copy)]
pub(super) struct Offset {
    /// How much it counts.
    pub counts: f64,
    /// Where, in the panel's axes, m.
    pub at: [f64; 2],
    /// Along its normal, m.
    pub off: f64,
}

/// The place nearest to the middle of all.
fn nearest_middle(points: &[Offset]) -> Option<&Offset> {
    let sum: f64 = points.iter().map(|it| it.counts).sum();
    let mean = |k: usize| points.iter().map(|it| it.counts * it.at[k]).sum::<f64>() / sum;
    let [x, y] = [0, 1].map(mean);
    let away = |it: &&Offset| (it.at[0] - x).hypot(it.at[1] - y);
    points.iter().min_by(|a, b| away(a).total_cmp(&away(b)))
}

/// A ridge added to the normal equations, as a share of how far places spread: the plane through places on one line is
/// level across it, and no other is moved.
const RIDGE: f64 = 1e-9;

/// The plane `w = a + b x + c y` nearest to these places by least squares.
pub(super) fn fitted(points: &[Offset]) -> [f64; 3] {
    let sum: f64 = points.iter().map(|it| it.counts).sum();
    let mean = |of: &dyn Fn(&Offset) -> f64| {
        let parts = points.iter().map(|it| it.counts * of(it));
        parts.sum::<f64>() / sum.max(f64::MIN_POSITIVE)
    };
    let (x, y) = (mean(&|it| it.at[0]), mean(&|it| it.at[1]));
    let w = mean(&|it| it.off);
    let product = |of: &dyn Fn(&Offset) -> [f64; 2]| mean(&|it| of(it)[0] * of(it)[1]);
    let (dx, dy) = (|it: &Offset| it.at[0] - x, |it: &Offset| it.at[1] - y);
    let dw = |it: &Offset| it.off - w;
    let (xx, yy) = (
        product(&|it| [dx(it), dx(it)]),
        product(&|it| [dy(it), dy(it)]),
    );
    let (xy, xw, yw) = (
        product(&|it| [dx(it), dy(it)]),
        product(&|it| [dx(it), dw(it)]),
        product(&|it| [dy(it), dw(it)]),
    );
    let ridge = RIDGE * (xx + yy);
    let (xx, yy) = (xx + ridge, yy + ridge);
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_rigid_motion_is_found_again() {
        let motion = RigidMotion {
            about: Point3::new(0.1, 0.2, 0.3),
            shift: Vec3::new(1e-3, -2e-3, 3e-3),
            turn: Vec3::new(2e-3, 1e-3, -3e-3),
        };
        let corners = [[0.0, 0.0], [0.6, 0.0], [0.6, 0.4], [0.0, 0.4], [0.2, 0.1]];
        let place = |[x, y]: [f64; 2]| {
            let at = Point3::new(x, y, 0.05);
            (1.0 + x, at, motion.at(at))
        };
        let found = RigidMotion::nearest(&corners.map(place));
        for (_, at, moved) in corners.map(place) {
            assert!((found.at(at) - moved).length() < 1e-12);
        }
    }

    /// Places on one line: level across it.
    #[test]
    fn a_plane_through_a_line_is_level_across() {
        let point = |x: f64| Offset {
            counts: 1.0,
            at: [x, 0.5],
            off: 1.0 + 2.0 * x,
        };
        let [rise, along_x, along_y] = fitted(&[0.0, 0.5, 1.0].map(point));
        assert!((rise - 1.0).abs() < 1e-6 && (along_x - 2.0).abs() < 1e-6);
        assert!(along_y.abs() < 1e-6);
    }
}
