//! What a job leaves to be chosen is chosen by the whole-tank check, and the choice is the cheapest
//! that holds.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

use brimful_job::Job;
use brimful_panels::finding::kind::RemedyKind;
use brimful_panels::finding::{Finding, Kind};
use brimful_tank::plan::{Depth, Plan, plan};
use brimful_tank::remedy::AutoResult;
use brimful_units::Length;

/// The lid is welded from both sides through a hatch in its middle.
fn planned(body: &str, depth: Depth) -> Plan {
    planned_with_hatches(body, &[300], depth)
}

fn planned_with_hatches(body: &str, middles: &[u32], depth: Depth) -> Plan {
    let hatch = |middle: &u32| {
        format!(
            "[[opening]]\nservice = \"hatch\"\npanel = \"lid\"\nat = [{middle}, 160]\ndiameter = 150\n"
        )
    };
    let hatches: String = middles.iter().map(hatch).collect();
    let job = format!(
        r#"
[job]
name = "auto"
lengths = "mm"
duty = "standing"
[liquid]
kind = "water"
warmest = "25 degC"
years = "10 years"
[stock]
material = "HDPE"
[[stock.sheet]]
size = [3000, 1500]
thickness = 10
[[stock.sheet]]
size = [3000, 1500]
thickness = 4
[[stock.sheet]]
size = [3000, 1500]
thickness = 6
[shop]
process = "extrusion"
reach = 2000
{hatches}{body}"#
    );
    let job = Job::parse(&job).unwrap_or_else(|it| panic!("{it:#?}"));
    plan(job, depth).unwrap_or_else(|it| panic!("{it:#?}"))
}

fn sheet(plan: &Plan) -> Length {
    plan.body.faces[0].thickness
}

fn auto(plan: &Plan) -> &Finding {
    let is_it = |it: &&Finding| matches!(it.kind, Kind::Remedy(RemedyKind::AutoSelected { .. }));
    plan.findings.iter().find(is_it).unwrap()
}

#[test]
fn the_thinnest_sheet_that_holds_is_taken() {
    let body = "[body]\nbox = [470, 280, 230]\nthickness = ";
    let chosen = planned(&format!("{body}\"auto\""), Depth::Whole);
    assert_eq!(sheet(&chosen), Length::from_mm(6.0), "{:#?}", auto(&chosen));
    assert!(chosen.whole.as_ref().unwrap().holds());
    let thinner = planned(&format!("{body}4"), Depth::Whole);
    assert!(!thinner.whole.as_ref().unwrap().holds());
    let used = |used: &brimful_job::DefaultUsed| used.key == "body.thickness";
    assert!(chosen.defaults.iter().any(used));
    // A draft takes the thickest and leaves the choice open.
    let draft = planned(&format!("{body}\"auto\""), Depth::Quick);
    assert_eq!(sheet(&draft), Length::from_mm(10.0));
}

/// A hatch for each bay of two baffles.
const BAYS: [u32; 3] = [250, 750, 1250];

#[test]
fn baffles_are_added_until_it_holds() {
    let body = |inner: &str| {
        format!(
            "[body]\nbox = [1500, 400, 450]\nthickness = 10\nthicknesses = {{ lid = 12, floor = 12 }}\n[[inner]]\nname = \"b\"\nkind = \"baffle\"\n{inner}"
        )
    };
    let chosen = planned_with_hatches(&body("at = \"auto\""), &BAYS, Depth::Whole);
    let baffles = chosen
        .panels
        .iter()
        .filter(|it| it.role == brimful_panels::panel::Role::Baffle);
    let count = baffles.count();
    assert!(
        chosen.whole.as_ref().unwrap().holds(),
        "{:#?}",
        auto(&chosen)
    );
    assert!(count > 1, "{:#?}", auto(&chosen));
    let rule = planned_with_hatches(&body("across = \"x\"\nat = 750"), &BAYS, Depth::Whole);
    assert!(!rule.whole.as_ref().unwrap().holds());
}

#[test]
fn where_nothing_holds_it_is_said_and_stopped() {
    let body = "[body]\nbox = [1400, 900, 1200]\nthickness = \"auto\"";
    let plan = planned(body, Depth::Whole);
    let Kind::Remedy(RemedyKind::AutoSelected { tried, .. }) = &auto(&plan).kind else {
        panic!("{:?}", auto(&plan));
    };
    assert!(tried.iter().all(|(_, result)| *result != AutoResult::Holds));
    assert_eq!(sheet(&plan), Length::from_mm(10.0));
    assert!(plan.stops());
}
