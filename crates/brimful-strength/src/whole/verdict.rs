//! What the whole-tank check says: one finding for each thing that is wrong with a panel or seam,
//! by its worst load case.

use super::damage::{damage, narrow_sum, sure_damage};
use super::model::Model;
use super::part::Part as RunPart;
use super::result::{CaseRun, Whole, growth_of};
use super::stability::STABILITY;
use super::tank::Tank;
use crate::limit::medium_finding;
use crate::load::{LoadCase, LoadKind};
use brimful_geom::plate::PlateFace;
use brimful_geom::vector::Point3;
use brimful_job::Duty;
use brimful_mech::shell::Fault;
use brimful_panels::case::CaseId;
use brimful_panels::finding::kind::{NoModel, StrengthKind};
use brimful_panels::finding::{Finding, Grade, Part, Quantity, Subject};
use brimful_panels::liquid::liquids_held;
use brimful_panels::name::PanelName;
use brimful_panels::panel::Role;
use brimful_panels::table::NotCovered;
use brimful_units::{Angle, Length, Pressure};

/// A tank that leans over by more than this has left its support, and what is computed from there on
/// is of no use: 1 degree, three times what the support of any example gives way by in any event (0.34
/// degrees).
const TIPS: Angle = Angle::from_deg(1.0);

/// Ribs and stays narrower than this many thicknesses are outside thin-plate theory. It takes the torsion
/// constant of a strip as `b t^3 / 3`, which is `1 / (1 - 0.63 t / b)` too much (S. Timoshenko, J. N.
/// Goodier, *Theory of Elasticity*, torsion of a rectangle, from memory): 7 % at ten thicknesses, 14 % at
/// five. No plate stiffness of a flat can mend that: it is the shear near its edges.
const NARROWEST: f64 = 5.0;

/// The findings so far.
pub struct Verdict<'a> {
    tank: &'a Tank<'a>,
    pub findings: Vec<Finding>,
    /// Load cases without an answer.
    pub unanswered: usize,
}

impl<'a> Verdict<'a> {
    pub fn new(tank: &'a Tank<'a>) -> Self {
        Self {
            tank,
            findings: Vec::new(),
            unanswered: 0,
        }
    }

    pub fn case_not_covered(&mut self, case: &LoadCase, reason: &NotCovered) {
        let kind = StrengthKind::CaseNotCovered(reason.clone());
        self.without_answer(Finding::of(Grade::Stop, Subject::Case(case.id), kind));
    }

    /// The tank is no shell that can be computed.
    pub fn no_model(mut self, reason: NoModel) -> Whole {
        let subject = Subject::Part(Part::Strength);
        self.without_answer(Finding::of(
            Grade::Stop,
            subject,
            StrengthKind::NoModel(reason),
        ));
        Whole {
            cases: Vec::new(),
            meshes: Vec::new(),
            supports: Vec::new(),
            unanswered: self.unanswered,
            picture: None,
            displacements: Vec::new(),
            findings: self.findings,
        }
    }

    /// A load case has no equilibrium.
    pub fn fault(&mut self, case: &LoadCase, fault: &Fault, model: &Model) {
        let node = match fault {
            Fault::Mechanism { node, .. }
            | Fault::NotConverged { node, .. }
            | Fault::Unstable { node, .. } => Some(*node),
            Fault::Chatter { contact, .. } => {
                let contacts = &model.shell.contacts;
                contacts.get(*contact).map(|contact| contact.node)
            }
            _ => None,
        };
        let panel = node.and_then(|node| self.panel_at(node, model));
        let subject = match (fault, panel) {
            (Fault::Chatter { .. }, _) => Subject::Part(Part::Support),
            (_, Some(panel)) => Subject::Panel(panel),
            (_, None) => Subject::Part(Part::Strength),
        };
        let kind = StrengthKind::NoAnswer {
            case: case.id,
            fault: fault.clone(),
            near: node.and_then(|node| model.mesh.nodes.get(node)).copied(),
        };
        self.without_answer(Finding::of(Grade::Stop, subject, kind));
    }

    /// Name of the panel at a node.
    fn panel_at(&self, node: usize, model: &Model) -> Option<PanelName> {
        let of = |triangle: &brimful_geom::mesh::MeshTriangle| triangle.nodes.contains(&node);
        let triangle = model.mesh.triangles.iter().position(of)?;
        Some(self.tank.panels[model.panel[triangle]].name.clone())
    }

    /// Says why there is no answer, once.
    fn without_answer(&mut self, finding: Finding) {
        self.unanswered += 1;
        if !self.findings.contains(&finding) {
            self.findings.push(finding);
        }
    }

