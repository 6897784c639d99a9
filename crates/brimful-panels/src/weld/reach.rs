//! From which sides a seam can be welded: what lies behind the lid once it is on is reached through a
//! hatch or not at all. Whether hand and gun get past everything else is not shown here; a finding says so.

use super::seam_weld::of_rib;
use crate::finding::kind::{HatchReach, WeldKind};
use crate::finding::{Finding, Grade, Subject};
use crate::fitting::fittings;
use crate::panel::{Panel, Role};
use crate::seam::{Joint, Seam};
use brimful_geom::plate::PlateFace;
use brimful_geom::polygon::Outline;
use brimful_geom::vector::{Point2, Point3, Vec3};
use brimful_job::{Job, Service};
use brimful_units::Length;
use std::f64::consts::TAU;

/// An arm in a sleeve with the head of a gun in the hand goes through a hole of this width: common
/// practice.
pub const ARM_HOLE: Length = Length::from_mm(150.0);

/// Stretches between the places looked at along a seam, which may be welded through one hatch after the
/// other: few centimetres each on any tank of a shop.
const PLACES: usize = 64;

/// What the reach into a closed tank is judged by.
pub struct Reach<'a> {
    panels: &'a [Panel],
    hatches: Vec<Hatch>,
    arm: Length,
}

/// A hole that an arm may go through.
struct Hatch {
    /// Number of its panel.
    panel: usize,
    at: Point3,
    /// Where an arm bends, half the width of the hatch inside it.
    within: Point3,
    /// Those places beside it where one does, clear of the hatch's rim and of what stands under it.
    clear: Vec<Point3>,
}

impl<'a> Reach<'a> {
    pub fn of(job: &Job, panels: &'a [Panel]) -> Self {
        let fittings = fittings(job, panels);
        let hatches = fittings.iter().map(|fitting| (fitting, fitting.opening));
        let hatches = hatches.filter(|(_, opening)| opening.service == Service::Hatch);
        let hatches = hatches.map(|(fitting, opening)| {
            let (panel, width) = (&panels[fitting.panel], opening.size.smallest());
            let frame = &panel.finished.frame;
            let within = fitting.at() - frame.z * (panel.thickness.m() + width.m() / 2.0);
            let bends = bends(within, [frame.x, frame.y], width);
            let is_clear = |place: &Point3| {
                let mut standing = panels.iter().filter(|it| parts_the_inside(it.role));
                !standing.any(|it| is_near(it, *place, ARM_HOLE.m() / 2.0))
            };
            Hatch {
                panel: fitting.panel,
                at: fitting.at(),
                within,
                clear: bends.into_iter().filter(is_clear).collect(),
            }
        });
        Self {
            panels,
            hatches: hatches.collect(),
            arm: job.shop.reach,
        }
    }

    /// Whether the inside of a seam can be welded through a hatch; none where it is welded before the
    /// lid is on, or has no inside. By the width of a hatch and by how far from one every place of the seam
    /// is, straight on: an arm goes through no wall, divider or baffle. A seam that an inner panel makes with the
    /// lid has two insides, and both are asked for.
    pub fn inside(&self, seam: &Seam) -> Option<HatchReach> {
        let is_lid = |&number: &usize| {
            self.panels
                .get(number)
                .is_some_and(|it| it.role == Role::Lid)
        };
        // Two pieces of a lid are joined before it is on.
        let is_open = !touches_lid(self.panels, seam)
            || of_rib(self.panels, seam)
            || seam.panels.iter().all(is_lid);
        if is_open || seam.joint == Joint::SlotThrough {
            return None;
        }
        if self.hatches.is_empty() {
            return Some(HatchReach::NoHatch);
        }
        Some(self.reach(seam, &self.sides(seam)))
    }

    /// Whether one face of an inner panel can be welded to the lid through a hatch, all along.
    pub fn has_face_in_reach(&self, seam: &Seam) -> bool {
        let is_near = |side: &Vec3| self.reach(seam, &[*side]) == HatchReach::Near;
        seam.joint == Joint::Tee && self.sides(seam).iter().any(is_near)
    }

