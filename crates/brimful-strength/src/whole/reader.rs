//! Reads what a load case does to every panel and seam off the answer of the shell.

use super::figures::{Figures, PanelFigure, SeamFigure, face_stress, is_worse};
use super::loaded::LoadedShell;
use super::midsurface::Midsurface;
use super::model::Model;
use super::notch::{NearNotch, near_notches};
use super::reaction::reactions;
use super::sample_point::FacePoint;
use super::seam_side::{Answer, SeamSide, seam_sides};
use super::support::foot;
use super::tank::Tank;
use super::tilt::tilt;
use super::weld::WeldedSeam;
use super::wetting::CaseLimits;
use brimful_geom::vector::{Point3, Vec3};
use brimful_mech::shell::model::Shell;
use brimful_mech::shell::recover::{resultants, smooth};
use brimful_mech::shell::{Fault, State, System};
use std::collections::BTreeSet;

/// Stress at the rim of a small round hole over that of the whole plate: for one pulled one way,
/// less in bending (G. Kirsch 1898, from memory).
const AT_A_SMALL_HOLE: f64 = 3.0;

/// What is looked at in every load case, worked out once a mesh.
#[derive(Clone, Debug)]
pub struct Reader {
    sides: Vec<SeamSide>,
    /// Nodes nearer to a notch than the stress is read.
    by_notch: Vec<bool>,
    /// Where it is read there.
    near_notches: Vec<NearNotch>,
    /// For each panel the nodes next to its small holes.
    small_holes: Vec<Vec<usize>>,
    /// Nodes of each flat on a line where it ends at another sheet, which are judged at that one's face.
    at_face: BTreeSet<(usize, usize)>,
    panels: usize,
}

impl Reader {
    /// Prepares to read answers on `model`.
    pub fn new(
        tank: &Tank<'_>,
        midsurface: &Midsurface,
        model: &Model,
        sections: &[Option<WeldedSeam>],
    ) -> Self {
        let by_notch = |point: &Point3| {
            let mut notches = midsurface.notches.iter();
            notches.any(|notch| point.distance(notch.at) < notch.thickness)
        };
        let mut small_holes = vec![Vec::new(); tank.panels.len()];
        for (panel, centre) in &midsurface.small {
            let own = (0..model.mesh.triangles.len()).filter(|&i| model.panel[i] == *panel);
            let nodes = own.flat_map(|i| model.mesh.triangles[i].nodes);
            let nearest = nodes.min_by(|&a, &b| {
                let away = |node: usize| model.mesh.nodes[node].distance(*centre);
                away(a).total_cmp(&away(b))
            });
            small_holes[*panel].extend(nearest);
        }
        let sides = seam_sides(tank, midsurface, model, sections);
        let mut at_face = BTreeSet::new();
        for side in &sides {
            for (&node, face) in side.chain.iter().zip(&side.faces) {
                let flat = |face: FacePoint| model.mesh.triangles[face.sample.triangle].flat;
                at_face.extend(face.map(|face| (flat(face), node)));
            }
        }
        let inside_other = |flat: usize, place: Point3| {
            let mut sides = sides.iter();
            sides.any(|side| side.is_inside_other(model, flat, place))
        };
        Self {
            near_notches: near_notches(midsurface, model, &inside_other),
            sides,
            at_face,
            by_notch: model.mesh.nodes.iter().map(by_notch).collect(),
            small_holes,
            panels: tank.panels.len(),
        }
    }

    /// The figures of one answer, and the use of the sheet (stress over allowed) at the corners of
    /// each triangle.
    ///
    /// # Errors
    /// The engine's, for an answer of another shell.
    pub fn read(
        &self,
        model: &Model,
        loaded: &LoadedShell,
        system: &System,
        state: &State,
        limits: &CaseLimits,
    ) -> Result<(Figures, Vec<[f64; 3]>), Fault> {
        if state.displacements.iter().flatten().any(|v| !v.is_finite()) {
            return Err(Fault::Solver {
                what: "a displacement is not a number".to_owned(),
            });
        }
        let LoadedShell { shell, load, .. } = loaded;
        let raw = resultants(shell, system, load, state)?;
        let answer = Answer {
            shell,
            system,
            load,
            state,
            smooth: smooth(shell, system, &raw, &BTreeSet::new()),
        };
        let (panels, used) = self.panels(model, &answer, limits);
        let seams = self.seams(model, &answer, limits)?;
        let figures = Figures {
            panels,
            seams,
            borne: lifted(shell, state),
            reactions: reactions(model, shell, &loaded.borne_by, state),
            tilt: tilt(model, state),
        };
        Ok((figures, used))
    }