    /// Holds every panel and seam against its limits.
    pub fn judge(&mut self, runs: &[CaseRun]) {
        for panel in 0..self.tank.panels.len() {
            self.judge_panel(panel, runs);
        }
        for seam in 0..self.tank.seams.len() {
            self.judge_seam(seam, runs);
        }
        self.settled(runs);
        self.about_the_whole(runs);
    }

    fn judge_panel(&mut self, panel: usize, runs: &[CaseRun]) {
        let worst =
            |by: &dyn Fn(&CaseRun) -> f64| runs.iter().max_by(|a, b| by(a).total_cmp(&by(b)));
        let part = RunPart::Panel(panel);
        if let Some((run, against)) = worst_against(runs, part) {
            let figure = &run.figures.panels[panel];
            let place = (run.case.id, figure.stress_at);
            let figures = (figure.stress, run.limits.of_panel(panel).sheet);
            self.findings.extend(stress_finding(
                self.panel(panel),
                Judged::Sheet,
                against,
                place,
                figures,
            ));
            self.adds_up(part, run, against, runs);
        }
        // Inner panels move with what they tie; only walls, floor and lid can bear on something.
        let outer = self.tank.panels[panel].role.is_outer();
        self.buckles(panel, runs);
        let depth = |run: &CaseRun| {
            let figure = &run.figures.panels[panel];
            figure.outward.max(-figure.inward)
        };
        if let Some(run) = worst(&depth).filter(|_| outer) {
            let finding = self.bulge(panel, run, depth(run));
            self.findings.extend(finding);
        }
    }

    /// A panel that buckles under too little more than some load, by the load that it has least over.
    fn buckles(&mut self, panel: usize, runs: &[CaseRun]) {
        let own = |run: &CaseRun| Some((run.case.id, run.buckles.filter(|it| it.panel == panel)?));
        let found = runs.iter().filter_map(own);
        let least = found.min_by(|(_, a), (_, b)| a.factor.total_cmp(&b.factor));
        self.findings.extend(least.map(|(case, buckles)| {
            let kind = StrengthKind::Buckles {
                case,
                at: buckles.at,
            };
            Finding::of(Grade::Stop, self.panel(panel), kind)
                .figures(Quantity::Ratio(buckles.factor), Quantity::Ratio(STABILITY))
        }));
    }

    fn bulge(&self, panel: usize, run: &CaseRun, depth: f64) -> Option<Finding> {
        let limit = self.tank.job.checks.bulge?;
        let depth = Length::from_m(depth);
        let kind = StrengthKind::Bulge {
            case: run.case.id,
            at: run.figures.panels[panel].bulge_at,
        };
        (depth > limit).then(|| {
            Finding::of(Grade::Stop, self.panel(panel), kind)
                .figures(Quantity::Length(depth), Quantity::Length(limit))
        })
    }

    fn judge_seam(&mut self, seam: usize, runs: &[CaseRun]) {
        let of = |run: &CaseRun| {
            run.figures
                .seams
                .iter()
                .find(|figure| figure.seam == seam)
                .copied()
        };
        let part = RunPart::Seam(seam);
        let Some((run, against)) = worst_against(runs, part) else {
            return;
        };
        let subject = self.seam(seam);
        let Some(figure) = of(run) else {
            let kind = StrengthKind::SeamNotMeshed;
            self.findings.push(Finding::of(Grade::Stop, subject, kind));
            return;
        };
        let (case, at) = (run.case.id, figure.at);
        let figures = (figure.stress, run.limits.of_seam(seam).weld);
        let judged = match figure.at_root {
            true => Judged::Root,
            false => Judged::Weld,
        };
        self.findings.extend(stress_finding(
            subject,
            judged,
            against,
            (case, at),
            figures,
        ));
        self.adds_up(part, run, against, runs);
    }

    /// Loads that each are borne may add up to too much. Where one load alone tells as much, it does.
    fn adds_up(&mut self, part: RunPart, worst: &CaseRun, alone: Against, runs: &[CaseRun]) {
        let Some(damage) = damage(runs, part) else {
            return;
        };
        let width = worst.width(part);
        let sure = sure_damage(runs, part).map_or(0.0, |sum| sum.used);
        let margin = worst.margin(part);
        let stands = against(damage.used, sure / damage.used, width, margin);
        let grade = match (stands, alone) {
            (_, Against::Over) | (Against::Under, _) => return,
            (Against::Over, _) => Grade::Stop,
            (Against::At(_) | Against::AtRoot, Against::Under) => Grade::Mend,
            (Against::At(_) | Against::AtRoot, Against::At(_) | Against::AtRoot) => return,
        };
        let kind = StrengthKind::AddUp {
            shares: damage.shares,
        };
        self.findings.push(
            Finding::of(grade, self.subject(part), kind)
                .figures(Quantity::Ratio(damage.used), Quantity::Ratio(1.0)),
        );
    }