    /// Places on the insides of a seam behind the lid that no arm gets to.
    pub fn out_of_reach(&self, seam: &Seam) -> Vec<Point3> {
        match self.inside(seam) {
            None | Some(HatchReach::Near) => Vec::new(),
            Some(_) => {
                let is_reached = |place: &Point3| {
                    let mut bends = self.hatches.iter().flat_map(|hatch| {
                        let bends = hatch.clear.iter();
                        bends.map(move |bend| (hatch, *bend))
                    });
                    bends.any(|(hatch, bend)| self.reaches(hatch, bend, *place))
                };
                let mut places = places(seam, &self.sides(seam));
                places.retain(|place| !is_reached(place));
                places
            }
        }
    }

    /// How the places along a seam, so far off its line, are reached through the hatches there are.
    fn reach(&self, seam: &Seam, sides: &[Vec3]) -> HatchReach {
        let places = places(seam, sides);
        let by = |bends: &dyn Fn(&Hatch) -> Vec<Point3>| {
            let reached = |place: &Point3| {
                let mut hatches = self.hatches.iter();
                hatches.any(|it| bends(it).iter().any(|&bend| self.reaches(it, bend, *place)))
            };
            places.iter().all(reached)
        };
        if by(&|hatch| hatch.clear.clone()) {
            HatchReach::Near
        } else if by(&|hatch| vec![hatch.within]) {
            HatchReach::TooSmall { least: ARM_HOLE }
        } else {
            HatchReach::TooFar { reach: self.arm }
        }
    }

    /// From the line of a seam to where its insides are: off both faces of a panel that stands on the lid.
    fn sides(&self, seam: &Seam) -> Vec<Vec3> {
        let standing = self.panels.get(seam.panels[0]);
        match standing.filter(|_| seam.joint == Joint::Tee) {
            Some(panel) => {
                let off = panel.finished.frame.z * panel.thickness.m();
                vec![off, -off]
            }
            None => vec![Vec3::ZERO],
        }
    }

    /// Whether an arm through a hatch that bends at a place inside it reaches another.
    fn reaches(&self, hatch: &Hatch, bend: Point3, place: Point3) -> bool {
        let parts = |(number, panel): (usize, &Panel)| {
            // Past the edge of an inner panel goes no arm either, where it ends near the lid.
            let margin = match panel.role {
                role if parts_the_inside(role) => ARM_HOLE.m() / 2.0,
                Role::Stay | Role::Rib => return false,
                _ => 0.0,
            };
            number != hatch.panel && is_between(panel, bend, place, margin)
        };
        let is_near = hatch.at.distance(place) <= self.arm.m();
        is_near && !self.panels.iter().enumerate().any(parts)
    }
}

/// Places along a seam, so far off its line.
fn places(seam: &Seam, sides: &[Vec3]) -> Vec<Point3> {
    let [from, to] = seam.inner_line;
    let places = (0..=PLACES).map(|i| from + (to - from) * (i as f64 / PLACES as f64));
    places
        .flat_map(|place| sides.iter().map(move |side| place + *side))
        .collect()
}

/// Whether a panel keeps an arm from one side of it to the other.
fn parts_the_inside(role: Role) -> bool {
    matches!(role, Role::Divider | Role::Baffle)
}

/// Where an arm may bend inside a hatch: in its middle and, as far off it as the rim lets, on eight sides; nowhere
/// in a hatch that is too narrow.
fn bends(within: Point3, [x, y]: [Vec3; 2], width: Length) -> Vec<Point3> {
    let off = (width - ARM_HOLE).m() / 2.0;
    if off < 0.0 {
        return Vec::new();
    }
    let beside = (0..8).map(|i| {
        let (sine, cosine) = (TAU * f64::from(i) / 8.0).sin_cos();
        within + x * (off * cosine) + y * (off * sine)
    });
    std::iter::once(within).chain(beside).collect()
}

