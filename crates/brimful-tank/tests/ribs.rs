//! Ribs and stays: volumes, seams, masses and welds against closed forms by hand, and what cannot
//! be made.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

use brimful_job::{Conflict, FaultKind, InnerKind, Job, JobFault, Missing};
use brimful_panels::finding::kind::{SpaceKind, TankPart};
use brimful_panels::finding::{Finding, Grade, Kind, Subject};
use brimful_panels::panel::{Panel, Role};
use brimful_panels::seam::{Joint, Seam};
use brimful_panels::shape::{
    BodyFault, InnerFault, OpeningFault, RibBand, RibFault, ShapeFault, ShapeFaultKind,
};
use brimful_panels::table::material::Material;
use brimful_panels::weld::WeldSide;
use brimful_panels::weld::groove::GrooveKind;
use brimful_panels::weld::order::Work;
use brimful_tank::plan::{Depth, Plan, plan};
use std::f64::consts::SQRT_2;

const START: &str = r#"
[job]
name = "stiffened"
lengths = "mm"
duty = "standing"
[liquid]
kind = "drinking water"
[stock]
material = "HDPE"
[[stock.sheet]]
size = [2000, 1000]
thickness = 10
[[stock.rod]]
diameter = 4
[shop]
gap = 1
"#;

const BOX: &str = "[body]\nbox = [800, 500, 600]\nthickness = 10\n";
const BANDS: &str = "[[rib]]\nname = \"hoop\"\nheights = [150, 300, 450]\ndepth = 60\n";
const STAYS: &str = "[[inner]]\nname = \"low\"\nkind = \"stay\"\nacross = \"x\"\nat = 400\nheight = 200\nwidth = 60\n\
    [[inner]]\nname = \"flat\"\nkind = \"stay\"\nacross = \"x\"\nat = 400\nheight = 400\nwidth = 80\nlies = true\n";
/// Thickness, gap and depth of the bands, metres.
const T: f64 = 0.010;
const G: f64 = 0.001;
const D: f64 = 0.060;

fn tried(rest: &str) -> Result<Plan, Vec<ShapeFault>> {
    let job = Job::parse(&format!("{START}\n{rest}")).unwrap_or_else(|it| panic!("{it:#?}"));
    plan(job, Depth::Quick)
}

fn planned(rest: &str) -> Plan {
    let plan = tried(rest).unwrap_or_else(|faults| panic!("{faults:#?}"));
    assert!(plan.proof.holds, "{:#?}\n{:#?}", plan.proof, plan.findings);
    for panel in &plan.panels {
        let solid = panel.finished.solid_with_cutouts();
        assert_eq!(solid.faults(), [], "{}", panel.name);
    }
    plan
}

fn of_role(plan: &Plan, role: Role) -> Vec<&Panel> {
    let panels = plan.panels.iter();
    panels.filter(|panel| panel.role == role).collect()
}

fn volume(panels: &[&Panel]) -> f64 {
    let solids = panels.iter().map(|panel| panel.finished.solid());
    solids.map(|solid| solid.moments().volume).sum()
}

/// Seams of the panels of a role, by joint.
fn seams(plan: &Plan, role: Role, joint: Joint) -> Vec<&Seam> {
    let of = |seam: &&Seam| plan.panels[seam.panels[0]].role == role && seam.joint == joint;
    plan.seams.iter().filter(of).collect()
}

#[track_caller]
fn same(ours: f64, by_hand: f64) {
    assert!((ours - by_hand).abs() < 1e-12, "{ours} against {by_hand}");
}

/// A strip between two square corners is a trapezium: at `y` from the wall it is `2 y` longer than
/// the wall, less half a gap square to the mitre at either end, which is `sqrt(2) g` along it.
fn strip(wall: f64) -> f64 {
    (D - G) * T * (wall + (D + G) - SQRT_2 * G)
}

