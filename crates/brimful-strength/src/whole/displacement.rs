//! How the tank stands under each load, for pictures.

use super::model::Model;
use super::support::foot;
use brimful_geom::vector::{Point3, Vec3};
use brimful_mech::shell::State;
use brimful_panels::case::CaseId;
use std::sync::Arc;

/// A mesh that some loads were run on.
#[derive(Clone, Debug, PartialEq)]
pub struct Mesh {
    /// Where the nodes lie in the empty tank.
    pub nodes: Vec<Point3>,
    /// Nodes of each triangle.
    pub triangles: Vec<[usize; 3]>,
    /// Panel of each triangle.
    pub panel: Vec<usize>,
    /// From where the tank grows.
    foot: Point3,
}

/// The tank under one load, on the finest mesh that it was run on. A picture needs no more than single
/// precision, and a tank has many loads.
#[derive(Clone, Debug, PartialEq)]
pub struct Displacement {
    /// The load case.
    pub case: CaseId,
    /// The mesh.
    pub mesh: Arc<Mesh>,
    /// Displacement of each node, m.
    pub by: Vec<[f32; 3]>,
    /// Use of the sheet at the corners of each triangle: stress over allowed.
    pub used: Vec<[f32; 3]>,
}

impl Mesh {
    pub(super) fn of(model: &Model) -> Self {
        let triangles = model.shell.triangles.iter();
        Self {
            nodes: model.shell.nodes.clone(),
            triangles: triangles.map(|triangle| triangle.nodes).collect(),
            panel: model.panel.clone(),
            foot: foot(&model.shell),
        }
    }
}

impl Displacement {
    /// Of what a load case came to: the degrees of freedom of every node, and the use at every corner.
    pub(super) fn new(case: CaseId, mesh: &Arc<Mesh>, state: &State, used: &[[f64; 3]]) -> Self {
        let displacements = state.displacements.iter();
        Self {
            case,
            mesh: Arc::clone(mesh),
            by: displacements
                .map(|[x, y, z, ..]| single([*x, *y, *z]))
                .collect(),
            used: used.iter().map(|used| single(*used)).collect(),
        }
    }
}

impl Displacement {
    /// How far a node has moved along `way`, less what the sheet has grown by warmth, a share `growth`, m.
    pub fn along(&self, node: usize, way: Vec3, growth: f64) -> f64 {
        let [x, y, z] = self.by[node].map(f64::from);
        let grown = (self.mesh.nodes[node] - self.mesh.foot) * growth;
        way.dot(Vec3::new(x, y, z) - grown)
    }
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "single precision is enough for a picture"
)]
fn single(values: [f64; 3]) -> [f32; 3] {
    values.map(|value| value as f32)
}
