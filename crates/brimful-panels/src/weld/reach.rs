//! From which sides each seam can be welded: where a pose of gun, hand and arm was found along the whole of a run.
//!
//! A draft looks at the inside corners of the lid alone, with everything standing; what else is reached is known from the order
//! of work ([`super::work`]).

use super::groove::Access;
use super::kit::Kit;
use super::line::lines;
use super::run::{obstacles, places, scene};
use super::seam_weld::{SeamWeld, of_rib};
use super::side::WeldSide;
use crate::finding::kind::{NotReached, WeldKind};
use crate::finding::{Finding, Grade, Subject};
use crate::panel::{Panel, Role};
use crate::seam::{Joint, Seam};
use brimful_geom::vector::Point3;
use brimful_job::{Job, Service};
use brimful_reach::{Obstacle, Plates};
use brimful_units::Length;

/// What is known of the reach of one line of a seam.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct LineReach {
    pub side: WeldSide,
    /// The stretches that are out of reach, from where to where along the seam, its very ends apart.
    pub out: Vec<[Length; 2]>,
    /// Whether any of it is reached.
    pub is_in_part: bool,
    /// Whether a stretch of it is laid by hot gas, since the shop's extruder does not get there.
    pub by_hot_gas: bool,
}

impl LineReach {
    fn is_reached(&self) -> bool {
        self.out.is_empty()
    }
}

/// What is known of the reach of a seam.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct SeamReach {
    /// The lines that were looked at; others are taken to be reached.
    pub lines: Vec<LineReach>,
    /// Whether all panels of the body stand when it is laid.
    pub is_closed: bool,
}

impl SeamReach {
    /// From which sides it is welded.
    pub fn access(&self, panels: &[Panel], seam: &Seam) -> Access {
        let reached = |side: WeldSide| {
            let mut lines = self.lines.iter().filter(|line| line.side == side);
            lines.all(LineReach::is_reached)
        };
        // Both lines of such a seam lie on one side of the tank, on two faces of a panel.
        let has_two_faces = seam.joint == Joint::Tee || of_rib(panels, seam);
        if has_two_faces {
            let count = self.lines.iter().filter(|line| line.is_reached()).count();
            return match seam.joint {
                _ if count == self.lines.len() => Access::BothSides,
                _ if count == 0 => Access::Nowhere,
                Joint::Tee => Access::OneFace,
                _ => Access::OutsideOnly,
            };
        }
        match [WeldSide::Inside, WeldSide::Outside].map(reached) {
            [true, true] => Access::BothSides,
            [true, false] => Access::InsideOnly,
            [false, true] if self.is_inside_in_part() => Access::InsideInPart,
            [false, true] => Access::OutsideOnly,
            [false, false] => Access::Nowhere,
        }
    }

    fn is_inside_in_part(&self) -> bool {
        let mut lines = self.lines.iter();
        lines.any(|line| line.side == WeldSide::Inside && line.is_in_part)
    }

    /// The stretches of the inside that are out of reach.
    pub fn out_inside(&self) -> Vec<[Length; 2]> {
        let inside = |line: &&LineReach| line.side == WeldSide::Inside;
        let lines = self.lines.iter().filter(inside);
        lines.flat_map(|line| line.out.iter().copied()).collect()
    }

    /// Whether part of a side is laid by hot gas in a shop that welds with an extruder.
    pub fn is_by_hot_gas(&self, side: WeldSide) -> bool {
        let mut lines = self.lines.iter();
        lines.any(|line| line.side == side && line.by_hot_gas)
    }
}

/// What is known without an order: the inside corners of the lid, which comes last as a rule. Whether an inner panel that meets
/// it is reached depends on the order.
pub(super) fn draft(job: &Job, panels: &[Panel], seams: &[Seam]) -> Vec<SeamReach> {
    let behind_lid = behind_lid(job, panels);
    let of_seam = |seam: &Seam| {
        let is_corner = is_behind_lid(panels, seam) && seam.joint != Joint::Tee;
        let Some(behind) = behind_lid.as_ref().filter(|_| is_corner) else {
            return SeamReach::default();
        };
        let is_reached = behind.unreached(seam).next().is_none();
        SeamReach {
            lines: vec![LineReach {
                side: WeldSide::Inside,
                out: match is_reached {
                    true => Vec::new(),
                    false => vec![[Length::ZERO, seam.length()]],
                },
                is_in_part: is_reached,
                by_hot_gas: false,
            }],
            is_closed: true,
        }
    };
    seams.iter().map(of_seam).collect()
}

/// Places on the insides of the lid's seams that hand and gun do not get to once everything stands.
pub(super) fn out_of_reach(job: &Job, panels: &[Panel], seams: &[Seam]) -> Vec<Point3> {
    let Some(behind) = behind_lid(job, panels) else {
        return Vec::new();
    };
    let seams = seams.iter().filter(|seam| is_behind_lid(panels, seam));
    seams.flat_map(|seam| behind.unreached(seam)).collect()
}