#[test]
fn bands_and_stays_on_a_box_are_those_reckoned_by_hand() {
    let plan = planned(&format!("{BOX}{BANDS}{STAYS}"));
    let ribs = of_role(&plan, Role::Rib);
    assert_eq!(ribs.len(), 12);
    let of_ribs = 3.0 * 2.0 * (strip(0.8) + strip(0.5));
    same(volume(&ribs), of_ribs);
    same(plan.proof.ribs.m3(), of_ribs);
    let stays = of_role(&plan, Role::Stay);
    assert_eq!(stays.len(), 2);
    let of_stays = (0.48 - 2.0 * G) * T * (0.06 + 0.08);
    same(volume(&stays), of_stays);
    // Lid and floor run through, then the longer walls.
    let upright = 0.6 - 2.0 * (T + G);
    let outer = 2.0 * T * (0.8 * 0.5 + 0.8 * upright + (0.5 - 2.0 * (T + G)) * upright);
    same(plan.proof.outer_panels.m3(), outer);
    let density = Material::of("HDPE")
        .unwrap()
        .density()
        .unwrap()
        .value
        .kg_m3();
    same(
        plan.mass.panels.kg(),
        density * (outer + of_ribs + of_stays),
    );
    // Once welded, rod fills the gaps at the stays' ends; ribs take nothing off the liquid.
    let brim = 0.78 * 0.48 * 0.58 - 0.48 * T * (0.06 + 0.08);
    assert!((plan.capacity.brim().m3() - brim).abs() < 1e-9);
}

#[test]
fn seams_of_bands_and_stays_are_those_reckoned_by_hand() {
    let plan = planned(&format!("{BOX}{BANDS}{STAYS}"));
    let tees = seams(&plan, Role::Rib, Joint::Tee);
    assert_eq!(tees.len(), 12);
    let foot = |wall: f64| wall + 2.0 * G - SQRT_2 * G;
    let length = |seams: &[&Seam]| seams.iter().map(|seam| seam.length().m()).sum::<f64>();
    same(length(&tees), 3.0 * 2.0 * (foot(0.8) + foot(0.5)));
    let mitres = seams(&plan, Role::Rib, Joint::Butt);
    assert_eq!(mitres.len(), 12);
    same(length(&mitres), 12.0 * SQRT_2 * (D - G));
    for seam in &mitres {
        assert!(
            seam.panels
                .iter()
                .all(|&it| plan.panels[it].role == Role::Rib)
        );
    }
    for seam in &tees {
        let wall = &plan.panels[seam.panels[1]];
        assert_eq!(wall.role, Role::Wall);
        let face = wall.finished.frame.plane();
        assert!(
            seam.inner_line
                .iter()
                .all(|p| face.distance(*p).abs() < 1e-12)
        );
        let heights = seam.inner_line.map(|p| (p.z * 1e6).round());
        assert!(heights[0] == heights[1] && [15e4, 30e4, 45e4].contains(&heights[0]));
    }
    let feet = seams(&plan, Role::Stay, Joint::Tee);
    assert_eq!(feet.len(), 4);
    same(length(&feet), 2.0 * (0.06 + 0.08));
}

#[test]
fn bands_are_welded_outside_on_the_finished_box() {
    let plan = planned(&format!("{BOX}{BANDS}{STAYS}"));
    let of_rib = |seam: usize| plan.panels[plan.seams[seam].panels[0]].role == Role::Rib;
    let of_ribs = plan.welds.welds.iter().filter(|weld| of_rib(weld.seam));
    let (fillets, butts): (Vec<_>, Vec<_>) =
        of_ribs.partition(|weld| weld.kind == GrooveKind::Fillet);
    assert_eq!(fillets.len(), 24, "above and below each strip");
    assert_eq!(butts.len(), 24, "a double V at each corner");
    for weld in fillets.iter().chain(&butts) {
        assert_eq!(weld.side, WeldSide::Outside);
        assert_eq!(weld.length.m(), plan.seams[weld.seam].length().m());
        assert!(weld.rod_mass.kg() > 0.0 && weld.runs > 0);
    }
    let sets = plan
        .order
        .steps
        .iter()
        .filter(|step| step.work == Work::Set);
    let roles: Vec<Role> = sets.map(|step| plan.panels[step.panels[0]].role).collect();
    assert_eq!(roles.len(), plan.panels.len());
    assert!(
        roles[roles.len() - 12..]
            .iter()
            .all(|role| *role == Role::Rib)
    );
    let last = plan.order.steps.last().unwrap();
    assert_eq!(last.work, Work::WeldOutside);
    assert!(last.seams.len() == 24 && last.seams.iter().all(|&seam| of_rib(seam)));
    // Every strip is cut from the stock.
    let blanks = plan.cut.groups.iter().flat_map(|group| &group.blanks);
    assert_eq!(blanks.count(), plan.panels.len());
}

/// Of the six corners of an L five are convex; each adds to a strip's length what a re-entrant one
/// takes off.
#[test]
fn bands_round_an_inside_corner_are_mitred_there_too() {
    let plan = planned(&format!(
        "[body]\nplan = [[0, 0], [800, 0], [800, 300], [400, 300], [400, 600], [0, 600]]\nheight = 400\nthickness = 10\n{}",
        "[[rib]]\nheights = [200]\ndepth = 60\n"
    ));
    let ribs = of_role(&plan, Role::Rib);
    assert_eq!(ribs.len(), 6);
    let walls = 2.0 * (0.8 + 0.6);
    let by_hand = (D - G) * T * (walls + (5.0 - 1.0) * (D + G) - 6.0 * SQRT_2 * G);
    same(volume(&ribs), by_hand);
    assert_eq!(seams(&plan, Role::Rib, Joint::Butt).len(), 6);
}

