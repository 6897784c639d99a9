//! What the quick check says: one finding for each thing that is wrong with a panel, by its worst
//! span and load case.

use super::result::{Quick, SpanCheck};
use crate::limit::medium_finding;
use crate::load::LoadCase;
use brimful_job::{Duty, Job, Support};
use brimful_mech::plate::DEEPEST;
use brimful_panels::case::CaseId;
use brimful_panels::finding::kind::{QuickKind, Uncovered};
use brimful_panels::finding::{Finding, Grade, Part, Quantity, Subject};
use brimful_panels::name::PanelName;
use brimful_panels::panel::Panel;
use brimful_panels::table::NotCovered;
use brimful_units::{Length, Mass};

/// Stress at the rim of a round hole over the stress of the whole plate, for a plate pulled one
/// way; less in bending, so this is on the safe side (G. Kirsch 1898, from memory).
const STRESS_AT_A_HOLE: f64 = 3.0;

/// What the tables do not cover is no verdict: the whole-tank check has it, and a draft says so.
const NOT_CHECKED_YET: Grade = Grade::Mend;

/// The rows and findings so far.
pub struct Verdict<'a> {
    job: &'a Job,
    rows: Vec<SpanCheck>,
    /// What each panel is called.
    names: Vec<PanelName>,
    thickness: Vec<Length>,
    /// For each panel the name of an opening in it, if it has one.
    pierced: Vec<Option<String>>,
    findings: Vec<Finding>,
    uncovered_cases: Vec<CaseId>,
    uncovered_panels: Vec<usize>,
}

impl<'a> Verdict<'a> {
    pub fn new(job: &'a Job, panels: &[Panel]) -> Self {
        let thickness = panels.iter().map(|panel| panel.thickness).collect();
        let pierced = panels
            .iter()
            .map(|panel| {
                panel
                    .openings
                    .first()
                    .map(|opening| opening.name.to_string())
            })
            .collect();
        Self {
            job,
            rows: Vec::new(),
            names: panels.iter().map(|panel| panel.name.clone()).collect(),
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
        self.uncovered_cases.push(case.id);
        self.findings.push(Finding::of(
            Grade::Stop,
            Subject::Case(case.id),
            QuickKind::CaseNotCovered(reason.clone()),
        ));
    }

    pub fn panel_not_covered(&mut self, number: usize, panel: &Panel, reason: Uncovered) {
        self.uncovered_panels.push(number);
        let finding = Finding::of(
            NOT_CHECKED_YET,
            Subject::Panel(panel.name.clone()),
            QuickKind::PanelNotCovered(reason),
        );
        if !self.findings.contains(&finding) {
            self.findings.push(finding);
        }
    }

    pub fn carried(&mut self, panel: &Panel) {
        let subject = Subject::Panel(panel.name.clone());
        self.findings
            .push(Finding::of(Grade::Note, subject, QuickKind::Carried));
    }

    pub fn baffle(&mut self, panel: &Panel) {
        if self.job.about.duty != Duty::Standing || !self.job.events.is_empty() {
            let subject = Subject::Panel(panel.name.clone());
            self.findings
                .push(Finding::of(NOT_CHECKED_YET, subject, QuickKind::Baffle));
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
                Finding::of(
                    NOT_CHECKED_YET,
                    self.span(row),
                    QuickKind::TooDeep { case: row.case },
                )
                .figures(
                    Quantity::Length(row.deflection),
                    Quantity::Length(self.thickness[panel] * DEEPEST),
                ),
            );
        }
        if let Some(row) = worst(|row| row.utilisation, &|row| {
            row.covered && over(row.utilisation)
        }) {
            let kind = QuickKind::OverLimit {
                at: row.governs,
                case: row.case,
            };
            findings.push(Finding::of(Grade::Stop, self.span(row), kind).figures(
                Quantity::Stress(row.stress),
                Quantity::Stress(row.allowable),
            ));
        }
        if deep.is_none() {
            findings.extend(worst(by_depth, &|_| true).and_then(|row| self.bulge(row)));
        }
        findings
    }

    fn bulge(&self, row: &SpanCheck) -> Option<Finding> {
        let limit = self.job.checks.bulge?;
        (row.deflection > limit).then(|| {
            Finding::of(
                Grade::Stop,
                self.span(row),
                QuickKind::Bulge { case: row.case },
            )
            .figures(Quantity::Length(row.deflection), Quantity::Length(limit))
        })
    }

    fn span(&self, row: &SpanCheck) -> Subject {
        let name = self.names[row.panel].clone();
        match row.span {
            Some(number) => Subject::Span(name, number),
            None => Subject::Panel(name),
        }
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
                let subject = Subject::Opening(opening.clone());
                findings.push(
                    Finding::of(NOT_CHECKED_YET, subject, QuickKind::RimOfOpening).figures(
                        Quantity::Ratio(used * STRESS_AT_A_HOLE),
                        Quantity::Ratio(1.0),
                    ),
                );
            }
        }
        findings
    }

    fn about_the_whole(&self) -> Vec<Finding> {
        let of = |grade, part, kind| Finding::of(grade, Subject::Part(part), kind);
        let mut findings = Vec::new();
        if matches!(self.job.support, Support::Straps { .. }) {
            findings.push(of(NOT_CHECKED_YET, Part::Support, QuickKind::Straps));
        }
        findings.extend(self.overstressed_at_openings());
        if !self.job.openings.is_empty() {
            findings.push(of(Grade::Mend, Part::Openings, QuickKind::Openings));
        }
        for liquid in self.job.liquids() {
            let found = medium_finding(self.job, &liquid, Subject::Part(Part::Liquid));
            findings.extend(found.filter(|found| !findings.contains(found)));
        }
        // A load on the lid stands in one place, and the tables know only pressure.
        findings.extend(self.job.checks.lid_load.map(|load| {
            of(NOT_CHECKED_YET, Part::Lid, QuickKind::LidLoad)
                .figures(Quantity::Mass(load), Quantity::Mass(Mass::ZERO))
        }));
        if self.rows.iter().any(|row| row.covered) {
            findings.push(of(Grade::Note, Part::QuickCheck, QuickKind::Assumptions));
        }
        findings
    }
}

/// A utilisation over one, or one that is not a number.
fn over(utilisation: f64) -> bool {
    utilisation > 1.0 || utilisation.is_nan()
}
