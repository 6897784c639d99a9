//! What stands in a step, and how it moves when beads on it cool.

use super::super::model::Model;
use super::super::place::centroid;
use super::super::tank::Tank;
use brimful_geom::vector::{Point3, Vec3};
use brimful_mech::shell::inherent::{Inherent, beside_line};
use brimful_mech::shell::linear::solve;
use brimful_mech::shell::model::{Constraint, Dof, InitialStrain, Load, Shell};
use brimful_mech::shell::{System, Workspace};
use brimful_panels::seam::{Joint, Seam};
use brimful_panels::weld::groove::GrooveKind;
use brimful_panels::weld::{SeamWeld, WeldSide};
use std::collections::BTreeMap;

/// What stands of the tank in a step.
pub(super) struct StandingShell<'a> {
    tank: &'a Tank<'a>,
    pub(super) model: &'a Model,
    shell: Shell,
    /// Number in the model of each of its triangles.
    pub(super) triangles: Vec<usize>,
    system: System,
}

impl<'a> StandingShell<'a> {
    pub(super) fn of(
        tank: &'a Tank<'a>,
        model: &'a Model,
        whole: &Shell,
        standing: &[bool],
    ) -> Option<Self> {
        let numbers = 0..whole.triangles.len();
        let triangles: Vec<usize> = numbers.filter(|&it| standing[model.panel[it]]).collect();
        let mut shell = Shell {
            triangles: triangles.iter().map(|&it| whole.triangles[it]).collect(),
            ..whole.clone()
        };
        shell.constraints = held(&shell)?;
        let system = System::new(&shell).ok()?;
        Some(Self {
            tank,
            model,
            shell,
            triangles,
            system,
        })
    }

    /// How it moves when these beads cool.
    pub(super) fn pulled(
        &self,
        lines: &BTreeMap<usize, Vec<Vec<usize>>>,
        welds: &[&SeamWeld],
    ) -> Option<Vec<[f64; 6]>> {
        let mut strains = vec![InitialStrain::default(); self.shell.triangles.len()];
        for (number, weld) in welds.iter().enumerate() {
            // The two fillets of a tee lie on one face of the standing panel each.
            let is_second = welds[..number].iter().any(|it| it.seam == weld.seam);
            let bead = Bead {
                part: self,
                weld,
                seam: &self.tank.seams[weld.seam],
                face: if is_second { -1.0 } else { 1.0 },
            };
            for line in lines.get(&weld.seam).into_iter().flatten() {
                let of = |beside: &[usize]| bead.on(beside, line);
                for (sum, own) in strains
                    .iter_mut()
                    .zip(beside_line(&self.shell, line, of).ok()?)
                {
                    for k in 0..3 {
                        sum.stretch[k] += own.stretch[k];
                        sum.curvature[k] += own.curvature[k];
                    }
                }
            }
        }
        let load = Load {
            initial_strains: strains,
            ..Load::default()
        };
        let mut workspace = Workspace::new(&self.system).ok()?;
        let states = solve(&self.shell, &self.system, &mut workspace, &[load]).ok()?;
        states.into_iter().next().map(|state| state.displacements)
    }
}

/// A bead on a seam.
struct Bead<'a> {
    part: &'a StandingShell<'a>,
    weld: &'a SeamWeld,
    seam: &'a Seam,
    /// One, or minus one of the second bead of a seam in a step. Of a tee: the face of the standing panel that it lies on, as the
    /// sign of that panel's normal.
    face: f64,
}