#[test]
fn a_band_on_some_walls_ends_flush_or_against_the_next() {
    let body = "[body]\nplan = [[0, 0], [800, 0], [800, 300], [400, 300], [400, 600], [0, 600]]\nheight = 400\nthickness = 10\n";
    let rib = "[[rib]]\nheights = [200]\ndepth = 60\npanels = [\"left 2\"]\n";
    let plan = planned(&format!("{body}{rib}"));
    let [rib] = of_role(&plan, Role::Rib)[..] else {
        panic!("one strip")
    };
    // Flush at the convex corner; the gap from the wall it stands against at the other.
    same(volume(&[rib]), (D - G) * T * (0.4 - G));
    let tees = seams(&plan, Role::Rib, Joint::Tee);
    assert_eq!(tees.len(), 2);
    let mut lengths: Vec<f64> = tees.iter().map(|seam| seam.length().m()).collect();
    lengths.sort_by(f64::total_cmp);
    same(lengths[0], D - G);
    same(lengths[1], 0.4 - G);
}

#[test]
fn a_band_longer_than_any_sheet_is_parted() {
    let plan = planned(
        "[body]\nbox = [2400, 500, 400]\nthickness = 10\n[[rib]]\nheights = [200]\ndepth = 60\n",
    );
    assert_eq!(of_role(&plan, Role::Rib).len(), 6);
    let butts = seams(&plan, Role::Rib, Joint::Butt);
    assert_eq!(butts.len(), 4 + 2);
    let longest = of_role(&plan, Role::Rib).into_iter().map(|panel| {
        let (low, high) = panel.cut.bounds();
        high.x - low.x
    });
    assert!(longest.fold(0.0, f64::max) < 2.0);
}

#[test]
fn bands_must_stay_in_the_space() {
    let space = "[space]\nbox = [900, 600, 700]\nclearance = 10\n";
    let at = "[body]\nbox = [800, 500, 600]\nat = [50, 50, 0]\nthickness = 10\n";
    let told = |depth: f64| {
        let rib = format!("[[rib]]\nname = \"hoop\"\nheights = [300]\ndepth = {depth}\n");
        let plan = planned(&format!("{space}{at}{rib}"));
        let of_room = |it: &Finding| matches!(it.kind, Kind::Space(_));
        plan.findings.into_iter().find(of_room)
    };
    assert!(told(39.0).is_none());
    let near = told(45.0).unwrap();
    assert_eq!(near.grade, Grade::Stop);
    let tank = TankPart::BodyWithRibs;
    assert_eq!(near.kind, SpaceKind::TooLittleKept { tank }.into());
    let Subject::Panels(strips) = near.subject else {
        panic!("{near:?}")
    };
    for wall in ["hoop front", "hoop rear", "hoop left", "hoop right"] {
        assert!(strips.iter().any(|name| name == wall), "{strips:?}");
    }
    let past = told(55.0).unwrap().kind;
    let Kind::Space(SpaceKind::OutOfSpace {
        past: Some(past), ..
    }) = past
    else {
        panic!("{past:?}")
    };
    assert!((past.mm() - 5.0).abs() < 1e-6, "{past:?}");
}

#[track_caller]
fn fault(rest: &str, is: impl Fn(&ShapeFaultKind) -> bool) {
    let faults = tried(rest).expect_err("no fault");
    let found = faults.iter().find(|fault| is(&fault.kind));
    let fault = found.unwrap_or_else(|| panic!("{faults:#?}"));
    assert!(fault.place.line > 0, "{fault:#?}");
}

fn no_rib(is: impl Fn(&RibFault) -> bool) -> impl Fn(&ShapeFaultKind) -> bool {
    move |kind| matches!(kind, ShapeFaultKind::Rib { why, .. } if is(why))
}

