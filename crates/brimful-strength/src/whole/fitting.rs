//! Fittings that weigh something, and hang on their panel in every load.

use super::midsurface::Midsurface;
use super::tank::Tank;
use brimful_geom::mesh::Mesh;
use brimful_geom::vector::{Point3, Vec3};
use brimful_panels::fitting::fittings;

/// A mass at the end of an arm that is fixed to some nodes of the mesh.
#[derive(Clone, Debug)]
pub struct HeavyFitting {
    /// Nodes that carry it, alike: those round its hole, or the one nearest to it where the hole is not in the
    /// mesh.
    nodes: Vec<usize>,
    /// kg.
    mass: f64,
    /// From the nodes to the middle of its mass, m.
    arm: Vec3,
}

impl HeavyFitting {
    /// Those of a tank.
    pub fn all(tank: &Tank<'_>, midsurface: &Midsurface, mesh: &Mesh) -> Vec<Self> {
        fittings(tank.job, tank.panels)
            .iter()
            .filter_map(|fitting| {
                let (mass, at) = fitting.weight()?;
                let nodes = carrying(midsurface, mesh, fitting.panel, fitting.at());
                let places = nodes.iter().map(|&node| mesh.nodes[node].to_vec());
                let middle = places.fold(Vec3::ZERO, |sum, place| sum + place) / nodes.len() as f64;
                Some(Self {
                    arm: at.to_vec() - middle,
                    mass: mass.kg(),
                    nodes,
                })
            })
            .collect()
    }

    /// Forces and moments on its nodes where everything is pulled by `acceleration`, m/s2.
    pub fn forces(&self, acceleration: Vec3) -> impl Iterator<Item = (usize, [f64; 6])> {
        let each = acceleration * (self.mass / self.nodes.len() as f64);
        let moment = self.arm.cross(each);
        let load = [each.x, each.y, each.z, moment.x, moment.y, moment.z];
        self.nodes.iter().map(move |&node| (node, load))
    }
}

/// Nodes of a panel's flat that carry what goes into a hole at a place on its outside.
fn carrying(midsurface: &Midsurface, mesh: &Mesh, panel: usize, at: Point3) -> Vec<usize> {
    let own = |flat: usize| midsurface.panels[flat].contains(&panel);
    let thickness = |flat: usize| midsurface.thickness[flat];
    let is_there = |rim: &&super::midsurface::Rim| {
        own(rim.flat) && rim.centre.distance(at) < thickness(rim.flat)
    };
    if let Some(rim) = midsurface.rims.iter().find(is_there) {
        let nodes = rim.nodes(mesh);
        if !nodes.is_empty() {
            return nodes;
        }
    }
    let triangles = mesh.triangles.iter().filter(|it| own(it.flat));
    let nearest = triangles.flat_map(|it| it.nodes).min_by(|&a, &b| {
        let away = |node: usize| mesh.nodes[node].distance(at);
        away(a).total_cmp(&away(b))
    });
    nearest.into_iter().collect()
}
