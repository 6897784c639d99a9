//! The tank as it lies before anything is welded.

use super::super::loaded::with_modulus;
use super::super::midsurface::Midsurface;
use super::super::model::Model;
use super::super::place::centroid;
use super::super::seam_side::seam_sides;
use super::super::tank::Tank;
use brimful_geom::vector::Vec3;
use brimful_mech::shell::model::Shell;
use brimful_panels::weld::order::Step;
use brimful_panels::weld::{SeamWeld, WeldSide};
use std::collections::{BTreeMap, BTreeSet};

/// Elements across each flat: bows are smooth, and the strain is known to a half.
const FINENESS: f64 = 4.0;
/// Any modulus will do, Pa, and Poisson's ratio of soft plastics.
const MODULUS: (f64, f64) = (1e9, 0.4);

/// The tank before anything of it is welded.
pub struct Bench<'a> {
    pub tank: &'a Tank<'a>,
    pub welds: &'a [SeamWeld],
    pub model: Model,
    /// Held by nothing.
    pub shell: Shell,
    /// The lines of the mesh on each seam.
    pub lines: BTreeMap<usize, Vec<Vec<usize>>>,
}

impl<'a> Bench<'a> {
    pub fn of(tank: &'a Tank<'a>, welds: &'a [SeamWeld]) -> Option<Self> {
        let midsurface = Midsurface::of(tank.body, tank.panels, tank.seams).ok()?;
        let model = Model::of(tank, &midsurface, FINENESS, None).ok()?;
        let mut shell = with_modulus(&model.shell, MODULUS.0, MODULUS.1, 0.0);
        shell.contacts.clear();
        shell.springs.clear();
        let lines = lines(tank, &midsurface, &model);
        Some(Self {
            tank,
            welds,
            model,
            shell,
            lines,
        })
    }

    /// What is laid in a step.
    pub fn laid(&self, step: &'a Step) -> impl Iterator<Item = &'a SeamWeld> {
        self.welds
            .iter()
            .filter(|weld| step.work.side() == Some(weld.side) && step.seams.contains(&weld.seam))
    }

    /// Whether a seam is welded from inside and from outside.
    pub fn has_two_sides(&self, seam: usize) -> bool {
        let has = |side| {
            let mut welds = self.welds.iter();
            welds.any(|weld| weld.seam == seam && weld.side == side)
        };
        has(WeldSide::Inside) && has(WeldSide::Outside)
    }

    /// The seams of a panel, each with the panel that it is welded to there.
    pub fn met_by(&self, panel: usize) -> impl Iterator<Item = (usize, usize)> {
        let seams = self.tank.seams.iter().enumerate();
        seams.filter_map(move |(number, seam)| match seam.panels {
            [one, other] if one == panel => Some((number, other)),
            [one, other] if other == panel => Some((number, one)),
            _ => None,
        })
    }

    /// Whether any panel meets both of a seam, and so holds them at their angle.
    pub fn gets_held(&self, seam: usize) -> bool {
        self.is_held(seam, &vec![true; self.tank.panels.len()])
    }

    /// Whether any of those that stand does.
    pub fn is_held(&self, seam: usize, standing: &[bool]) -> bool {
        let meets = |panel: usize| -> BTreeSet<usize> {
            let met = self.met_by(panel).map(|it| it.1);
            met.filter(|it| standing[*it]).collect()
        };
        let [one, other] = self.tank.seams[seam].panels;
        !meets(one).is_disjoint(&meets(other))
    }

    /// The nodes on a seam.
    pub fn nodes_on(&self, seam: usize) -> Vec<usize> {
        let lines = self.lines.get(&seam).into_iter().flatten();
        lines.flatten().copied().collect()
    }

    /// The way from a seam into one of its panels, square to `along`, from what of the panel lies next to it: the middle of
    /// an L may lie on the other side.
    pub fn into(&self, panel: usize, seam: usize, along: Vec3) -> Vec3 {
        let mesh = &self.model.mesh;
        let nodes: BTreeSet<usize> = self.nodes_on(seam).into_iter().collect();
        let Some(first) = nodes.first().map(|&node| mesh.nodes[node]) else {
            return Vec3::ZERO;
        };
        let touches = |it: &usize| {
            let own = mesh.triangles[*it].nodes;
            let touching = own.iter().filter(|node| nodes.contains(node)).count();
            self.model.panel[*it] == panel && touching > 1
        };
        let beside = (0..mesh.triangles.len()).filter(touches);
        let ways = beside.map(|it| centroid(mesh, it) - first);
        let sum = ways.fold(Vec3::ZERO, |sum, way| sum + way);
        sum - along * sum.dot(along)
    }
}

/// The lines of the mesh on each seam.
fn lines(
    tank: &Tank<'_>,
    midsurface: &Midsurface,
    model: &Model,
) -> BTreeMap<usize, Vec<Vec<usize>>> {
    let sections = vec![None; tank.seams.len()];
    let mut lines: BTreeMap<usize, Vec<Vec<usize>>> = BTreeMap::new();
    for side in seam_sides(tank, midsurface, model, &sections) {
        let own = lines.entry(side.seam).or_default();
        if !own.contains(&side.chain) {
            own.push(side.chain);
        }
    }
    lines
}
