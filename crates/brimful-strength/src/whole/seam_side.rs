//! What passes through each seam: read on the side of the panel that ends there, at its worst place.

use super::figures::SeamFigure;
use super::midsurface::Midsurface;
use super::model::Model;
use super::sample_point::FacePoint;
use super::tank::Tank;
use super::weld::{Passed, WeldedSeam};
use super::wetting::CaseLimits;
use brimful_geom::mesh::{Extra, LinePart};
use brimful_geom::vector::Point3;
use brimful_mech::shell::model::{Load, Shell};
use brimful_mech::shell::recover::{LineForce, Smooth, line_forces};
use brimful_mech::shell::{Fault, State, System};
use brimful_panels::seam::{Joint, Seam};
use std::collections::BTreeSet;

/// What the engine found of one load case.
pub struct Answer<'a> {
    pub shell: &'a Shell,
    pub system: &'a System,
    pub load: &'a Load,
    pub state: &'a State,
    pub smooth: Smooth,
}

/// A side of a mesh line that a seam's weld joins to the rest: chain and triangles.
#[derive(Clone, Debug)]
pub struct SeamSide {
    pub seam: usize,
    welded: Option<WeldedSeam>,
    /// Where the seam begins.
    from: Point3,
    pub chain: Vec<usize>,
    triangles: Vec<usize>,
    /// Where each node of the chain is judged: at the face of the sheet that it stands against.
    pub faces: Vec<Option<FacePoint>>,
    /// How far that face lies from the line, m.
    behind_face: f64,
    /// Forces are evened out over this length, or over two cells of the mesh, m.
    over: f64,
}

impl SeamSide {
    /// Whether a place in a flat lies inside the sheet that this one stands against.
    pub fn is_inside_other(&self, model: &Model, flat: usize, place: Point3) -> bool {
        let mesh = &model.mesh;
        let is_own = |&number: &usize| mesh.triangles[number].flat == flat;
        let ends = [self.chain[0], self.chain[self.chain.len() - 1]].map(|node| mesh.nodes[node]);
        self.triangles.first().is_some_and(is_own)
            && place.distance_to_segment(ends[0], ends[1]) < self.behind_face
    }

    /// What the seam gets from this side at its worst place; none where it has no weld.
    ///
    /// # Errors
    /// The engine's, for an answer of another shell.
    pub fn worst(
        &self,
        model: &Model,
        answer: &Answer<'_>,
        limits: &CaseLimits,
    ) -> Result<Option<SeamFigure>, Fault> {
        let Some(welded) = &self.welded else {
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
        let window = |i: usize| {
            let beside = [i.saturating_sub(1), (i + 1).min(forces.len() - 1)];
            let cells = beside.map(|other| place(i).distance(place(other)));
            let largest = cells[0].max(cells[1]);
            self.over.max(2.0 * largest).min(length)
        };
        let moments: Vec<f64> = forces
            .iter()
            .zip(&self.faces)
            .map(|(force, face)| match face {
                Some(face) => face.across(&face.sample.resultants(&answer.smooth).moment),
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
            let over = window(i);
            Passed {
                // The plate puts its force on the line: one that is pulled pulls the line back.
                tension: mean(over, &|force| -force.force[1]),
                along: mean(over, &|force| force.force[0]),
                across: mean(over, &|force| force.force[2]),
                moment: mean_of(&moments, self.over.min(length)),
            }
        };
        let limits = limits.of_seam(self.seam);
        let allowed = limits.weld.pa();
        let figures = (0..forces.len()).map(|i| {
            let passed = passed(i);
            // What is left out between two nodes counts for both.
            let along = place(i).distance(self.from);
            let cell = stretches[i][1] - stretches[i][0];
            let section = welded.over([along - cell, along + cell]);
            let [now, least] = limits.hot_gas;
            let stress = section.stress(&passed, now);
            let in_the_long_run = if section.by_hot_gas { now / least } else { 1.0 };
            SeamFigure {
                seam: self.seam,
                passed,
                stress: stress.counted,
                at_root: stress.at_root,
                utilisation: stress.counted / allowed,
                in_full: stress.in_full / allowed,
                in_the_long_run: stress.counted / allowed * in_the_long_run,
                at: place(i),
            }
        });
        let worst = figures.reduce(|worst, figure| worst.or_worse(&figure));
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

/// The lines of the mesh that are seams. A seam's forces are those of the panel that ends at it.
pub fn seam_sides(
    tank: &Tank<'_>,
    midsurface: &Midsurface,
    model: &Model,
    sections: &[Option<WeldedSeam>],
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
                    let away = |seam: &Seam| {
                        let [from, to] = seam.inner_line;
                        middle_point.distance_to_segment(from, to)
                    };
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
                welded: sections[seam].clone(),
                from: tank.seams[seam].inner_line[0],
                behind_face,
                faces: FacePoint::off_line(model, flat.flat, &line.nodes, &triangles, behind_face),
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
