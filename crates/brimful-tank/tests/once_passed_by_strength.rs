//! Loads that the whole-tank check once passed over, and must not again.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

use brimful_job::Job;
use brimful_panels::finding::kind::StrengthKind;
use brimful_panels::finding::{Finding, Grade, Kind};
use brimful_tank::plan::{Depth, Plan, plan};

fn planned(text: &str, depth: Depth) -> Plan {
    let job = Job::parse(text).unwrap_or_else(|faults| panic!("{faults:#?}"));
    plan(job, depth).unwrap_or_else(|faults| panic!("{faults:#?}"))
}

fn of_strength<'a>(
    plan: &'a Plan,
    is: impl Fn(&StrengthKind) -> bool + 'a,
) -> impl Iterator<Item = &'a Finding> {
    let findings = plan.findings.iter();
    findings.filter(move |it| matches!(&it.kind, Kind::Strength(kind) if is(kind)))
}

/// A box that is driven over rough ground, its events as said.
fn driven(events: &str) -> Plan {
    let start = r#"
[job]
lengths = "mm"
duty = "road"
[body]
box = [500, 300, 250]
thickness = 12
[liquid]
kind = "water"
warmest = "30 degC"
years = "10 years"
[shop]
process = "extrusion"
[support]
chocks = ["front", "rear", "left", "right"]
[[opening]]
name = "fill"
service = "fill"
panel = "lid"
at = [80, 150]
diameter = 30
[[opening]]
name = "hand hole"
service = "hatch"
panel = "lid"
at = [250, 150]
diameter = 150
cover = 12
"#;
    planned(&format!("{start}{events}"), Depth::Whole)
}

/// The same track in one event and in ten takes the same of a weld: ten times 2000 a day are 20000.
#[test]
fn an_event_in_ten_parts_takes_as_much() {
    let track = |number: usize, per_day: f64| {
        format!("[[event]]\nname = \"track {number}\"\ndown = 2.0\nper_day = {per_day}\n")
    };
    let stops = |plan: &Plan| {
        let over = |kind: &StrengthKind| {
            matches!(
                kind,
                StrengthKind::AddUp { .. }
                    | StrengthKind::WeldOverLimit { .. }
                    | StrengthKind::RootOpens { .. }
            )
        };
        of_strength(plan, over).any(|it| it.grade == Grade::Stop)
    };
    assert!(stops(&driven(&track(1, 20_000.0))), "one");
    let ten: String = (1..=10).map(|number| track(number, 2_000.0)).collect();
    assert!(stops(&driven(&ten)), "ten");
    assert!(!stops(&driven(&track(1, 2_000.0))), "a tenth");
}
