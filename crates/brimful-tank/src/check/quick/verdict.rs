//! What the quick check says: one finding for each thing that is wrong with a panel, by its worst
//! span and load case.

use super::super::limit::medium_finding;
use super::super::load::LoadCase;
use super::{Governs, Quick, SpanCheck};
use crate::finding::{Finding, Grade, Quantity};
use crate::panel::Panel;
use crate::table::NotCovered;
use brimful_job::{Duty, Job, Support};
use brimful_mech::plate::DEEPEST;
use brimful_units::{Length, Mass};

const CURE_DEPTH: &str =
    "Thicker sheet, a baffle nearer, or the whole-tank check, which knows membrane forces.";
const CURE_STRESS: &str = "Thicker sheet, a baffle nearer, a lower fill, or cooler liquid.";
const NOT_COVERED: &str = "Not covered by the quick check";
const PLATE_THEORY: &str = "Plate theory without membrane forces ends at half the thickness (DVS 2205-5 and plate theory, from memory)";

/// Stress at the rim of a round hole over the stress of the whole plate, for a plate pulled one
/// way; less in bending, so this is on the safe side (G. Kirsch 1898, from memory).
const STRESS_AT_A_HOLE: f64 = 3.0;

/// The rows and findings so far.
pub struct Verdict<'a> {
    job: &'a Job,
    rows: Vec<SpanCheck>,
    thickness: Vec<Length>,
    /// For each panel the name of an opening in it, if it has one.
    pierced: Vec<Option<String>>,
    findings: Vec<Finding>,
    uncovered_cases: Vec<String>,
    uncovered_panels: Vec<usize>,
}

impl<'a> Verdict<'a> {
    pub fn new(job: &'a Job, panels: &[Panel]) -> Self {
        let thickness = panels.iter().map(|panel| panel.thickness).collect();
        let pierced = panels
            .iter()
            .map(|panel| panel.openings.first().map(|opening| opening.name.clone()))
            .collect();
        Self {
            job,
            rows: Vec::new(),
            thickness,
            pierced,
            findings: Vec::new(),
            uncovered_cases: Vec::new(),
            uncovered_panels: Vec::new(),
        }
    }

    pub fn add(&mut self, row: SpanCheck) {
        self.rows.push(row);
    }

    pub fn case_not_covered(&mut self, case: &LoadCase, reason: &NotCovered) {
        self.uncovered_cases.push(case.name.clone());
        self.findings.push(
            Finding::new(
                Grade::Stop,
                &case.name,
                format!("{NOT_COVERED}: {}.", reason.text(self.job.about.units)),
            )
            .source("tables of materials and factors")
            .cure("Shorter service, cooler liquid, or a value from the sheet's maker."),
        );
    }

    pub fn panel_not_covered(&mut self, number: usize, panel: &Panel, reason: impl Into<String>) {
        self.uncovered_panels.push(number);
        let says = format!("{NOT_COVERED}: {}.", reason.into());
        let finding = Finding::new(Grade::Stop, &panel.name, says)
            .source("published plate coefficients, for rectangles held along straight lines")
            .cure("The whole-tank check, or baffles and facets that leave rectangles.");
        if !self.findings.contains(&finding) {
            self.findings.push(finding);
        }
    }

    pub fn carried(&mut self, panel: &Panel) {
        self.findings.push(
            Finding::new(Grade::Note, &panel.name, "It lies flat on what carries the tank and is not checked for bending. The surface under it must be flat, smooth and whole.")
                .source("common practice"),
        );
    }

    pub fn baffle(&mut self, panel: &Panel) {
        if self.job.about.duty != Duty::Standing || !self.job.events.is_empty() {
            self.findings.push(
                Finding::new(Grade::Stop, &panel.name, format!("{NOT_COVERED}: the surge on a baffle. Liquid at rest presses on both its sides alike; an event throws it against one."))
                    .source("published plate coefficients, for panels with liquid on one side")
                    .cure("The whole-tank check, which throws all that is behind it against each baffle."),
            );
        }
    }

    pub fn finish(mut self) -> Quick {
        let panels: Vec<usize> = (0..self.thickness.len()).collect();
        for panel in panels {
            let found = self.of_panel(panel);
            self.findings.extend(found);
        }
        let about_all = self.about_the_whole();
        self.findings.extend(about_all);
        Quick {
            rows: self.rows,
            assumptions: assumptions(self.job),
            findings: self.findings,
            uncovered_cases: self.uncovered_cases,
            uncovered_panels: self.uncovered_panels,
        }
    }

