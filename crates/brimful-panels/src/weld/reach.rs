//! From which sides a seam can be welded: what lies behind the lid once it is on is reached through a
//! hatch or not at all. Whether hand and gun get past everything else is not shown here; a finding says so.

use super::seam_weld::of_rib;
use crate::finding::kind::{HatchReach, WeldKind};
use crate::finding::{Finding, Grade, Part, Subject};
use crate::panel::{Panel, Role};
use crate::seam::{Joint, Seam};
use brimful_geom::vector::Point3;
use brimful_job::{Job, Service};
use brimful_units::Length;

/// An arm in a sleeve with the head of a gun in the hand goes through a hole of this width: common
/// practice.
const ARM_HOLE: Length = Length::from_mm(150.0);

/// Stretches between the places looked at along a seam, which may be welded through one hatch after the
/// other: few centimetres each on any tank of a shop.
const PLACES: usize = 64;

/// What the reach into a closed tank is judged by.
pub struct Reach<'a> {
    panels: &'a [Panel],
    /// Middles and widths of the hatches.
    hatches: Vec<(Point3, Length)>,
    arm: Length,
}

impl<'a> Reach<'a> {
    pub fn of(job: &Job, panels: &'a [Panel]) -> Self {
        let holes = panels
            .iter()
            .flat_map(|panel| panel.openings.iter().map(move |hole| (panel, hole)));
        let hatches = holes.filter_map(|(panel, hole)| {
            let opening = &job.openings[hole.opening?];
            let middle = Point3::new(hole.centre.x, hole.centre.y, 0.0);
            let at = panel.finished.frame.world_from_frame(middle);
            (opening.service == Service::Hatch).then(|| (at, opening.size.smallest()))
        });
        Self {
            panels,
            hatches: hatches.collect(),
            arm: job.shop.reach,
        }
    }

    /// Whether the inside of a seam can be welded through a hatch; none where it is welded before the
    /// lid is on, or has no inside. By the width of a hatch and by how far from one every place of the seam
    /// is. No arm goes through a divider; whether a baffle is in the way is not looked at.
    pub fn inside(&self, seam: &Seam) -> Option<HatchReach> {
        let is_open = !touches_lid(self.panels, seam) || of_rib(self.panels, seam);
        if is_open || seam.joint == Joint::SlotThrough {
            return None;
        }
        if self.hatches.is_empty() {
            return Some(HatchReach::NoHatch);
        }
        let wide: Vec<Point3> = self
            .hatches
            .iter()
            .filter(|(_, width)| *width >= ARM_HOLE)
            .map(|(at, _)| *at)
            .collect();
        if wide.is_empty() {
            return Some(HatchReach::TooSmall { least: ARM_HOLE });
        }
        let [from, to] = seam.inner_line;
        let mut places = (0..=PLACES).map(|i| from + (to - from) * (i as f64 / PLACES as f64));
        let reaches = |hatch: &Point3, place: Point3| {
            hatch.distance(place) <= self.arm.m() && !self.is_divided(*hatch, place)
        };
        let near = places.all(|place| wide.iter().any(|hatch| reaches(hatch, place)));
        Some(match near {
            true => HatchReach::Near,
            false => HatchReach::TooFar { reach: self.arm },
        })
    }

    /// Whether a divider stands between two places: they lie off its sheet on either side of its plane.
    fn is_divided(&self, one: Point3, other: Point3) -> bool {
        let mut dividers = self.panels.iter();
        dividers.any(|divider| {
            let frame = &divider.finished.frame;
            // The frame is on one face, with the sheet behind it.
            let side = |place: Point3| {
                let off = frame.z.dot(place - frame.origin);
                match off > -divider.thickness.m() / 2.0 {
                    true => off.max(0.0),
                    false => (off + divider.thickness.m()).min(0.0),
                }
            };
            divider.role == Role::Divider && side(one) * side(other) < 0.0
        })
    }
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
    if seams.is_empty() {
        return Vec::new();
    }
    let unproven = Finding::of(
        Grade::Mend,
        Subject::Part(Part::OrderOfWork),
        WeldKind::ReachUnproven,
    );
    let mut findings = vec![unproven];
    let mut kinds: Vec<(Grade, WeldKind, Vec<String>)> = Vec::new();
    for (number, (seam, reach)) in seams.iter().zip(inside).enumerate() {
        let (grade, kind) = match reach {
            None => continue,
            Some(HatchReach::Near) => (Grade::Mend, WeldKind::ThroughHatch),
            Some(reach) if is_welded(number) => (Grade::Mend, WeldKind::OutsideOnly(*reach)),
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
