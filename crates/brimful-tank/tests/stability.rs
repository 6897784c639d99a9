//! What buckles is stopped, whatever path the load took.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

mod common;

use brimful_job::Job;
use brimful_panels::finding::kind::StrengthKind;
use brimful_panels::finding::{Finding, Kind};
use brimful_tank::plan::{Depth, plan};
use common::whole_tank::START;

/// A stay that has already bent out carries no more than one that is about to: by hand 57 N of a strip of 60 x 6 mm,
/// 430 mm long and clamped (Euler), which 1.45 kPa of suction put on it. It is stopped on both sides of that.
#[test]
fn a_bent_stay_has_buckled() {
    let told = |suction: &str| {
        let text = START.replace("warmest = \"23 degC\"", "warmest = \"20 degC\"");
        let text = format!(
            "{text}\n[body]\nbox = [450, 450, 550]\nthickness = 10\n[[opening]]\nservice = \"hatch\"\npanel = \"lid\"\nat = [225, 200]\ndiameter = 150\n[[inner]]\nname = \"stay\"\nkind = \"stay\"\nacross = \"x\"\nat = 225\nheight = 200\nwidth = 60\nthickness = 6\n[checks]\nsuction = \"{suction}\"\n"
        );
        let job = Job::parse(&text).unwrap_or_else(|it| panic!("{it:#?}"));
        let plan = plan(job, Depth::Whole).unwrap_or_else(|it| panic!("{it:#?}"));
        let buckles = |it: &Finding| {
            matches!(
                it.kind,
                Kind::Strength(StrengthKind::Buckles { .. } | StrengthKind::NoAnswer { .. })
            )
        };
        plan.findings.iter().any(buckles)
    };
    for suction in ["1 kPa", "1.4 kPa", "1.5 kPa", "1.6 kPa"] {
        assert!(told(suction), "{suction}");
    }
    assert!(!told("0.4 kPa"));
}