    fn panel(&self, panel: usize) -> Subject {
        Subject::Panel(self.tank.panels[panel].name.clone())
    }

    fn seam(&self, seam: usize) -> Subject {
        let seam = &self.tank.seams[seam];
        let names = seam
            .panels
            .map(|panel| self.tank.panels[panel].name.clone());
        Subject::Seam(seam.mark.clone(), names)
    }

    /// What passes must pass by more than its estimated error. Where something is over its limit the
    /// tank is stopped by that.
    fn settled(&mut self, runs: &[CaseRun]) {
        if self.findings.iter().any(|it| it.grade == Grade::Stop) {
            return;
        }
        let growth = growth_of(runs);
        for run in runs {
            if let Some(narrow) = run.unsure(&growth) {
                self.within_mesh_error(narrow.part, run.case.id, narrow.at_most);
            }
        }
        for part in runs
            .iter()
            .take(1)
            .flat_map(|run| RunPart::all(&run.figures))
        {
            let Some(most) = narrow_sum(runs, part, &growth) else {
                continue;
            };
            if let Some((case, _)) = most.shares.first() {
                self.within_mesh_error(part, *case, most.used);
            }
        }
    }

    fn within_mesh_error(&mut self, part: RunPart, case: CaseId, at_most: f64) {
        let kind = StrengthKind::WithinMeshError { case };
        self.findings.push(
            Finding::of(Grade::Stop, self.subject(part), kind)
                .figures(Quantity::Ratio(at_most), Quantity::Ratio(1.0)),
        );
    }

    fn subject(&self, part: RunPart) -> Subject {
        match part {
            RunPart::Panel(panel) => self.panel(panel),
            RunPart::Seam(seam) => self.seam(seam),
        }
    }

    /// A tank that tips off its support hangs in what only keeps it from sliding.
    fn tips(&mut self, runs: &[CaseRun]) {
        let worst = runs
            .iter()
            .max_by(|a, b| a.figures.tilt.total_cmp(&b.figures.tilt));
        let Some(run) = worst else { return };
        let tilt = Angle::from_rad(run.figures.tilt);
        if tilt > TIPS || run.figures.tilt.is_nan() {
            let kind = StrengthKind::Tips { case: run.case.id };
            self.findings.push(
                Finding::of(Grade::Stop, Subject::Part(Part::Support), kind)
                    .figures(Quantity::Angle(tilt), Quantity::Angle(TIPS)),
            );
        }
    }

    /// A baffle is there for what happens on the way; where no event is named nothing presses on it.
    fn baffles_without_events(&mut self) {
        let job = self.tank.job;
        if job.about.duty == Duty::Standing || !job.events.is_empty() {
            return;
        }
        let panels = self.tank.panels.iter();
        let baffles = panels.filter(|panel| panel.role == Role::Baffle);
        self.findings.extend(baffles.map(|panel| {
            let subject = Subject::Panel(panel.name.clone());
            Finding::of(Grade::Stop, subject, StrengthKind::BaffleWithoutEvent)
        }));
    }

    /// Ribs and stays that the shell takes as stiffer against twisting than they are.
    fn narrow_strips(&mut self) {
        let panels = self.tank.panels.iter();
        let strips = panels.filter(|panel| matches!(panel.role, Role::Rib | Role::Stay));
        self.findings.extend(strips.filter_map(|panel| {
            let outlines = panel.finished.outlines(PlateFace::Outside);
            let (low, high) = outlines.first()?.bounds();
            let width = (high.x - low.x).min(high.y - low.y);
            let ratio = width / panel.thickness.m();
            let subject = Subject::Panel(panel.name.clone());
            (ratio < NARROWEST).then(|| {
                Finding::of(Grade::Mend, subject, StrengthKind::NarrowStrip)
                    .figures(Quantity::Ratio(ratio), Quantity::Ratio(NARROWEST))
            })
        }));
    }