/// What is reached once everything but ribs stands.
struct BehindLid<'a> {
    panels: &'a [Panel],
    obstacles: Vec<Obstacle>,
    kit: Kit,
    body: Plates,
}

/// None where reach is not looked at: too many panels, or too few hands.
fn behind_lid<'a>(job: &Job, panels: &'a [Panel]) -> Option<BehindLid<'a>> {
    let kit = Kit::of(job);
    kit.own.is_some().then_some(())?;
    Some(BehindLid {
        panels,
        obstacles: obstacles(panels)?,
        kit,
        body: (0..panels.len())
            .filter(|&number| panels[number].role != Role::Rib)
            .collect(),
    })
}

impl BehindLid<'_> {
    /// Places along the insides of a seam that no pose was found at, one after the other.
    fn unreached<'s>(&'s self, seam: &'s Seam) -> impl Iterator<Item = Point3> + 's {
        let scene = scene(&self.obstacles, &self.kit).among(self.body);
        let lines = lines(self.panels, seam, WeldSide::Inside).into_iter();
        let places = lines.flat_map(|line| places(&self.obstacles, &line, seam.panels));
        let out = places.filter(move |it| {
            let is_reached = scene.has_way_through() && self.kit.reaches(&scene, &it.place);
            !it.is_end && !is_reached
        });
        out.map(|it| it.place.at)
    }
}

fn has_hatch(job: &Job) -> bool {
    let mut openings = job.openings.iter();
    openings.any(|opening| opening.service == Service::Hatch)
}

/// Whether a seam is one of the lid's: with what it is set on, or between two of its pieces.
pub(super) fn is_behind_lid(panels: &[Panel], seam: &Seam) -> bool {
    let is_lid = |&number: &usize| panels.get(number).is_some_and(|it| it.role == Role::Lid);
    seam.panels.iter().any(is_lid) && !of_rib(panels, seam) && seam.joint != Joint::SlotThrough
}

/// What is to be said of seams that are not welded as they would be from both sides.
pub(super) fn findings(
    job: &Job,
    panels: &[Panel],
    seams: &[Seam],
    reach: &[SeamReach],
    welds: &[SeamWeld],
) -> Vec<Finding> {
    let mut kinds: Vec<(Grade, WeldKind, Vec<String>)> = Vec::new();
    let mut say = |grade, kind, mark: &String| match kinds.iter_mut().find(|it| it.1 == kind) {
        Some((_, _, marks)) => marks.push(mark.clone()),
        None => kinds.push((grade, kind, vec![mark.clone()])),
    };
    let has_inside_weld = |number: usize| {
        let mut welds = welds.iter();
        welds.any(|weld| (weld.seam, weld.side) == (number, WeldSide::Inside))
    };
    for (number, (seam, reach)) in seams.iter().zip(reach).enumerate() {
        let why = match (reach.is_closed, has_hatch(job)) {
            (false, _) => NotReached::PastWhatStands,
            (true, false) => NotReached::NoHatch,
            (true, true) => NotReached::ThroughHatches,
        };
        let is_welded = welds.iter().any(|weld| weld.seam == number);
        let has_inside = || {
            let mut lines = reach.lines.iter();
            lines.any(|line| line.side == WeldSide::Inside)
        };
        match reach.access(panels, seam) {
            Access::BothSides if reach.is_closed && has_inside() => {
                say(Grade::Mend, WeldKind::ThroughHatch, &seam.mark);
            }
            Access::BothSides => {}
            _ if !is_welded => say(Grade::Stop, WeldKind::CannotBeLaid(why), &seam.mark),
            Access::OneFace => say(Grade::Mend, WeldKind::OneFaceOnly(why), &seam.mark),
            Access::InsideInPart if has_inside_weld(number) => {
                say(Grade::Mend, WeldKind::InsideInPart(why), &seam.mark);
            }
            Access::InsideOnly => say(Grade::Mend, WeldKind::InsideOnly, &seam.mark),
            Access::InsideInPart | Access::OutsideOnly | Access::Nowhere => {
                say(Grade::Mend, WeldKind::OutsideOnly(why), &seam.mark);
            }
        }
        let mut own = welds.iter().filter(|weld| weld.seam == number);
        if own.any(|weld| reach.is_by_hot_gas(weld.side)) {
            say(Grade::Mend, WeldKind::ByHotGas, &seam.mark);
        }
    }
    let each = kinds.into_iter();
    let each = each.map(|(grade, kind, marks)| Finding::of(grade, Subject::Seams(marks), kind));
    each.chain(leaking(panels, seams)).collect()
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