impl Bead<'_> {
    /// What it does to each of the triangles beside its line, for a strain of one.
    fn on(&self, beside: &[usize], line: &[usize]) -> Vec<Inherent> {
        let is_tee = matches!(self.seam.joint, Joint::Tee | Joint::SlotThrough);
        let standing = self.seam.panels[0];
        let own: Vec<usize> = beside.iter().map(|&it| self.part.triangles[it]).collect();
        let foot = own.iter().find(|&&it| self.panel(it) == standing);
        let signs = own.iter().map(|&triangle| match foot {
            Some(&foot) if is_tee => self.sign_at_tee(triangle, foot, line),
            _ => Some(self.sign_at_corner(triangle)),
        });
        let signs: Vec<Option<f64>> = signs.collect();
        // Each bead lies on two sheets, and each of them has half of it.
        let sheets = signs.iter().flatten().count().max(1) as f64;
        own.iter()
            .zip(signs)
            .map(|(&triangle, sign)| match sign {
                Some(sign) => Inherent {
                    along: self.weld.area.m2() / self.thickness(triangle) / sheets,
                    across: 0.0,
                    turn: sign * self.turn(triangle) / sheets,
                },
                None => Inherent::default(),
            })
            .collect()
    }

    /// By how much the bead turns the sheets on its two sides against each other, for a strain of one.
    fn turn(&self, triangle: usize) -> f64 {
        let (area, throat) = (self.weld.area.m2(), self.weld.throat.m());
        let depth = match self.weld.kind {
            // It lies on the faces, and its root is the hinge.
            GrooveKind::Fillet => throat,
            // Tongues are drawn into their slots evenly.
            GrooveKind::Plug => return 0.0,
            GrooveKind::V | GrooveKind::HalfV | GrooveKind::DoubleV => {
                throat.max(self.thickness(triangle))
            }
        };
        if depth > 0.0 {
            2.0 * area / (depth * depth)
        } else {
            0.0
        }
    }

    /// Which way a sheet of the body's corner turns: one where its inner face is shortened. The second bead of a side lies on
    /// the other face: of strips in line, which are bevelled from both.
    fn sign_at_corner(&self, triangle: usize) -> f64 {
        let outward = self.face * self.winding(triangle).dot(self.normal(triangle)).signum();
        match self.weld.side {
            WeldSide::Inside => outward,
            WeldSide::Outside => -outward,
        }
    }

    /// Which way a sheet turns at a tee; none for that part of the wall which lies beyond the standing panel.
    fn sign_at_tee(&self, triangle: usize, foot: usize, line: &[usize]) -> Option<f64> {
        let mesh = &self.part.model.mesh;
        let at = mesh.nodes[line[0]];
        let face = self.normal(foot) * self.face;
        if self.panel(triangle) == self.panel(foot) {
            return Some(-self.winding(triangle).dot(face).signum());
        }
        let is_beside = (centroid(mesh, triangle) - at).dot(face) > 0.0;
        let up = centroid(mesh, foot) - at;
        is_beside.then(|| -self.winding(triangle).dot(up).signum())
    }

    fn panel(&self, triangle: usize) -> usize {
        self.part.model.panel[triangle]
    }

    fn normal(&self, triangle: usize) -> Vec3 {
        self.part.model.normals[self.part.model.mesh.triangles[triangle].flat]
    }

    /// The normal of a triangle by the order of its corners.
    fn winding(&self, triangle: usize) -> Vec3 {
        let mesh = &self.part.model.mesh;
        let [a, b, c] = mesh.triangles[triangle].nodes.map(|node| mesh.nodes[node]);
        (b - a).cross(c - a)
    }

    fn thickness(&self, triangle: usize) -> f64 {
        self.part.tank.panels[self.panel(triangle)].thickness.m()
    }
}

/// What keeps a free shell from drifting, and nothing more: of three nodes far apart one is held, one in two ways
/// and one in one.
fn held(shell: &Shell) -> Option<Vec<Constraint>> {
    let mut nodes: Vec<usize> = shell.triangles.iter().flat_map(|it| it.nodes).collect();
    nodes.sort_unstable();
    nodes.dedup();
    let at = |node: usize| shell.nodes[node];
    let farthest = |away: &dyn Fn(Point3) -> f64| {
        let by = |a: &&usize, b: &&usize| away(at(**a)).total_cmp(&away(at(**b)));
        nodes.iter().max_by(by).copied()
    };
    let first = *nodes.first()?;
    let second = farthest(&|it| it.distance(at(first)))?;
    let along = at(second) - at(first);
    let third = farthest(&|it| (it - at(first)).cross(along).length())?;
    let across = along.cross(at(third) - at(first));
    let largest = |way: Vec3| {
        let parts = way.to_array().map(f64::abs);
        (0..3).max_by(|&a, &b| parts[a].total_cmp(&parts[b]))
    };
    let (along, across) = (largest(along)?, largest(across)?);
    let ways = [Dof::X, Dof::Y, Dof::Z];
    let hold = |node: usize, dof: usize| Constraint {
        node,
        dof: ways[dof],
        value: 0.0,
    };
    let others = (0..3).filter(|&dof| dof != along);
    let held = (0..3).map(|dof| hold(first, dof));
    let held = held.chain(others.map(|dof| hold(second, dof)));
    Some(held.chain([hold(third, across)]).collect())
}