#[test]
fn what_cannot_be_made_is_told() {
    let rib = |keys: &str| format!("{BOX}[[rib]]\nname = \"hoop\"\n{keys}\n");
    fault(
        &rib("heights = [598]\ndepth = 60"),
        no_rib(|why| matches!(why, RibFault::AcrossCorner(_))),
    );
    fault(
        &rib("heights = [700]\ndepth = 60"),
        no_rib(|why| *why == RibFault::NoWall),
    );
    fault(
        &rib("heights = [300]\ndepth = 60\npanels = [\"frnt\"]"),
        |kind| matches!(kind, ShapeFaultKind::Body(BodyFault::UnknownFace { name, .. }) if name == "frnt"),
    );
    fault(
        &rib("heights = [300]\ndepth = 60\npanels = [\"lid\"]"),
        no_rib(|why| matches!(why, RibFault::NotUpright(face) if face == "lid")),
    );
    let no_room = || no_rib(|why| matches!(why, RibFault::NoRoom(_)));
    fault(&rib("heights = [300]\ndepth = 1"), no_room());
    let first = |rib: &RibBand| rib.name == "hoop" && rib.band == Some(1);
    fault(
        &rib("heights = [300, 305]\ndepth = 60"),
        no_rib(|why| matches!(why, RibFault::IntoRib { rib, .. } if first(rib))),
    );
    let leaning =
        "[body]\nside = [[0, 0], [800, 0], [900, 600], [0, 600]]\nwidth = 500\nthickness = 10\n";
    fault(
        &format!("{leaning}[[rib]]\nheights = [300]\ndepth = 60\npanels = [\"front\"]\n"),
        no_rib(|why| matches!(why, RibFault::NotUpright(face) if face == "front")),
    );
    let notch = "[body]\nplan = [[0, 0], [800, 0], [800, 500], [450, 500], [450, 300], [350, 300], [350, 500], [0, 500]]\nheight = 400\nthickness = 10\n";
    fault(
        &format!("{notch}[[rib]]\nheights = [200]\ndepth = 60\n"),
        no_room(),
    );
    fault(
        &format!(
            "{BOX}[[rib]]\nheights = [300]\ndepth = 60\n[[opening]]\nservice = \"draw\"\npanel = \"front\"\nat = [250, 315]\ndiameter = 25\nflange = 60\n"
        ),
        |kind| {
            matches!(
                kind,
                ShapeFaultKind::Opening {
                    why: OpeningFault::AcrossSeam { .. },
                    ..
                }
            )
        },
    );
    let stay = |keys: &str| format!("{BOX}[[inner]]\nkind = \"stay\"\nacross = \"x\"\n{keys}\n");
    let no_stay = |is: InnerFault| move |kind: &ShapeFaultKind| matches!(kind, ShapeFaultKind::Inner { why, .. } if *why == is);
    fault(
        &stay("at = 400\nheight = 590\nwidth = 60"),
        no_stay(InnerFault::OutsideOrInPanel),
    );
    fault(
        &stay("at = 400\nheight = 300\nwidth = 60\nspan = [100, 490]"),
        no_stay(InnerFault::FreeStay),
    );
}

#[test]
fn keys_that_nobody_knows_are_refused() {
    let refused = |rest: &str, is_it: &dyn Fn(&JobFault) -> bool| {
        let faults = Job::parse(&format!("{START}{BOX}{rest}")).unwrap_err();
        assert!(faults.iter().any(is_it), "{faults:#?}");
    };
    let missing = |key: &'static str| move |it: &JobFault| matches!(it.kind, FaultKind::Missing(Missing::Key { key: k, .. }) if k == key);
    let conflict =
        |conflict: Conflict| move |it: &JobFault| it.kind == FaultKind::Conflict(conflict);
    let stay = "[[inner]]\nkind = \"stay\"\nacross = \"x\"\nat = 400\nheight = 300\n";
    refused("[[rib]]\nheights = [300]\ndepht = 60\n", &|it| {
        it.nearest.as_deref() == Some("depth")
    });
    refused("[[rib]]\nheights = 300\ndepth = 60\n", &|it| {
        it.path == "rib[1].heights"
    });
    refused("[[rib]]\nheights = []\ndepth = 60\n", &|it| {
        matches!(it.kind, FaultKind::WrongCount { least: 1, .. })
    });
    refused("[[rib]]\nheights = [300]\n", &missing("depth"));
    refused(stay, &missing("width"));
    refused(
        "[[inner]]\nkind = \"stay\"\nat = \"auto\"\nheight = 300\nwidth = 60\n",
        &conflict(Conflict::StayByRule),
    );
    let kind = InnerKind::Stay;
    refused(
        &format!("{stay}width = 60\nair_gap = 20\n"),
        &conflict(Conflict::NoOpenings { kind }),
    );
    refused(
        "[[inner]]\nkind = \"baffle\"\nacross = \"x\"\nat = 400\nheight = 300\n",
        &conflict(Conflict::NotAStrip),
    );
}
