//! A standing tank of 12 mm sheet, checked as a whole.

use brimful_job::Job;
use brimful_panels::case::LoadKind;
use brimful_panels::progress::Unwatched;
use brimful_strength::whole::{CaseRun, Tank, Whole};
use brimful_tank::plan::{Depth, Plan, plan};

pub const START: &str = r#"
[job]
name = "law"
lengths = "mm"
duty = "standing"
[liquid]
kind = "water"
warmest = "23 degC"
years = "1 years"
[stock]
material = "HDPE"
[[stock.sheet]]
size = [3000, 1500]
thickness = 12
[shop]
process = "extrusion"
"#;

pub fn planned(rest: &str) -> Plan {
    let job = Job::parse(&format!("{START}\n{rest}")).unwrap_or_else(|it| panic!("{it:#?}"));
    plan(job, Depth::Whole).unwrap_or_else(|it| panic!("{it:#?}"))
}

/// The tank of a plan, to be checked by itself.
pub fn tank(plan: &Plan) -> Tank<'_> {
    Tank {
        job: &plan.job,
        body: &plan.body,
        panels: &plan.panels,
        seams: &plan.seams,
        compartments: &plan.compartments,
        progress: &Unwatched,
    }
}

pub fn whole(plan: &Plan) -> &Whole {
    plan.whole.as_ref().unwrap()
}

pub fn rest(plan: &Plan) -> &CaseRun {
    let cases = &whole(plan).cases;
    cases
        .iter()
        .find(|run| run.case.id.kind == LoadKind::Rest)
        .unwrap()
}
