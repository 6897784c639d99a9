//! What one load case does to every panel and seam, taken from the answer of the shell.

use super::midsurface::Midsurface;
use super::model::Model;
use super::sample_point::SamplePoint;
use super::tank::Tank;
use super::tilt::tilt;
use super::weld::{Passed, Section};
use crate::limit::Limits;
use brimful_geom::mesh::{Extra, LinePart};
use brimful_geom::vector::{Point3, Vec3};
use brimful_mech::shell::model::Shell;
use brimful_mech::shell::model::{Load, Resultants};
use brimful_mech::shell::recover::{LineForce, Smooth, line_forces, resultants, smooth};
use brimful_mech::shell::{Fault, State, System};
use brimful_panels::seam::{Joint, Seam};
use std::collections::BTreeSet;

/// Stress at the rim of a small round hole over that of the whole plate: for one pulled one way,
/// less in bending (G. Kirsch 1898, from memory).
const AT_A_SMALL_HOLE: f64 = 3.0;

/// The figures of one load case.
#[derive(Clone, Debug, PartialEq)]
pub struct Figures {
    /// One a panel.
    pub panels: Vec<PanelFigure>,
    /// One a seam that passes something on.
    pub seams: Vec<SeamFigure>,
    /// Push of the support, all together, N.
    pub borne: f64,
    /// What presses on each of the supports, in the order of [`super::Whole::supports`], N; of a
    /// strap its tension.
    pub reactions: Vec<f64>,
    /// How far the tank as a whole leans over from how it stood, radians.
    pub tilt: f64,
}

impl Figures {
    /// The furthest that any panel moves square to itself, m.
    pub fn worst_bulge(&self) -> f64 {
        let moves = self
            .panels
            .iter()
            .map(|panel| panel.outward.max(-panel.inward));
        moves.fold(0.0, f64::max)
    }

    /// The greatest use of any panel.
    pub fn worst_panel(&self) -> f64 {
        self.panels
            .iter()
            .map(|panel| panel.utilisation)
            .fold(0.0, f64::max)
    }

    /// The greatest use of any seam.
    pub fn worst_seam(&self) -> f64 {
        self.seams
            .iter()
            .map(|seam| seam.utilisation)
            .fold(0.0, f64::max)
    }
}

/// What a case does to a panel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PanelFigure {
    /// Furthest outward, less what the sheet has grown by warmth, m.
    pub outward: f64,
    /// Furthest inward, m.
    pub inward: f64,
    /// Where it moves most.
    pub bulge_at: Point3,
    /// Greatest stress, a thickness away from notches, Pa.
    pub stress: f64,
    /// Stress over allowed.
    pub utilisation: f64,
    /// Where.
    pub stress_at: Point3,
}

/// What a case does to a seam, at its worst place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SeamFigure {
    /// The seam.
    pub seam: usize,
    /// What it passes on there.
    pub passed: Passed,
    /// Stress in the weld, Pa; that of a root pulled open counts twice.
    pub stress: f64,
    /// Whether it is that of a root.
    pub at_root: bool,
    /// Stress over allowed.
    pub utilisation: f64,
    /// Where.
    pub at: Point3,
}

/// A side of a mesh line that a seam's weld joins to the rest: chain and triangles.
#[derive(Clone, Debug)]
pub struct SeamSide {
    seam: usize,
    section: Option<Section>,
    chain: Vec<usize>,
    triangles: Vec<usize>,
    /// Where each node of the chain is judged: at the face of the sheet that it stands against.
    faces: Vec<Option<SamplePoint>>,
    /// Forces are evened out over this length, or over two cells of the mesh, m.
    over: f64,
}

