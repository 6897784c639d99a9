//! Every kind of joint, chosen and by rule, holds the proof of panels and lays out as it should.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

use brimful_job::Job;
use brimful_panels::panel::Role;
use brimful_panels::seam::Joint;
use brimful_tank::plan::{Depth, Plan, plan};

const START: &str = r#"
[job]
name = "joints"
lengths = "mm"
duty = "standing"
[liquid]
kind = "drinking water"
[stock]
material = "HDPE"
[[stock.sheet]]
size = [2000, 1000]
thickness = 10
[[opening]]
service = "vent"
panel = "lid"
at = [100, 100]
diameter = 30
"#;

fn planned(rest: &str) -> Plan {
    plan_with(START, rest)
}

fn plan_with(start: &str, rest: &str) -> Plan {
    let text = format!("{start}\n{rest}");
    let job = Job::parse(&text).unwrap_or_else(|faults| panic!("{faults:#?}"));
    let plan = plan(job, Depth::Quick).unwrap_or_else(|faults| panic!("{faults:#?}"));
    assert!(plan.proof.holds, "{:#?}\n{:#?}", plan.proof, plan.findings);
    for panel in &plan.panels {
        assert_eq!(
            panel.finished.solid_with_cutouts().faults(),
            [],
            "{}",
            panel.name
        );
    }
    plan
}

fn count(plan: &Plan, wanted: impl Fn(&Joint) -> bool) -> usize {
    plan.seams.iter().filter(|seam| wanted(&seam.joint)).count()
}

const BOX: &str = "[body]\nbox = [800, 500, 400]\nthickness = 10\n";

#[test]
fn by_rule_a_box_is_through_and_butt_all_round() {
    let plan = planned(BOX);
    assert_eq!(
        count(&plan, |joint| matches!(joint, Joint::ThroughAndButt { .. })),
        12
    );
    let lid = plan
        .panels
        .iter()
        .find(|panel| panel.role == Role::Lid)
        .unwrap();
    let (low, high) = lid.finished.bounds();
    assert!(((high.x - low.x) - 0.8).abs() < 1e-12 && ((high.y - low.y) - 0.5).abs() < 1e-12);
}

#[test]
fn an_open_corner_leaves_square_edges_whose_inner_corners_meet() {
    let plan = planned(&format!(
        "{BOX}[[body.joint]]\nbetween = [\"front\", \"left\"]\nkind = \"open corner\"\n"
    ));
    assert_eq!(count(&plan, |joint| *joint == Joint::OpenCorner), 1);
    // The groove takes a square of one thickness along the inner height, and the gap's strip.
    let closed = planned(BOX).proof.grooves.m3();
    let (t, gap) = (0.010, 0.001);
    let height = 0.4 - 2.0 * (t + gap);
    // Each sheet ends half a gap short of the inner corner instead of covering the corner.
    let open = t * t + 2.0 * t * gap / 2.0;
    let butt = t * gap;
    assert!((plan.proof.grooves.m3() - closed - (open - butt) * height).abs() < 1e-12);
}

#[test]
fn a_mitre_bevels_both_edges_to_half_the_angle() {
    let plan = planned(&format!(
        "{BOX}[[body.joint]]\nbetween = [\"front\", \"left\"]\nkind = \"mitred\"\n"
    ));
    let number = plan
        .seams
        .iter()
        .position(|seam| seam.joint == Joint::Mitred)
        .unwrap();
    for panel in plan.seams[number].panels {
        let plate = &plan.panels[panel].finished;
        let side = plate.loops[0]
            .iter()
            .find(|side| side.mark == Some(number))
            .unwrap();
        assert!((side.bevel(plate.thickness).to_degrees() - 45.0).abs() < 1e-9);
    }
}

#[test]
fn a_gentle_fold_is_mitred_by_rule() {
    let plan = planned(
        "[body]\nside = [[0, 0], [400, 0], [800, 100], [800, 400], [0, 400]]\nwidth = 500\nthickness = 10\n",
    );
    assert_eq!(count(&plan, |joint| *joint == Joint::Mitred), 1);
}