    fn of_panel(&self, panel: usize) -> Vec<Finding> {
        let rows = || self.rows.iter().filter(move |row| row.panel == panel);
        let worst = |by: fn(&SpanCheck) -> f64, wanted: &dyn Fn(&SpanCheck) -> bool| {
            rows()
                .filter(|row| wanted(row))
                .max_by(|a, b| by(a).total_cmp(&by(b)))
        };
        let by_depth = |row: &SpanCheck| row.deflection.m();
        let mut findings = Vec::new();
        let deep = worst(by_depth, &|row| !row.covered);
        if let Some(row) = deep {
            findings.push(
                Finding::new(Grade::Stop, &row.span, format!("{NOT_COVERED}: with hinged edges it would bulge by more than half its thickness ({}).", row.case))
                    .figures(Quantity::Length(row.deflection), Quantity::Length(self.thickness[panel] * DEEPEST))
                    .source(PLATE_THEORY)
                    .cure(CURE_DEPTH),
            );
        }
        if let Some(row) = worst(|row| row.utilisation, &|row| {
            row.covered && over(row.utilisation)
        }) {
            let place = match row.governs {
                Governs::Sheet => "in the sheet",
                Governs::Weld => "at its welds",
            };
            findings.push(
                Finding::new(Grade::Stop, &row.span, format!("The stress {place} is over what is allowed ({}).", row.case))
                    .figures(Quantity::Pressure(row.stress), Quantity::Pressure(row.allowable))
                    .source("Allowable stress by the form of DVS 2205-1 (from memory), factors listed with the span")
                    .cure(CURE_STRESS),
            );
        }
        if deep.is_none() {
            findings.extend(worst(by_depth, &|_| true).and_then(|row| self.bulge(row)));
        }
        findings
    }

    fn bulge(&self, row: &SpanCheck) -> Option<Finding> {
        let limit = self.job.checks.bulge?;
        (row.deflection > limit).then(|| {
            let says = format!("It bulges more than the job allows ({}).", row.case);
            Finding::new(Grade::Stop, &row.span, says)
                .figures(Quantity::Length(row.deflection), Quantity::Length(limit))
                .source("the bulge that the job allows")
                .cure("Thicker sheet, or a baffle nearer.")
        })
    }

    /// Panels whose stress, three times as high at the rim of an opening, would be over the allowed.
    fn overstressed_at_openings(&self) -> Vec<Finding> {
        let mut findings = Vec::new();
        for (number, opening) in self.pierced.iter().enumerate() {
            let Some(opening) = opening else { continue };
            let own = self
                .rows
                .iter()
                .filter(|row| row.panel == number && row.covered);
            let used = own.map(|row| row.utilisation).fold(0.0, f64::max);
            if used <= 1.0 && used * STRESS_AT_A_HOLE > 1.0 {
                findings.push(
                    Finding::new(Grade::Stop, opening, format!("{NOT_COVERED}: the stress at the rim of this opening, which may be three times that of the whole panel, and then is over the allowed."))
                        .figures(Quantity::Ratio(used * STRESS_AT_A_HOLE), Quantity::Ratio(1.0))
                        .source("Three times at a small round hole in a pulled plate (G. Kirsch 1898, from memory)")
                        .cure("Thicker sheet, the opening in another panel, or the whole-tank check."),
                );
            }
        }
        findings
    }

    fn about_the_whole(&self) -> Vec<Finding> {
        let mut findings = Vec::new();
        if matches!(self.job.support, Support::Straps { .. }) {
            findings.push(
                Finding::new(
                    Grade::Stop,
                    "support",
                    format!("{NOT_COVERED}: what straps do to the panels they lie on."),
                )
                .source("published plate coefficients, for rectangles held along straight lines")
                .cure("The whole-tank check, or stand the tank on a floor or rails."),
            );
        }
        findings.extend(self.overstressed_at_openings());
        if !self.job.openings.is_empty() {
            findings.push(
                Finding::new(Grade::Mend, "openings", "The stress round openings is not in the plate coefficients: the panels are checked as if whole.")
                    .source("published plate coefficients, for whole rectangles")
                    .cure("Keep openings near the edges and corners of a span, and small against it; stiffen a hatch with a ring."),
            );
        }
        findings.extend(medium_finding(self.job));
        findings.extend(lid_finding(self.job));
        if self.rows.iter().any(|row| row.covered) {
            findings.push(
                Finding::new(Grade::Note, "quick check", assumptions(self.job).join(" "))
                    .source("assumptions of the quick check"),
            );
        }
        findings
    }
}

/// A utilisation over one, or one that is not a number.
fn over(utilisation: f64) -> bool {
    utilisation > 1.0 || utilisation.is_nan()
}

/// Whatever the check takes for granted.
fn assumptions(job: &Job) -> Vec<String> {
    let filled = format!(
        "{}; in an event the liquid is taken as still, pressing by the tilted pull alone, without surge.",
        job.checks.filled_to.text()
    );
    [
        "Each span is bent by itself; a real corner lies between the hinged and the clamped edge that are reckoned with.",
        &filled,
        "Live load on the lid is not in it.",
        "An inner panel holds another where its foot runs along at least 70 % of the span and it ties the panel to one that faces it; what the tie passes on where the two are pressed unequally, and the peak of stress at the end of a foot, are not followed.",
        "In an event the bulge that has crept at rest is kept and the quick part added.",
        "The weight of the sheet is taken to act the same way as the liquid.",
    ]
    .map(str::to_owned)
    .to_vec()
}

/// A load on the lid stands in one place, and the tables know only pressure.
fn lid_finding(job: &Job) -> Option<Finding> {
    job.checks.lid_load.map(|load| {
        Finding::new(
            Grade::Stop,
            "lid",
            format!("{NOT_COVERED}: what stands or kneels on the lid."),
        )
        .figures(Quantity::Mass(load), Quantity::Mass(Mass::ZERO))
        .source("what the job lets stand on the lid")
        .cure("The whole-tank check.")
    })
}