/// The lines of the mesh that are seams. A seam's forces are those of the panel that ends at it.
pub fn seam_sides(
    tank: &Tank<'_>,
    midsurface: &Midsurface,
    model: &Model,
    sections: &[Option<Section>],
) -> Vec<SeamSide> {
    let mut sides = Vec::new();
    for line in &model.mesh.lines {
        let at = |node: usize| model.mesh.nodes[node];
        let (first, last) = (line.nodes[0], line.nodes[line.nodes.len() - 1]);
        let middle_point = at(first).midpoint(at(last));
        for flat in &line.flats {
            // Of the lines asked for in a flat the first are its butt seams; edges of supports follow.
            let butt_seams = midsurface.flats[flat.flat].segments.len();
            let of_seam = |extra: &Extra| extra.flat == flat.flat && extra.segment < butt_seams;
            let butt = flat.part == LinePart::Interior && line.extras.iter().any(of_seam);
            if flat.part != LinePart::Edge && !butt {
                continue;
            }
            let others: Vec<usize> = line
                .flats
                .iter()
                .filter(|other| butt || other.flat != flat.flat)
                .flat_map(|other| midsurface.panels[other.flat].iter().copied())
                .collect();
            let own = &midsurface.panels[flat.flat];
            let joins = |seam: &Seam| {
                let [a, b] = seam.panels;
                let pair = |a, b| own.contains(&a) && others.contains(&b);
                if butt {
                    return seam.joint == Joint::Butt && pair(a, b);
                }
                // Of a foot only the panel that stands on the other ends there.
                pair(a, b) || (pair(b, a) && !is_foot(seam))
            };
            let found = tank
                .seams
                .iter()
                .enumerate()
                .filter(|(_, seam)| joins(seam))
                .min_by(|(_, a), (_, b)| {
                    let away = |seam: &Seam| away(middle_point, seam.inner_line);
                    away(a).total_cmp(&away(b))
                });
            let Some((seam, _)) = found else { continue };
            let thinner = tank.seams[seam]
                .panels
                .map(|panel| tank.panels[panel].thickness.m());
            // The middles of two sheets cross half a sheet behind the face where they are welded.
            let stands_against = tank.seams[seam].panels.into_iter();
            let stands_against = stands_against.filter(|panel| !butt && !own.contains(panel));
            let behind_face = stands_against
                .map(|panel| tank.panels[panel].thickness.m() / 2.0)
                .fold(0.0, f64::max);
            let triangles = beside(model, flat.flat, &line.nodes, butt);
            sides.push(SeamSide {
                seam,
                section: sections[seam],
                faces: SamplePoint::off_line(
                    model,
                    flat.flat,
                    &line.nodes,
                    &triangles,
                    behind_face,
                ),
                chain: line.nodes.clone(),
                triangles,
                over: 2.0 * thinner[0].min(thinner[1]),
            });
        }
    }
    sides
}

fn is_foot(seam: &Seam) -> bool {
    matches!(seam.joint, Joint::Tee | Joint::SlotThrough)
}

fn away(point: Point3, [a, b]: [Point3; 2]) -> f64 {
    let way = b - a;
    let along = ((point - a).dot(way) / way.dot(way)).clamp(0.0, 1.0);
    (point - a - way * along).length()
}

/// Triangles of a flat that touch a chain; of a line inside it those on its left.
fn beside(model: &Model, flat: usize, chain: &[usize], inside: bool) -> Vec<usize> {
    let nodes: BTreeSet<usize> = chain.iter().copied().collect();
    let at = |node: usize| model.mesh.nodes[node];
    let way = at(chain[chain.len() - 1]) - at(chain[0]);
    let left = model.normals[flat].cross(way);
    let touches = |&number: &usize| {
        let triangle = &model.mesh.triangles[number];
        let near = triangle.flat == flat && triangle.nodes.iter().any(|node| nodes.contains(node));
        let [a, b, c] = triangle.nodes.map(|node| at(node) - at(chain[0]));
        near && (!inside || left.dot(a + b + c) > 0.0)
    };
    (0..model.mesh.triangles.len()).filter(touches).collect()
}

/// What the engine found of one load case.
struct Answer<'a> {
    shell: &'a Shell,
    system: &'a System,
    load: &'a Load,
    state: &'a State,
    smooth: Smooth,
}

