//! Which changes are worked out for a tank that does not hold.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

use brimful_job::Job;
use brimful_panels::finding::kind::WeldKind;
use brimful_panels::finding::{Grade, Kind};
use brimful_tank::plan::{Depth, Plan, plan};
use brimful_tank::remedy::What;

fn planned(text: &str) -> Plan {
    let job = Job::parse(text).unwrap_or_else(|faults| panic!("{faults:#?}"));
    plan(job, Depth::Remedies).unwrap_or_else(|faults| panic!("{faults:#?}"))
}

const START: &str = r#"
[job]
lengths = "mm"
duty = "standing"
[liquid]
kind = "brine 10 %"
warmest = "25 degC"
years = "10 years"
[shop]
process = "extrusion"
[[opening]]
name = "vent"
service = "vent"
panel = "lid"
at = [750, 60]
diameter = 40
[[opening]]
name = "hatch"
service = "hatch"
panel = "lid"
at = [375, 350]
diameter = 300
[[opening]]
name = "hatch 2"
service = "hatch"
panel = "lid"
at = [1125, 350]
diameter = 300
"#;

/// A shallow box of 15 mm walls between a floor of 20 mm and a lid of 25: bands are tried, though it is wider than deep.
#[test]
fn bands_are_tried_on_a_shallow_tank() {
    let plan = planned(&format!(
        "{START}[body]\nbox = [1500, 700, 600]\nthickness = 15\nthicknesses = {{ lid = 25, floor = 20 }}\n"
    ));
    let mut tried = plan.remedies.tried.iter();
    let bands = tried.find(|it| matches!(&it.change.what, What::Bands { at, .. } if at.len() == 2));
    assert!(bands.is_some(), "{:#?}", plan.remedies.findings);
}

/// A baffle of 4 mm in a standing tank of 20 mm that holds without it.
fn with_thin_baffle(duty: &str) -> Plan {
    let text = START.replace("standing", duty);
    planned(&format!(
        "{text}[body]\nbox = [1500, 700, 600]\nthickness = 20\n[[inner]]\nname = \"middle\"\nkind = \"baffle\"\nacross = \"x\"\nat = 750\nthickness = 4\nair_gap = 400\ndrain_gap = 25\n"
    ))
}

#[test]
fn a_baffle_that_alone_is_over_is_left_out_of_a_standing_tank() {
    let plan = with_thin_baffle("standing");
    let first = plan.remedies.shown().next().unwrap();
    let names = vec!["middle".to_owned()];
    assert_eq!(first.change.what, What::WithoutBaffles { names });
    assert!(first.cures());
    assert!(first.change.job.inner.is_empty());
}

/// On the road it takes from the surge, which no load counts.
#[test]
fn a_baffle_stays_in_a_tank_on_the_road() {
    let plan = with_thin_baffle("road");
    assert!(!plan.remedies.tried.is_empty());
    let mut tried = plan.remedies.tried.iter();
    assert!(!tried.any(|it| matches!(it.change.what, What::WithoutBaffles { .. })));
}

/// A tank that bears everything, but neither from above nor from an end does hand or gun get to all of its divider.
fn divided(hatches: &str) -> Plan {
    let start = START.split("[[opening]]").next().unwrap();
    planned(&format!(
        "{start}[body]\nbox = [1300, 700, 400]\nthickness = 13\n[[stock.sheet]]\nsize = [3000, 1500]\nthickness = 13\n[[inner]]\nname = \"wall\"\nkind = \"divider\"\nacross = \"x\"\nat = 650\n{}{}{hatches}",
        vent(300),
        vent(1000)
    ))
}

fn vent(x: i64) -> String {
    format!(
        "[[opening]]\nname = \"vent {x}\"\nservice = \"vent\"\npanel = \"lid\"\nat = [{x}, 60]\ndiameter = 40\n"
    )
}

fn hatch(x: f64, diameter: f64) -> String {
    format!(
        "[[opening]]\nname = \"old {x}\"\nservice = \"hatch\"\npanel = \"lid\"\nat = [{x}, 380]\ndiameter = {diameter}\ncover = 15\n"
    )
}

#[test]
fn hatches_are_added_where_a_seam_cannot_be_laid() {
    for hatches in [String::new(), hatch(979.0, 100.0)] {
        let plan = divided(&hatches);
        let cannot = |plan: &Plan| {
            let mut findings = plan.findings.iter();
            findings.any(|it| matches!(it.kind, Kind::Weld(WeldKind::CannotBeLaid(_))))
        };
        assert!(cannot(&plan));
        let remedy = plan.remedies.shown().next().unwrap();
        let What::Hatches { at, instead, .. } = &remedy.change.what else {
            panic!("{:?}", remedy.change.what)
        };
        assert!(at.len() >= 2, "{at:?}");
        assert_eq!(instead.len(), usize::from(!hatches.is_empty()));
        let vents = remedy.change.job.openings.iter();
        let vents = vents.filter(|it| it.name.starts_with("vent"));
        assert_eq!(vents.count(), 2);
        assert!(remedy.cures(), "{:?}", remedy.breaks);
    }
}

/// With a hatch on either side nothing of the kind is tried.
#[test]
fn hatches_that_serve_are_left_alone() {
    let plan = divided(&(hatch(329.0, 520.0) + &hatch(979.0, 520.0)));
    let stops = plan.findings.iter().filter(|it| it.grade == Grade::Stop);
    assert!(
        stops
            .into_iter()
            .all(|it| !matches!(it.kind, Kind::Weld(_)))
    );
    assert!(plan.remedies.tried.is_empty());
}