#[test]
fn tongues_fill_their_slots_and_reach_the_far_face() {
    let plan = planned(&format!(
        "{BOX}[[inner]]\nname = \"wall\"\nkind = \"divider\"\nacross = \"x\"\nat = 400\njoint = \"slot through\"\n{}",
        vent_at(600)
    ));
    let seams = count(&plan, |joint| *joint == Joint::SlotThrough);
    assert_eq!(seams, 4);
    let slots: usize = plan
        .panels
        .iter()
        .filter(|panel| !panel.role.is_inner())
        .map(|panel| panel.finished.cutouts.len() - panel.openings.len())
        .sum();
    // 380 mm and 480 mm long feet, a tongue at least every 200 mm: two up, three across, each twice.
    assert_eq!(slots, 2 * (2 + 3));
    let wall = plan
        .panels
        .iter()
        .find(|panel| panel.role == Role::Divider)
        .unwrap();
    let (low, high) = wall.finished.bounds();
    assert!(((high.x - low.x) - 0.5).abs() < 1e-9, "{}", high.x - low.x);
    assert!(((high.y - low.y) - 0.4).abs() < 1e-9);
}

fn vent_at(x: u32) -> String {
    format!("[[opening]]\nservice = \"vent\"\npanel = \"lid\"\nat = [{x}, 100]\ndiameter = 30\n")
}

#[test]
fn a_crossing_baffle_is_made_of_two() {
    let plan = planned(&format!(
        "{BOX}[[inner]]\nname = \"cross\"\nkind = \"baffle\"\nacross = \"x\"\nat = 400\n[[inner]]\nname = \"long\"\nkind = \"baffle\"\nacross = \"y\"\nat = 250\n"
    ));
    let names: Vec<String> = plan
        .panels
        .iter()
        .filter(|panel| panel.role == Role::Baffle)
        .map(|panel| panel.name.to_string())
        .collect();
    assert_eq!(names, ["cross", "long 1", "long 2"]);
    // Each half stands on an end and on the cross baffle.
    let on_cross = plan
        .panels
        .iter()
        .find(|panel| panel.name == *"cross")
        .unwrap();
    assert_eq!(on_cross.lands.len(), 2);
}

#[test]
fn a_divider_across_a_sloping_floor_is_bevelled_to_it() {
    let plan = planned(&format!(
        "[body]\nside = [[0, 0], [800, 150], [800, 400], [0, 400]]\nwidth = 500\nthickness = 10\n[[inner]]\nname = \"wall\"\nkind = \"divider\"\nacross = \"x\"\nat = 400\n{}",
        vent_at(600)
    ));
    let wall = plan
        .panels
        .iter()
        .find(|panel| panel.role == Role::Divider)
        .unwrap();
    let slope = (150.0f64 / 800.0).atan().to_degrees();
    let bevels: Vec<f64> = wall.finished.loops[0]
        .iter()
        .map(|side| side.bevel(0.010).to_degrees().abs())
        .collect();
    assert!(
        bevels.iter().any(|bevel| (bevel - slope).abs() < 1e-9),
        "{bevels:?}"
    );
    assert_eq!(plan.compartments.len(), 2);
}

#[test]
fn a_wall_taller_than_the_sheet_gets_a_level_butt_seam_high_up() {
    let plan = planned("[body]\nbox = [600, 480, 2120]\nthickness = 10\n");
    assert_eq!(count(&plan, |joint| *joint == Joint::Butt), 4);
    assert!(
        plan.cut
            .groups
            .iter()
            .all(|group| group.plan.left_out.is_empty())
    );
    let heights: Vec<f64> = plan
        .seams
        .iter()
        .filter(|seam| seam.joint == Joint::Butt)
        .map(|seam| seam.inner_line[0].z)
        .collect();
    assert!(heights.iter().all(|z| *z > 1.5), "{heights:?}");
    // Not in line all round.
    assert!(
        heights.iter().any(|z| (z - heights[0]).abs() > 0.05),
        "{heights:?}"
    );
    // The pieces are the walls less the gaps.
    let sheets = "size = [2000, 1000]";
    let whole = plan_with(
        &START.replace(sheets, "size = [3000, 1500]"),
        "[body]\nbox = [600, 480, 2120]\nthickness = 10\n",
    );
    let (t, gap) = (0.010, 0.001);
    let widths = 2.0 * (0.6 + 0.48 - 2.0 * (t + gap));
    let lost = whole.proof.outer_panels.m3() - plan.proof.outer_panels.m3();
    assert!((lost - widths * t * gap).abs() < 1e-12, "{lost}");
}

#[test]
fn an_l_has_one_re_entrant_seam_and_stop_holes() {
    let plan = planned(
        "[body]\nplan = [[0, 0], [800, 0], [800, 300], [400, 300], [400, 600], [0, 600]]\nheight = 300\nthickness = 10\n",
    );
    assert_eq!(
        plan.seams
            .iter()
            .filter(|seam| seam.is_re_entrant())
            .count(),
        1
    );
    let holed = plan
        .panels
        .iter()
        .filter(|panel| panel.reliefs.len() == 1)
        .count();
    assert_eq!(holed, 2);
}