/// What is looked at in every load case, worked out once a mesh.
#[derive(Clone, Debug)]
pub struct Reader {
    sides: Vec<SeamSide>,
    /// Nodes next to a notch, where the stress has no bound in a thin plate: it is told a
    /// thickness away.
    by_notch: Vec<bool>,
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
        sections: &[Option<Section>],
    ) -> Self {
        let by_notch = |point: &Point3| {
            let near = |&(notch, size): &(Point3, f64)| point.distance(notch) < size;
            midsurface.notches.iter().any(near)
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
            for (&node, sample) in side.chain.iter().zip(&side.faces) {
                at_face.extend(
                    sample.map(|sample| (model.mesh.triangles[sample.triangle].flat, node)),
                );
            }
        }
        Self {
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
        shell: &Shell,
        system: &System,
        load: &Load,
        state: &State,
        limits: &Limits,
    ) -> Result<(Figures, Vec<[f64; 3]>), Fault> {
        if state.displacements.iter().flatten().any(|v| !v.is_finite()) {
            return Err(Fault::Solver {
                what: "a displacement is not a number".to_owned(),
            });
        }
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
            reactions: model
                .bearers
                .reactions(&model.borne_by, &state.contact_forces),
            tilt: tilt(model, state),
        };
        Ok((figures, used))
    }

    /// What each panel gets, and the use at the corners of each triangle.
    fn panels(
        &self,
        model: &Model,
        answer: &Answer<'_>,
        limits: &Limits,
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
        let mut used = vec![[0.0; 3]; model.mesh.triangles.len()];
        for (number, triangle) in model.mesh.triangles.iter().enumerate() {
            let panel = model.panel[number];
            let figure = &mut panels[panel];
            let thickness = answer.shell.plates[triangle.flat].thickness;
            let normal = model.normals[triangle.flat];
            for (corner, &node) in triangle.nodes.iter().enumerate() {
                let at = model.mesh.nodes[node];
                let [x, y, z, ..] = answer.state.displacements[node];
                let grown = (at - foot) * limits.growth;
                let moved = normal.dot(Vec3::new(x, y, z) - grown);
                if moved.abs() > figure.outward.max(-figure.inward) {
                    figure.bulge_at = at;
                }
                figure.outward = figure.outward.max(moved);
                figure.inward = figure.inward.min(moved);
                let even = face_stress(&answer.smooth.corners[number][corner], thickness);
                used[number][corner] = even / limits.sheet.pa();
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
        for side in &self.sides {
            for (&node, sample) in side.chain.iter().zip(&side.faces) {
                let Some(sample) = sample.filter(|_| !self.by_notch[node]) else {
                    continue;
                };
                let flat = model.mesh.triangles[sample.triangle].flat;
                let thickness = answer.shell.plates[flat].thickness;
                let stress = face_stress(&sample.resultants(&answer.smooth), thickness);
                let figure = &mut panels[model.panel[sample.triangle]];
                if is_worse(stress, figure.stress) {
                    figure.stress = stress;
                    figure.stress_at = model.mesh.nodes[node];
                }
            }
        }
        for figure in &mut panels {
            figure.utilisation = figure.stress / limits.sheet.pa();
        }
        (panels, used)
    }

    /// What each seam gets, by the side that asks most of it.
    fn seams(
        &self,
        model: &Model,
        answer: &Answer<'_>,
        limits: &Limits,
    ) -> Result<Vec<SeamFigure>, Fault> {
        let mut seams: Vec<SeamFigure> = Vec::new();
        for side in &self.sides {
            let Some(figure) = side.worst(model, answer, limits)? else {
                continue;
            };
            match seams.iter_mut().find(|other| other.seam == figure.seam) {
                Some(other) if is_worse(figure.utilisation, other.utilisation) => *other = figure,
                Some(_) => {}
                None => seams.push(figure),
            }
        }
        seams.sort_by_key(|figure| figure.seam);
        Ok(seams)
    }
}

/// Whether a figure is worse than the one so far: what is no number is worse than any, and stays.
fn is_worse(one: f64, so_far: f64) -> bool {
    one > so_far || (one.is_nan() && !so_far.is_nan())
}

/// The middle of what the tank stands on, from where it grows.
pub(super) fn foot(shell: &Shell) -> Point3 {
    let places = shell
        .contacts
        .iter()
        .map(|contact| shell.nodes[contact.node].to_vec());
    let sum = places.fold(Vec3::ZERO, |sum, place| sum + place);
    Point3::ORIGIN + sum / shell.contacts.len().max(1) as f64
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

impl SeamSide {
    fn worst(
        &self,
        model: &Model,
        answer: &Answer<'_>,
        limits: &Limits,
    ) -> Result<Option<SeamFigure>, Fault> {
        let Some(section) = self.section else {
            return Ok(None);
        };
        let forces = line_forces(
            answer.shell,
            answer.system,
            answer.load,
            answer.state,
            &answer.smooth,
            &self.chain,
            &self.triangles,
        )?;
        let place = |i: usize| model.mesh.nodes[forces[i].node];
        let stretches = self.stretches(&forces, model);
        let length = stretches[stretches.len() - 1][1];
        // The forces that a single node passes on swing with how many triangles meet there; over
        // two cells that evens out. The bending is smooth at every node.
        let cell = length / (forces.len() - 1) as f64;
        let windows = [self.over.max(2.0 * cell), self.over].map(|over| over.min(length));
        let moments: Vec<f64> = forces
            .iter()
            .zip(&self.faces)
            .map(|(force, face)| match face {
                Some(sample) => sample.across(&sample.resultants(&answer.smooth).moment),
                None => force.smooth.moment[1],
            })
            .collect();
        let passed = |i: usize| {
            let along = place(i).distance(place(0));
            let mean_of = |values: &[f64], over: f64| {
                // The window keeps its length at the ends of the seam.
                let from = (along - over / 2.0).clamp(0.0, length - over);
                let share = |[start, end]: &[f64; 2]| {
                    (end.min(from + over) - start.max(from)).max(0.0) / over
                };
                let parts = values.iter().zip(&stretches);
                parts
                    .map(|(value, stretch)| value * share(stretch))
                    .sum::<f64>()
            };
            let mean = |over: f64, own: &dyn Fn(&LineForce) -> f64| {
                mean_of(&forces.iter().map(own).collect::<Vec<_>>(), over)
            };
            Passed {
                // The plate puts its force on the line: one that is pulled pulls the line back.
                tension: mean(windows[0], &|force| -force.force[1]),
                along: mean(windows[0], &|force| force.force[0]),
                across: mean(windows[0], &|force| force.force[2]),
                moment: mean_of(&moments, windows[1]),
            }
        };
        let worst = (0..forces.len())
            .map(|i| {
                let passed = passed(i);
                let stress = section.stress(&passed);
                SeamFigure {
                    seam: self.seam,
                    passed,
                    stress: stress.counted,
                    at_root: stress.at_root,
                    utilisation: stress.counted / limits.weld.pa(),
                    at: place(i),
                }
            })
            .max_by(|a, b| a.utilisation.total_cmp(&b.utilisation));
        Ok(worst)
    }

    /// The stretch of the line that counts to each node: from halfway to halfway.
    fn stretches(&self, forces: &[LineForce], model: &Model) -> Vec<[f64; 2]> {
        let place = |i: usize| model.mesh.nodes[forces[i].node];
        let along: Vec<f64> = (0..forces.len())
            .map(|i| place(i).distance(place(0)))
            .collect();
        let n = along.len();
        (0..n)
            .map(|i| {
                let before = along[i.saturating_sub(1)];
                let after = along[(i + 1).min(n - 1)];
                [(before + along[i]) / 2.0, (along[i] + after) / 2.0]
            })
            .collect()
    }
}

/// The greater of principal and von Mises stress at the worse face of a sheet, Pa: pipe strengths
/// are measured in one direction, and opposite signs are worse than either.
pub fn face_stress(resultants: &Resultants, thickness: f64) -> f64 {
    let at = |side: f64| {
        let stress = |k: usize| {
            resultants.force[k] / thickness + side * 6.0 * resultants.moment[k] / thickness.powi(2)
        };
        let (x, y, xy) = (stress(0), stress(1), stress(2));
        let (mean, radius) = ((x + y) / 2.0, ((x - y) / 2.0).hypot(xy));
        let mises = (x * x - x * y + y * y + 3.0 * xy * xy).sqrt();
        mises.max(mean.abs() + radius)
    };
    at(1.0).max(at(-1.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_no_number_is_the_worst_and_stays() {
        let worst = |row: [f64; 3]| {
            row.into_iter()
                .fold(0.0, |worst, one| match is_worse(one, worst) {
                    true => one,
                    false => worst,
                })
        };
        assert!(worst([1.0, f64::NAN, 2.0]).is_nan());
        assert_eq!(worst([1.0, 3.0, 2.0]), 3.0);
    }

    /// Pure shear s: von Mises is sqrt(3) s, over the principal s (strength of materials).
    #[test]
    fn the_worse_of_two_rules_counts() {
        let shear = Resultants {
            force: [0.0, 0.0, 10.0],
            moment: [0.0; 3],
        };
        assert!((face_stress(&shear, 0.01) - 3.0_f64.sqrt() * 1000.0).abs() < 1e-9);
        let bent = Resultants {
            force: [10.0, 10.0, 0.0],
            moment: [1e-2, 1e-2, 0.0],
        };
        assert!((face_stress(&bent, 0.01) - 1600.0).abs() < 1e-9);
    }
}
