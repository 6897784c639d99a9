//! Openings that are not round, judged by their own edges.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

use brimful_job::Job;
use brimful_panels::finding::kind::{FillingKind, PanelsKind, PracticeKind};
use brimful_panels::finding::{Figures, Finding, Grade, Kind, Quantity};
use brimful_tank::plan::{Depth, Plan, plan};

/// A box of 10 mm sheet whose lid is 400 x 200 mm, with openings in it.
fn with(openings: &str) -> Plan {
    let job = Job::parse(&format!(
        "[job]\nlengths = \"mm\"\nduty = \"standing\"\n[liquid]\nkind = \"water\"\n\
         [body]\nbox = [400, 200, 200]\nthickness = 10\n{openings}"
    ));
    let job = job.unwrap_or_else(|faults| panic!("{faults:?}"));
    plan(job, Depth::Quick).unwrap_or_else(|faults| panic!("{faults:?}"))
}

fn near_weld(plan: &Plan) -> Option<&Finding> {
    plan.findings.iter().find(|it| {
        let (hole, flange) = (
            matches!(it.kind, Kind::Panels(PanelsKind::HoleInWeld { .. })),
            matches!(it.kind, Kind::Panels(PanelsKind::FlangeNearWeld { .. })),
        );
        hole || flange
    })
}

#[track_caller]
fn mm(figures: Option<Figures>, figure: f64, limit: f64) {
    let Some(Figures {
        figure: Quantity::Length(is),
        limit: Quantity::Length(most),
    }) = figures
    else {
        panic!("{figures:?}");
    };
    // Rounding of a few sums.
    assert!(
        (is.mm() - figure).abs() < 1e-9 && (most.mm() - limit).abs() < 1e-9,
        "{figures:?}"
    );
}

/// In the middle of the lid, which runs over walls of 10 mm: half its diagonal is 158 mm, and its long edges are
/// 40 mm off the inside of the walls.
#[test]
fn a_rectangle_is_as_far_from_a_seam_as_its_edges_are() {
    let hatch = |height: f64| {
        with(&format!(
            "[[opening]]\nservice = \"hatch\"\npanel = \"lid\"\nat = [200, 100]\nwidth = 300\nheight = {height}\n"
        ))
    };
    assert_eq!(near_weld(&hatch(100.0)), None);
    assert_eq!(near_weld(&hatch(160.0)), None);
    let mend = hatch(164.0);
    let mend = near_weld(&mend).unwrap();
    assert_eq!(mend.grade, Grade::Mend);
    mm(mend.figures, 8.0, 10.0);
    let stop = hatch(172.0);
    let stop = near_weld(&stop).unwrap();
    assert_eq!(stop.grade, Grade::Stop);
    mm(stop.figures, 4.0, 5.0);
}

#[test]
fn a_round_one_is_as_far_as_its_rim() {
    let round = |y: f64, flange: f64| {
        with(&format!(
            "[[opening]]\nservice = \"vent\"\npanel = \"lid\"\nat = [200, {y}]\ndiameter = 40\nflange = {flange}\n"
        ))
    };
    assert_eq!(near_weld(&round(55.0, 70.0)), None);
    let mend = round(54.0, 70.0);
    mm(near_weld(&mend).unwrap().figures, 9.0, 10.0);
    let stop = round(34.0, 70.0);
    let stop = near_weld(&stop).unwrap();
    assert_eq!(stop.grade, Grade::Stop);
    mm(stop.figures, 4.0, 5.0);
}

/// A hole over the edge of the wall under it, and one wholly in it, are in the weld.
#[test]
fn a_hole_over_a_wall_is_in_its_weld() {
    for (at, diameter) in [("[200, 26]", 40), ("[200, 5]", 6), ("[6, 100]", 8)] {
        let plan = with(&format!(
            "[[opening]]\nservice = \"vent\"\npanel = \"lid\"\nat = {at}\ndiameter = {diameter}\n"
        ));
        let found = near_weld(&plan).unwrap();
        assert_eq!(found.grade, Grade::Stop, "{at}");
    }
}

#[test]
fn a_rectangle_stands_clear_of_a_divider_by_its_edge() {
    let divider = "[[inner]]\nname = \"wall\"\nkind = \"divider\"\nacross = \"x\"\nat = 200\nthickness = 10\n";
    let slot = |x: f64| {
        with(&format!(
            "{divider}[[opening]]\nservice = \"hatch\"\npanel = \"lid\"\nat = [{x}, 100]\nwidth = 60\nheight = 140\n"
        ))
    };
    // Its near edge is 15 mm off the divider's face: 50 off its middle, less 30 and 5.
    assert_eq!(near_weld(&slot(150.0)), None);
    let mend = slot(158.0);
    mm(near_weld(&mend).unwrap().figures, 7.0, 10.0);
}

#[test]
fn a_slot_lets_out_what_its_hydraulic_diameter_does() {
    let vent = |height: f64| {
        let plan = with(&format!(
            "[[opening]]\nservice = \"fill\"\npanel = \"lid\"\nat = [80, 100]\ndiameter = 40\n\
             [[opening]]\nservice = \"vent\"\npanel = \"lid\"\nat = [250, 100]\nwidth = 100\nheight = {height}\n"
        ));
        let kind = Kind::Practice(PracticeKind::Filling(FillingKind::SmallVent));
        plan.findings
            .iter()
            .find(|it| it.kind == kind)
            .map(|it| it.figures)
    };
    // 2 * 100 * 5 / 105 = 9.52 mm, and 2 * 100 * 30 / 130 = 46.2 mm.
    mm(vent(5.0).unwrap(), 2.0 * 100.0 * 5.0 / 105.0, 40.0);
    assert_eq!(vent(30.0), None);
}
