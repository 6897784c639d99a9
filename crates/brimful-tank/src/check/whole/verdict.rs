//! What the whole-tank check says: one finding for each thing that is wrong with a panel or seam,
//! by its worst load case.

use super::lid::Spot;
use super::model::{Model, NoModel, Tank};
use super::run::{CaseRun, Part, Whole};
use super::support::BED;
use crate::check::limit::medium_finding;
use crate::check::load::{LoadCase, LoadKind};
use crate::finding::{Finding, Grade, Quantity};
use crate::growth::WELDED;
use crate::panel::Role;
use crate::table::NotCovered;
use brimful_geom::vector::Point3;
use brimful_job::{Duty, Support};
use brimful_mech::shell::Fault;
use brimful_units::{Angle, Length, Pressure, show};

const METHOD: &str = "whole-tank shell: flat triangles (Batoz, Bathe & Ho 1980; Felippa 2003), large displacements (Felippa & Haugen 2005)";
const ALLOWED: &str =
    "Allowable stress by the form of DVS 2205-1 (from memory), factors listed with the load case";
/// A tank that leans over by more than this has left its support, and what is reckoned from there on
/// is of no use: 1 degree, three times what the support of any example gives way by in any event (0.34
/// degrees).
const TIPS: Angle = Angle::from_deg(1.0);
/// How far the support gives way for the pressure that is told with it.
const GIVES: Length = Length::from_mm(0.1);
const CURE: &str = "Thicker sheet, a baffle, rib or stay nearer, a lower fill, or cooler liquid.";

/// The findings so far.
pub struct Verdict<'a> {
    tank: &'a Tank<'a>,
    pub findings: Vec<Finding>,
    /// Load cases without an answer.
    pub unanswered: usize,
    /// Those that were run, or all at once.
    pub lost: Vec<Lost>,
}

/// An answer that was not found.
#[derive(Clone, Debug, PartialEq)]
pub struct Lost {
    /// Name of the load case; none: no load could be run.
    pub case: Option<String>,
    about: String,
    /// Where it goes, in the axes of the tank.
    near: Point3,
    why: Why,
}

#[derive(Clone, Debug, PartialEq)]
enum Why {
    NoModel(NoModel),
    Fault(Fault),
}

impl Lost {
    /// As a finding; `near` is its place in words.
    fn finding(&self, near: &str) -> Finding {
        let case = self.case.as_deref().unwrap_or_default();
        let (says, cure) = match &self.why {
            Why::NoModel(reason) => (
                format!("The whole-tank check cannot be done: {reason}."),
                "Simplify the shape near the place named, or see that the support is under the tank.",
            ),
            Why::Fault(Fault::Mechanism { .. }) => (
                format!(
                    "Part of the tank is loose: near {near} it can move without resistance ({case})."
                ),
                "See that every panel is welded to others along its edges, and that the support holds the tank down and sideways.",
            ),
            Why::Fault(Fault::NotConverged { reached, .. }) => (
                format!(
                    "No equilibrium is found beyond {:.0} % of the load; it goes near {near} ({case}).",
                    reached * 100.0
                ),
                "Thicker sheet, a rib, stay or baffle there, or hold the tank down: it may lift off its support.",
            ),
            Why::Fault(Fault::Unstable { stable, .. }) => (
                format!(
                    "The tank buckles or snaps at {:.0} % of the load or a little more, near {near} ({case}).",
                    stable * 100.0
                ),
                "Thicker sheet, or a rib, stay or baffle there.",
            ),
            Why::Fault(Fault::Chatter { .. }) => (
                format!(
                    "Whether the tank bears on its support near {near} does not settle ({case})."
                ),
                "Hold the tank down, or support it along more of its floor.",
            ),
            Why::Fault(other) => (
                format!("{other} ({case})."),
                "Simplify the shape of the tank.",
            ),
        };
        Finding::new(Grade::Stop, &self.about, says)
            .source(METHOD)
            .cure(cure)
    }
}