    /// What each panel gets, and the use at the corners of each triangle.
    fn panels(
        &self,
        model: &Model,
        answer: &Answer<'_>,
        limits: &CaseLimits,
    ) -> (Vec<PanelFigure>, Vec<[f64; 3]>) {
        let still = PanelFigure {
            outward: 0.0,
            inward: 0.0,
            bulge_at: Point3::ORIGIN,
            stress: 0.0,
            utilisation: 0.0,
            stress_at: Point3::ORIGIN,
        };
        let mut panels = vec![still; self.panels];
        let foot = foot(answer.shell);
        let growth = limits.strictest().growth;
        let allowed: Vec<f64> = (0..self.panels)
            .map(|panel| limits.of_panel(panel).sheet.pa())
            .collect();
        let mut used = vec![[0.0; 3]; model.mesh.triangles.len()];
        for (number, triangle) in model.mesh.triangles.iter().enumerate() {
            let panel = model.panel[number];
            let figure = &mut panels[panel];
            let thickness = answer.shell.plates[triangle.flat].thickness;
            let normal = model.normals[triangle.flat];
            for (corner, &node) in triangle.nodes.iter().enumerate() {
                let at = model.mesh.nodes[node];
                let [x, y, z, ..] = answer.state.displacements[node];
                let grown = (at - foot) * growth;
                let moved = normal.dot(Vec3::new(x, y, z) - grown);
                if moved.abs() > figure.outward.max(-figure.inward) {
                    figure.bulge_at = at;
                }
                figure.outward = figure.outward.max(moved);
                figure.inward = figure.inward.min(moved);
                let even = face_stress(&answer.smooth.corners[number][corner], thickness);
                used[number][corner] = even / allowed[panel];
                if self.by_notch[node] || self.at_face.contains(&(triangle.flat, node)) {
                    continue;
                }
                let holed = self.small_holes[panel].contains(&node);
                let factor = if holed { AT_A_SMALL_HOLE } else { 1.0 };
                let stress = factor * even;
                if is_worse(stress, figure.stress) {
                    figure.stress = stress;
                    figure.stress_at = at;
                }
            }
        }
        let faces = self.sides.iter().flat_map(|side| {
            let faces = side.chain.iter().zip(&side.faces);
            let read = faces.filter(|(node, _)| !self.by_notch[**node]);
            read.filter_map(|(&node, face)| Some((face.as_ref()?.sample, model.mesh.nodes[node])))
        });
        let notches = self
            .near_notches
            .iter()
            .map(|place| (place.sample, place.at));
        for (sample, at) in faces.chain(notches) {
            let flat = model.mesh.triangles[sample.triangle].flat;
            let thickness = answer.shell.plates[flat].thickness;
            let stress = face_stress(&sample.resultants(&answer.smooth), thickness);
            let figure = &mut panels[model.panel[sample.triangle]];
            if is_worse(stress, figure.stress) {
                figure.stress = stress;
                figure.stress_at = at;
            }
        }
        for (figure, allowed) in panels.iter_mut().zip(allowed) {
            figure.utilisation = figure.stress / allowed;
        }
        (panels, used)
    }

    /// What each seam gets, by the side that asks most of it.
    fn seams(
        &self,
        model: &Model,
        answer: &Answer<'_>,
        limits: &CaseLimits,
    ) -> Result<Vec<SeamFigure>, Fault> {
        let mut seams: Vec<SeamFigure> = Vec::new();
        for side in &self.sides {
            let Some(figure) = side.worst(model, answer, limits)? else {
                continue;
            };
            match seams.iter_mut().find(|other| other.seam == figure.seam) {
                Some(other) => *other = other.or_worse(&figure),
                None => seams.push(figure),
            }
        }
        seams.sort_by_key(|figure| figure.seam);
        Ok(seams)
    }
}

/// What contacts and springs together lift, N.
fn lifted(shell: &Shell, state: &State) -> f64 {
    let contacts = shell.contacts.iter().zip(&state.contact_forces);
    let springs = shell.springs.iter().zip(&state.spring_forces);
    contacts
        .map(|(contact, push)| contact.push.z * push)
        .sum::<f64>()
        + springs
            .map(|(spring, force)| spring.direction.z * force)
            .sum::<f64>()
}