/// Whether a panel comes nearer than this to a place, m.
fn is_near(panel: &Panel, place: Point3, distance: f64) -> bool {
    let plate = &panel.finished;
    let place = plate.frame.frame_from_world(place);
    let off = (place.z + plate.thickness / 2.0).abs() - plate.thickness / 2.0;
    let flat = Point2::new(place.x, place.y);
    let outlines = plate.outlines(PlateFace::Outside);
    let is_beside = |outline: &Outline| outline.contains(flat) || outline.distance(flat) < distance;
    off < distance && outlines.first().is_some_and(is_beside)
}

/// Whether a panel, and a margin round it, m, stands between two places, with no hole there that lets an arm
/// through.
fn is_between(panel: &Panel, one: Point3, other: Point3, margin: f64) -> bool {
    let plate = &panel.finished;
    // Both in the axes of the plate, whose frame is on one face with the sheet behind it.
    let (a, b) = (
        plate.frame.frame_from_world(one),
        plate.frame.frame_from_world(other),
    );
    let middle = -plate.thickness / 2.0;
    if (a.z - middle) * (b.z - middle) >= 0.0 {
        return false;
    }
    let at = a + (b - a) * ((middle - a.z) / (b.z - a.z));
    let at = Point2::new(at.x, at.y);
    let outlines = plate.outlines(PlateFace::Outside);
    let is_in = outlines
        .first()
        .is_some_and(|outline| outline.contains(at) || outline.distance(at) < margin);
    let lets_through = |hole: &Outline| {
        let (low, high) = hole.bounds();
        let width = (high.x - low.x).min(high.y - low.y);
        hole.contains(at) && width >= ARM_HOLE.m()
    };
    is_in
        && !plate
            .cutouts
            .iter()
            .any(|hole| lets_through(&hole.outline()))
}

/// Whether a seam is one of the lid's.
pub fn touches_lid(panels: &[Panel], seam: &Seam) -> bool {
    let mut own = seam.panels.iter().filter_map(|&number| panels.get(number));
    own.any(|panel| panel.role == Role::Lid)
}

/// What is to be said of seams that can be welded from some sides only. `inside` says for each seam whether
/// its inside can be reached, where it lies behind the lid; `is_welded` whether anything is left of its weld.
pub fn findings(
    panels: &[Panel],
    seams: &[Seam],
    inside: &[Option<HatchReach>],
    is_welded: impl Fn(usize) -> bool,
) -> Vec<Finding> {
    let mut findings = Vec::new();
    let mut kinds: Vec<(Grade, WeldKind, Vec<String>)> = Vec::new();
    for (number, (seam, reach)) in seams.iter().zip(inside).enumerate() {
        let (grade, kind) = match reach {
            None => continue,
            Some(HatchReach::Near) => (Grade::Mend, WeldKind::ThroughHatch),
            Some(reach) if is_welded(number) => match seam.joint {
                Joint::Tee => (Grade::Mend, WeldKind::OneFaceOnly(*reach)),
                _ => (Grade::Mend, WeldKind::OutsideOnly(*reach)),
            },
            Some(reach) => (Grade::Stop, WeldKind::CannotBeLaid(*reach)),
        };
        match kinds.iter_mut().find(|(_, other, _)| *other == kind) {
            Some((_, _, marks)) => marks.push(seam.mark.clone()),
            None => kinds.push((grade, kind, vec![seam.mark.clone()])),
        }
    }
    findings.extend(
        kinds
            .into_iter()
            .map(|(grade, kind, marks)| Finding::of(grade, Subject::Seams(marks), kind)),
    );
    findings.extend(leaking(panels, seams));
    findings
}

/// A divider parts two liquids, and tongues in slots leave the foot between them open.
fn leaking(panels: &[Panel], seams: &[Seam]) -> Option<Finding> {
    let is_divider = |seam: &&Seam| {
        let own = panels.get(seam.panels[0]);
        seam.joint == Joint::SlotThrough && own.is_some_and(|it| it.role == Role::Divider)
    };
    let marks: Vec<String> = seams
        .iter()
        .filter(is_divider)
        .map(|seam| seam.mark.clone())
        .collect();
    (!marks.is_empty()).then(|| Finding::of(Grade::Stop, Subject::Seams(marks), WeldKind::NotTight))
}