impl<'a> Verdict<'a> {
    pub fn new(tank: &'a Tank<'a>) -> Self {
        Self {
            tank,
            findings: Vec::new(),
            unanswered: 0,
            lost: Vec::new(),
        }
    }

    pub fn case_not_covered(&mut self, case: &LoadCase, reason: &NotCovered) {
        self.unanswered += 1;
        self.findings.push(
            Finding::new(
                Grade::Stop,
                &case.name,
                format!(
                    "Not covered by the strength check: {}.",
                    reason.text(self.tank.job.about.units)
                ),
            )
            .source("tables of materials and factors")
            .cure("Shorter service, cooler liquid, or a value from the sheet's maker."),
        );
    }

    /// The tank is no shell that can be reckoned with.
    pub fn no_model(mut self, reason: NoModel) -> Whole {
        self.lose(Lost {
            case: None,
            about: "strength".to_owned(),
            near: Point3::ORIGIN,
            why: Why::NoModel(reason),
        });
        Whole {
            cases: Vec::new(),
            meshes: Vec::new(),
            supports: Vec::new(),
            unanswered: self.unanswered,
            lost: self.lost,
            picture: None,
            moved: Vec::new(),
            assumptions: assumptions(self.tank),
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
        let near = node.and_then(|node| model.mesh.nodes.get(node));
        let panel = node.and_then(|node| self.panel_at(node, model));
        let about = match (fault, panel) {
            (Fault::Chatter { .. }, _) => "support".to_owned(),
            (_, Some(panel)) => panel,
            (_, None) => "strength".to_owned(),
        };
        self.lose(Lost {
            case: Some(case.name.clone()),
            about,
            near: near.copied().unwrap_or(Point3::ORIGIN),
            why: Why::Fault(fault.clone()),
        });
    }

    /// Name of the panel at a node.
    fn panel_at(&self, node: usize, model: &Model) -> Option<String> {
        let of = |triangle: &brimful_geom::mesh::MeshTriangle| triangle.nodes.contains(&node);
        let triangle = model.mesh.triangles.iter().position(of)?;
        Some(self.tank.panels[model.panel[triangle]].name.to_string())
    }

    /// Says why there is no answer, and keeps it.
    pub fn lose(&mut self, lost: Lost) {
        self.unanswered += 1;
        let finding = lost.finding(&self.words(lost.near));
        if !self.findings.contains(&finding) {
            self.findings.push(finding);
        }
        self.lost.push(lost);
    }

    /// A place, in the units of the job.
    fn words(&self, place: Point3) -> String {
        let about = &self.tank.job.about;
        let text = |v: f64| Quantity::Length(Length::from_m(v)).text(about);
        format!(
            "x {}, y {}, z {}",
            text(place.x),
            text(place.y),
            text(place.z)
        )
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
        let name = self.tank.panels[panel].name.to_string();
        let worst =
            |by: &dyn Fn(&CaseRun) -> f64| runs.iter().max_by(|a, b| by(a).total_cmp(&by(b)));
        if let Some(run) = worst(&|run| run.figures.panels[panel].utilisation) {
            let figure = &run.figures.panels[panel];
            if over(figure.utilisation) {
                let says = format!(
                    "The stress in the sheet is over what is allowed, worst at {} ({}).",
                    self.words(figure.stress_at),
                    run.case.name
                );
                self.findings.push(
                    Finding::new(Grade::Stop, &name, says)
                        .figures(
                            Quantity::Pressure(Pressure::from_pa(figure.stress)),
                            Quantity::Pressure(run.limits.sheet),
                        )
                        .source(ALLOWED)
                        .cure(CURE),
                );
            }
        }
        // Inner panels move with what they tie; only walls, floor and lid can bear on something.
        let outer = self.tank.panels[panel].role.is_outer();
        let depth = |run: &CaseRun| {
            let figure = &run.figures.panels[panel];
            figure.outward.max(-figure.inward)
        };
        if let Some(run) = worst(&depth).filter(|_| outer) {
            let finding = self.bulge(&name, run, depth(run), run.figures.panels[panel].bulge_at);
            self.findings.extend(finding);
        }
    }

    fn bulge(&self, name: &str, run: &CaseRun, depth: f64, at: Point3) -> Option<Finding> {
        let limit = self.tank.job.checks.bulge?;
        let depth = Length::from_m(depth);
        (depth > limit).then(|| {
            let says = format!(
                "It bulges more than the job allows, most at {} ({}).",
                self.words(at),
                run.case.name
            );
            Finding::new(Grade::Stop, name, says)
                .figures(Quantity::Length(depth), Quantity::Length(limit))
                .source("the bulge that the job allows")
                .cure("Thicker sheet, or a baffle, rib or stay nearer.")
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
        let used = |run: &CaseRun| of(run).map_or(0.0, |figure| figure.utilisation);
        let worst = runs.iter().max_by(|a, b| used(a).total_cmp(&used(b)));
        let Some(run) = worst else { return };
        let Some(figure) = of(run) else {
            let about = &self.tank.seams[seam].mark;
            self.findings.push(
                Finding::new(
                    Grade::Stop,
                    about,
                    "Not covered by the strength check: this seam is on no line of its mesh.",
                )
                .source(METHOD)
                .cure("Simplify the shape near it."),
            );
            return;
        };
        if !over(figure.utilisation) {
            return;
        }
        let whole = &self.tank.seams[seam];
        let about = format!("{} ({})", whole.mark, self.names(whole.panels));
        let place = self.words(figure.at);
        if figure.stress.is_infinite() {
            self.findings.push(
                Finding::new(Grade::Stop, about, format!("It is welded from one side only and its root is bent open, worst at {place} ({}): a root gets no credit for that.", run.case.name))
                    .source(ALLOWED)
                    .cure("Weld it from the other side as well, choose a joint with two sides, or stiffen the panels beside it."),
            );
            return;
        }
        self.findings.push(
            Finding::new(
                Grade::Stop,
                about,
                format!(
                    "The stress in the weld is over what is allowed, worst at {place} ({}).",
                    run.case.name
                ),
            )
            .figures(
                Quantity::Pressure(Pressure::from_pa(figure.stress)),
                Quantity::Pressure(run.limits.weld),
            )
            .source(ALLOWED)
            .cure(CURE),
        );
    }

    fn names(&self, panels: [usize; 2]) -> String {
        panels
            .map(|panel| self.tank.panels[panel].name.to_string())
            .join(" to ")
    }

    /// What passes must pass by more than its estimated error. Where something is over its limit the
    /// tank is stopped by that, and the rest is looked at more closely once it is mended.
    fn settled(&mut self, runs: &[CaseRun]) {
        if !runs.iter().all(CaseRun::holds) {
            return;
        }
        for run in runs {
            let Some(narrow) = run.unsure() else {
                continue;
            };
            let about = match narrow.part {
                Part::Panel(panel) => self.tank.panels[panel].name.to_string(),
                Part::Seam(seam) => self.tank.seams[seam].mark.clone(),
            };
            self.findings.push(
                Finding::new(Grade::Stop, about, format!("It is nearer to its limit than the mesh is sure of: with its estimated error it may ask for more than there is ({}).", run.case.name))
                    .figures(Quantity::Ratio(narrow.at_most()), Quantity::Ratio(1.0))
                    .source("estimated error from two or three meshes (L. F. Richardson 1911, extrapolation; from memory)")
                    .cure("A little more strength, or round off what is sharp there: a reinforcement at the end of a baffle's foot, no notch."),
            );
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
            self.findings.push(
                Finding::new(
                    Grade::Stop,
                    "support",
                    format!(
                        "The tank tips over or leaves its support ({}).",
                        run.case.name
                    ),
                )
                .figures(Quantity::Angle(tilt), Quantity::Angle(TIPS))
                .source(METHOD)
                .cure("Put the supports under its weight, further apart, or hold the tank down."),
            );
        }
    }

    /// A baffle is there for what happens on the way; where no event is named nothing presses on it.
    fn baffles_without_events(&mut self) {
        let job = self.tank.job;
        if job.about.duty == Duty::Standing || !job.events.is_empty() {
            return;
        }
        let baffles = self
            .tank
            .panels
            .iter()
            .filter(|panel| panel.role == Role::Baffle);
        self.findings.extend(baffles.map(|panel| {
            Finding::new(Grade::Stop, &panel.name, "Not covered by the strength check: a baffle of a moving tank whose job names no event that would throw liquid against it.")
                .source("Liquid at rest presses on both its sides alike")
                .cure("Name the events that it meets on the way.")
                .entry("[[event]] name = \"braking\"")
        }));
    }

    fn about_the_whole(&mut self, runs: &[CaseRun]) {
        let job = self.tank.job;
        self.baffles_without_events();
        let has_lid = self.tank.panels.iter().any(|panel| panel.role == Role::Lid);
        if job.checks.lid_load.is_some() && !has_lid {
            self.findings.push(
                Finding::new(Grade::Stop, "lid", "Not covered by the strength check: somebody may stand on the lid, and no panel of this tank lies like one.")
                    .source("what the job lets stand on the lid")
                    .cure("Let nobody stand on it and keep everybody off, or make the top flatter than 60 degrees."),
            );
        }
        self.findings.extend(medium_finding(job));
        if !runs.is_empty() {
            self.findings.push(
                Finding::new(Grade::Note, "strength", assumptions(self.tank).join(" "))
                    .source("assumptions of the whole-tank check"),
            );
        }
        self.tips(runs);
        if runs
            .iter()
            .any(|run| run.case.kind == LoadKind::Rest && run.figures.borne <= 0.0)
        {
            self.findings.push(
                Finding::new(
                    Grade::Stop,
                    "support",
                    "Nothing of the full tank bears on its support.",
                )
                .source(METHOD)
                .cure("Check the places of the support against the floor."),
            );
        }
    }
}

/// A use over one, or one that is not a number.
fn over(utilisation: f64) -> bool {
    utilisation > 1.0 || utilisation.is_nan()
}

/// Whatever the check takes for granted.
pub fn assumptions(tank: &Tank<'_>) -> Vec<String> {
    let about = &tank.job.about;
    let text = |quantity: Quantity| quantity.text(about);
    let filled = tank.job.checks.filled_to.text();
    let mut said = vec![
        "Panels are thin plates in the middle of their sheets, welded stiffly along their seams.".to_owned(),
        "Pressure acts on the middle of the sheet, which is a little more than it has to bear.".to_owned(),
        format!("{filled}; in an event the liquid is taken as still, pressing by the tilted pull alone. Each baffle has to bear all that is behind it with nothing ahead; the blow of a wave in a part-full tank is not in it."),
        "An event comes on top of what has crept at rest, with the stiffness of seconds.".to_owned(),
        format!(
            "The support gives way by {} under {}, pushes and never pulls, and holds the tank sideways a tenth as stiffly.",
            show::small_length(GIVES, about.units),
            text(Quantity::Pressure(Pressure::from_pa(BED * GIVES.m())))
        ),
        "Fittings neither stiffen nor burden the panels; the pressure on a hatch's cover goes to the rim of its hole.".to_owned(),
        format!(
            "All of the tank is as warm as its liquid: what the sun on a lid over cold liquid does is not in it. It is welded at {} and grows against what holds it sideways.",
            text(Quantity::Temperature(WELDED))
        ),
    ];
    if matches!(tank.job.support, Support::Straps { .. }) {
        said.push("Straps hang straight down and push on the two lower edges they run round, up and inward alike, without friction; between those edges they carry nothing. Something keeps the tank from swinging.".to_owned());
    }
    if tank.job.checks.lid_load.is_none() {
        said.push("Nothing stands on the lid.".to_owned());
    } else {
        said.push(format!(
            "What stands on the lid does so on a spot {} wide, where the lid is furthest from what holds it up; the cover of a hatch is not checked.",
            text(Quantity::Length(Length::from_m(Spot::WIDTH)))
        ));
    }
    said
}
