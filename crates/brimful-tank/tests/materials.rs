//! Tanks of other sheet than HDPE.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

mod common;

use brimful_job::Job;
use brimful_panels::finding::kind::{PracticeKind, StrengthKind};
use brimful_panels::finding::{Finding, Grade, Kind};
use brimful_tank::plan::{Depth, plan};
use common::whole_tank::{START, rest, whole};

/// By hand: a wall of a cube of PVC-U, 0.29 m wide and deep, held by its like at its sides, gets
/// 6 x 0.0334 p b^2 / t^2 = 0.74 MPa at its foot if it is clamped there too (Timoshenko and
/// Woinowsky-Krieger, hydrostatic load on a clamped square, from memory). A strain of 0.4 % of 1783 MPa, the
/// modulus after a year, allows 7.1 MPa. With an extruder nothing is known of it.
#[test]
fn pvc_is_checked_by_hot_gas_alone() {
    let body = "[body]\nbox = [300, 300, 300]\nthickness = 8\n";
    let of = |process: &str| {
        let start = START
            .replace("HDPE", "PVC-U")
            .replace("thickness = 12", "thickness = 8")
            .replace("extrusion", process);
        let job = Job::parse(&format!("{start}{body}")).unwrap();
        plan(job, Depth::Whole).unwrap()
    };
    let known = of("hot gas");
    let run = rest(&known);
    let mut panels = known.panels.iter();
    let front = panels.position(|it| it.name.to_string() == "front");
    let front = front.unwrap();
    let stress = run.figures.panels[front].stress;
    assert!((0.8..1.2).contains(&(stress / 0.74e6)), "{stress}");
    let allowed = run.limits.of_panel(front).sheet;
    assert!((allowed.mpa() / 7.1 - 1.0).abs() < 0.02, "{allowed:?}");
    let stops = known.findings.iter().filter(|it| it.grade == Grade::Stop);
    let stops: Vec<&Finding> = stops
        .filter(|it| matches!(it.kind, Kind::Strength(_)))
        .collect();
    assert!(stops.is_empty(), "{stops:?}");
    let unknown = of("extrusion");
    let is_said =
        |it: &Finding| matches!(&it.kind, Kind::Strength(StrengthKind::CaseNotCovered(_)));
    assert!(whole(&unknown).findings.iter().any(is_said));
}

/// PP is brittle below 0 degC, and by its make up to 5: on the road the one stops and the other is reported; of a tank that
/// stands the first is reported.
#[test]
fn pp_on_the_road_is_at_its_limit_just_above_freezing() {
    let told = |duty: &str, coldest: &str| {
        let job = format!(
            "[job]\nlengths = \"mm\"\nduty = \"{duty}\"\n[body]\nbox = [300, 300, 300]\nthickness = 8\n[liquid]\nkind = \"water\"\ncoldest = \"{coldest}\"\n[stock]\nmaterial = \"PP\"\n"
        );
        let plan = plan(Job::parse(&job).unwrap(), Depth::Quick).unwrap();
        let grade = |it: &Finding| match it.kind {
            Kind::Practice(PracticeKind::Brittle { .. } | PracticeKind::NearlyBrittle) => {
                Some(it.grade)
            }
            _ => None,
        };
        plan.findings.iter().find_map(grade)
    };
    assert_eq!(told("road", "-1 degC"), Some(Grade::Stop));
    assert_eq!(told("road", "1 degC"), Some(Grade::Mend));
    assert_eq!(told("road", "5 degC"), None);
    assert_eq!(told("standing", "-1 degC"), Some(Grade::Mend));
    assert_eq!(told("standing", "1 degC"), None);
}