    fn about_the_whole(&mut self, runs: &[CaseRun]) {
        let job = self.tank.job;
        let of = |grade, part, kind| Finding::of(grade, Subject::Part(part), kind);
        self.baffles_without_events();
        self.narrow_strips();
        let has_lid = self.tank.panels.iter().any(|panel| panel.role == Role::Lid);
        if job.checks.lid_load.is_some() && !has_lid {
            self.findings
                .push(of(Grade::Stop, Part::Lid, StrengthKind::NoLid));
        }
        for (subject, liquid) in liquids_held(job, self.tank.compartments) {
            self.findings.extend(medium_finding(job, liquid, subject));
        }
        if !runs.is_empty() {
            let kind = StrengthKind::Assumptions;
            self.findings.push(of(Grade::Note, Part::Strength, kind));
        }
        self.tips(runs);
        let lies_loose =
            |run: &CaseRun| run.case.id.kind == LoadKind::Rest && run.figures.borne <= 0.0;
        if runs.iter().any(lies_loose) {
            let kind = StrengthKind::NotBorne;
            self.findings.push(of(Grade::Stop, Part::Support, kind));
        }
    }
}

/// What a stress is in.
#[derive(Clone, Copy, PartialEq)]
enum Judged {
    Sheet,
    Weld,
    /// The root of a weld from one side, pulled open.
    Root,
}

/// What is said of a stress, Pa, against what is allowed.
fn stress_finding(
    subject: Subject,
    judged: Judged,
    against: Against,
    (case, at): (CaseId, Point3),
    (stress, allowed): (f64, Pressure),
) -> Option<Finding> {
    let (grade, kind) = match (against, judged) {
        (Against::Under, _) => return None,
        (Against::AtRoot, _) => (Grade::Mend, StrengthKind::RootAtLimit { case, at }),
        (Against::At(width), _) => (
            Grade::Mend,
            StrengthKind::AtLimit {
                weld: judged != Judged::Sheet,
                width,
                case,
                at,
            },
        ),
        (Against::Over, Judged::Root) => (Grade::Stop, StrengthKind::RootOpens { case, at }),
        (Against::Over, Judged::Weld) => (Grade::Stop, StrengthKind::WeldOverLimit { case, at }),
        (Against::Over, Judged::Sheet) => (Grade::Stop, StrengthKind::SheetOverLimit { case, at }),
    };
    Some(Finding::of(grade, subject, kind).figures(
        Quantity::Stress(Pressure::from_pa(stress)),
        Quantity::Stress(allowed),
    ))
}

/// The run in which a part stands worst to its limit, each with the width of its own limit.
fn worst_against(runs: &[CaseRun], part: RunPart) -> Option<(&CaseRun, Against)> {
    let stands = runs.iter().map(|run| {
        let used = part.used(&run.figures);
        let stands = against(used, run.sure(part), run.width(part), run.margin(part));
        (run, stands, used)
    });
    let worst = stands.max_by(|(_, a, of_a), (_, b, of_b)| {
        let by_rank = a.rank().cmp(&b.rank());
        by_rank.then(of_a.total_cmp(of_b))
    });
    worst.map(|(run, against, _)| (run, against))
}

/// Where a use stands to its limit.
#[derive(Clone, Copy)]
enum Against {
    /// Under it, by more than the limit may be off.
    Under,
    /// As near to it as it is known, which is to this share.
    At(f64),
    /// Over it by no more than a root that is pulled open for seconds may count for.
    AtRoot,
    /// Over it, by more than the limit may be off; or not a number.
    Over,
}

impl Against {
    /// The worse the greater.
    fn rank(self) -> usize {
        match self {
            Self::Under => 0,
            Self::At(_) => 1,
            Self::AtRoot => 2,
            Self::Over => 3,
        }
    }
}

/// `sure` is the share of the use that is sure to count; `margin` how far below its limit it is no pass.
fn against(used: f64, sure: f64, width: f64, margin: f64) -> Against {
    if used < 1.0 - margin {
        Against::Under
    } else if used <= 1.0 + width {
        Against::At(margin)
    } else if used * sure <= 1.0 + width {
        Against::AtRoot
    } else {
        Against::Over
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_sure_to_count_decides_over_a_limit() {
        let is = |used: f64, sure: f64| match against(used, sure, 0.1, 0.1) {
            Against::Under => "under",
            Against::At(_) => "at",
            Against::AtRoot => "root",
            Against::Over => "over",
        };
        assert_eq!(
            [is(0.8, 0.5), is(1.05, 0.5), is(1.05, 1.0)],
            ["under", "at", "at"]
        );
        assert_eq!(
            [is(1.8, 0.5), is(1.8, 1.0), is(2.3, 0.5)],
            ["root", "over", "over"]
        );
        // What the mesh is not sure of passes by more than that.
        assert!(matches!(against(0.88, 1.0, 0.05, 0.15), Against::At(_)));
        // A face that is worse than the root leaves little to the doubt.
        assert_eq!(is(1.8, 1.6 / 1.8), "over");
        assert_eq!(is(f64::NAN, 1.0), "over");
    }
}
