//! Tanks that were once passed, or told a wrong figure, and must not be again.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

use brimful_job::Job;
use brimful_panels::finding::kind::{
    Bearing, PracticeKind, Push, QuickKind, Rule, SpaceKind, StrengthKind, TankPart, Uncovered,
    WeldKind,
};
use brimful_panels::finding::{Finding, Grade, Kind};
use brimful_panels::name::HoleName;
use brimful_panels::panel::Role;
use brimful_panels::shape::{OpeningFault, ShapeFault, ShapeFaultKind};
use brimful_tank::plan::{Depth, Plan, plan};
use brimful_units::Density;

const START: &str = r#"
[job]
name = "once passed"
lengths = "mm"
duty = "standing"
[liquid]
kind = "drinking water"
warmest = "20 degC"
[stock]
material = "HDPE"
[[stock.sheet]]
size = [3000, 1500]
thickness = 12
[shop]
process = "extrusion"
[[opening]]
service = "vent"
panel = "lid"
at = [100, 100]
diameter = 40
[[opening]]
service = "hatch"
panel = "lid"
at = [200, 150]
diameter = 110
"#;

fn planned(rest: &str) -> Plan {
    let text = format!("{START}\n{rest}");
    let job = Job::parse(&text).unwrap_or_else(|faults| panic!("{faults:#?}"));
    plan(job, Depth::Quick).unwrap_or_else(|faults| panic!("{faults:#?}"))
}

#[track_caller]
fn stops(plan: &Plan, kind: impl Into<Kind>) {
    let kind = kind.into();
    let found = |it: &Finding| it.grade == Grade::Stop && it.kind == kind;
    assert!(plan.findings.iter().any(found), "{:#?}", plan.findings);
}

/// A draft leaves it to the whole-tank check, and has no verdict until then.
#[track_caller]
fn is_not_checked_yet(plan: &Plan, kind: QuickKind) {
    let kind = Kind::Quick(kind);
    let found = |it: &Finding| it.grade == Grade::Mend && it.kind == kind;
    assert!(plan.findings.iter().any(found), "{:#?}", plan.findings);
    assert!(!plan.is_checked());
}

const BOX: &str = "[body]\nbox = [400, 300, 260]\nthickness = 12\n";

const DRAW: &str = "[[opening]]\nservice = \"draw\"\npanel = \"front\"\nat = [138, 36]\ndiameter = 27\nflange = 40\n";

#[test]
fn a_welded_baffle_without_openings_seals_a_bay() {
    let plan = planned(&format!(
        "{BOX}{DRAW}[[inner]]\nname = \"wall\"\nkind = \"baffle\"\nacross = \"x\"\nat = 330\nair_gap = 0\ndrain_gap = 0\n"
    ));
    stops(&plan, PracticeKind::BayClosed);
}

#[test]
fn no_liquid_runs_through_a_welded_foot() {
    let baffle = "[[inner]]\nname = \"wall\"\nkind = \"baffle\"\nacross = \"x\"\nat = 330\nair_gap = 40\ndrain_gap = 0\n";
    let plan = planned(&format!("{BOX}{DRAW}{baffle}"));
    let left = plan.capacity.compartments[0].stranded.unwrap().litres();
    // The rear bay, 306 x 276 mm, stays full up to the baffle's head, 196 mm up; the front bay
    // below the bore.
    let rear = 3.12 * 2.76 * 1.96;
    assert!(left > rear, "{left} {rear}");
}

#[test]
fn an_overflow_limits_what_it_holds() {
    let at = |up: u32| {
        format!(
            "{BOX}{DRAW}[[opening]]\nservice = \"overflow\"\npanel = \"rear\"\nat = [80, {up}]\ndiameter = 40\n"
        )
    };
    let (high, low) = (planned(&at(190)), planned(&at(90)));
    let lost = high.capacity.rated().litres() - low.capacity.rated().litres();
    assert!((lost - 3.76 * 2.76 * 1.0).abs() < 1e-6, "{lost}");
}

#[test]
fn trapped_air_takes_the_liquids_room() {
    let text = START.replace(
        "panel = \"lid\"\nat = [100, 100]",
        "panel = \"left\"\nat = [100, 60]",
    );
    let job = Job::parse(&format!("{text}\n{BOX}{DRAW}")).unwrap();
    let plan = plan(job, Depth::Quick).unwrap();
    assert!(
        plan.capacity.rated().litres() < 9.0,
        "{}",
        plan.capacity.rated().litres()
    );
}

#[test]
fn a_butt_seam_holds_no_edge() {
    let small = START.replace("size = [3000, 1500]", "size = [430, 430]");
    let job = Job::parse(&format!(
        "{small}\n[body]\nbox = [600, 300, 400]\nthickness = 12\n{DRAW}"
    ))
    .unwrap();
    is_not_checked_yet(
        &plan(job, Depth::Quick).unwrap(),
        QuickKind::PanelNotCovered(Uncovered::Parted),
    );
}

#[test]
fn a_few_tongues_hold_no_wall() {
    let baffle = |joint: &str| {
        let plan = planned(&format!(
            "[body]\nbox = [960, 400, 560]\nthickness = 12\n{DRAW}[[inner]]\nname = \"wall\"\nkind = \"baffle\"\nacross = \"x\"\nat = 480\njoint = \"{joint}\"\n"
        ));
        let spans = plan
            .quick
            .rows
            .iter()
            .filter(|row| plan.panels[row.panel].name == *"left");
        spans.map(|row| row.deflection.mm()).fold(0.0, f64::max)
    };
    assert!(baffle("slot through") > 2.0 * baffle("tee"));
}

#[test]
fn a_panel_that_is_mostly_hole_is_not_a_plate() {
    let plan = planned(&format!(
        "{BOX}{DRAW}[[opening]]\nname = \"window\"\nservice = \"hatch\"\npanel = \"left\"\nat = [200, 116]\ndiameter = 160\n"
    ));
    let large = Uncovered::LargeOpening(HoleName::Opening("window".to_owned()));
    is_not_checked_yet(&plan, QuickKind::PanelNotCovered(large));
}

#[test]
fn a_divider_divides_whatever_comes_first_in_the_file() {
    let divider = "[[inner]]\nname = \"bulkhead\"\nkind = \"divider\"\nacross = \"x\"\nat = 400\n";
    let baffle = "[[inner]]\nname = \"long\"\nkind = \"baffle\"\nacross = \"y\"\nat = 230\n";
    let second =
        "[[opening]]\nservice = \"vent\"\npanel = \"lid\"\nat = [500, 60]\ndiameter = 40\n";
    let at = BOX.replace("[400, 300, 260]", "[600, 300, 260]");
    for order in [format!("{divider}{baffle}"), format!("{baffle}{divider}")] {
        let plan = planned(&format!("{at}{DRAW}{second}{order}"));
        assert_eq!(plan.compartments.len(), 2);
        let halves = plan
            .panels
            .iter()
            .filter(|panel| panel.role == Role::Baffle);
        assert_eq!(halves.count(), 2);
    }
}

#[test]
fn an_opening_in_a_divider_is_refused() {
    let text = format!(
        "{START}\n{BOX}[[inner]]\nname = \"bulkhead\"\nkind = \"divider\"\nacross = \"x\"\nat = 330\n[[opening]]\nservice = \"draw\"\npanel = \"bulkhead\"\nat = [100, 100]\ndiameter = 27\n"
    );
    let faults = plan(Job::parse(&text).unwrap(), Depth::Quick).unwrap_err();
    let in_inner = |fault: &ShapeFault| {
        matches!(
            *fault.kind,
            ShapeFaultKind::Opening {
                why: OpeningFault::InInnerPanel(_),
                ..
            }
        )
    };
    assert!(faults.iter().any(in_inner), "{faults:?}");
}

#[test]
fn events_on_a_standing_tank_surge_on_its_baffles_too() {
    let plan = planned(&format!(
        "{BOX}{DRAW}[[event]]\nname = \"braking\"\n[[inner]]\nname = \"wall\"\nkind = \"baffle\"\nacross = \"x\"\nat = 330\n"
    ));
    is_not_checked_yet(&plan, QuickKind::Baffle);
}

#[test]
fn rails_must_be_under_the_tank() {
    let plan = planned(&format!(
        "{BOX}{DRAW}[support]\nkind = \"rails\"\nalong = \"y\"\nat = [-900, -500]\nwidth = 50\n"
    ));
    stops(&plan, PracticeKind::NotCarried(Bearing::Rail));
}

#[test]
fn room_above_is_kept_under_a_beam_too() {
    let space = "[space]\nbox = [420, 320, 600]\nclearance = 5\nkeep_above = 60\n[[space.obstacle]]\nname = \"beam\"\nfrom = [0, 100, 300]\nto = [420, 200, 400]\n";
    let body = "[body]\nbox = [400, 300, 290]\nat = [10, 10, 0]\nthickness = 12\n";
    let tank = TankPart::Body;
    stops(
        &planned(&format!("{space}{body}{DRAW}")),
        SpaceKind::TooLittleKept { tank },
    );
}

#[test]
fn a_fuel_by_its_density_is_no_water() {
    let text = START.replace("kind = \"drinking water\"", "density = \"745 kg/m3\"");
    let job = Job::parse(&format!("{text}\n{BOX}{DRAW}")).unwrap();
    let kind = PracticeKind::NoSuchLiquid {
        density: Density::from_kg_m3(745.0),
        least: Density::from_g_cm3(0.9),
    };
    stops(&plan(job, Depth::Quick).unwrap(), kind);
}

#[test]
fn a_body_drawn_above_the_floor_does_not_stand_on_it() {
    let space = "[space]\nbox = [420, 320, 600]\nclearance = 5\n";
    let body = "[body]\nside = [[10, 150], [410, 150], [410, 420], [10, 420]]\nwidth = 300\nat = [0, 10, 0]\nthickness = 12\n";
    stops(
        &planned(&format!("{space}{body}{DRAW}")),
        PracticeKind::NotCarried(Bearing::FloorOfSpace),
    );
}

/// No hatch, so that the divider's seam with the lid cannot be laid: told by the weld stage, and not once more by
/// the strength check, which has nothing to judge there.
#[test]
fn a_seam_that_cannot_be_laid_is_told_once() {
    let text = format!(
        "{}[body]\nbox = [600, 300, 300]\n[[inner]]\nname = \"d\"\nkind = \"divider\"\nacross = \"x\"\nat = 300\n",
        START.split("[[opening]]").next().unwrap()
    );
    let plan = plan(Job::parse(&text).unwrap(), Depth::Whole).unwrap();
    let is = |wanted: fn(&Kind) -> bool| plan.findings.iter().filter(|it| wanted(&it.kind)).count();
    let cannot = |kind: &Kind| matches!(kind, Kind::Weld(WeldKind::CannotBeLaid(_)));
    let not_meshed = |kind: &Kind| matches!(kind, Kind::Strength(StrengthKind::SeamNotMeshed));
    assert_eq!([is(cannot), is(not_meshed)], [1, 0]);
    let of_strength = &plan.whole.as_ref().unwrap().findings;
    assert!(of_strength.iter().any(|it| not_meshed(&it.kind)));
}

/// The rules that a job on the road with these lines of its own falls short of.
fn below_rule(rest: &str, years: &str) -> Vec<Rule> {
    let start = START.replace("\"standing\"", "\"road\"");
    let start = start.replace("warmest =", &format!("years = \"{years}\"\nwarmest ="));
    let text = format!("{start}[body]\nbox = [600, 400, 300]\nthickness = 12\n{rest}");
    let job = Job::parse(&text).unwrap_or_else(|faults| panic!("{faults:#?}"));
    let plan = plan(job, Depth::Quick).unwrap_or_else(|faults| panic!("{faults:#?}"));
    let findings = plan.findings.into_iter();
    findings
        .filter_map(|it| match it.kind {
            Kind::Practice(PracticeKind::BelowRule(rule)) if it.grade == Grade::Mend => Some(rule),
            _ => None,
        })
        .collect()
}

/// An event of nothing took the place of the road's, and a life of a second that of the years: both passed without a word.
#[test]
fn a_road_that_does_nothing_and_a_life_of_a_second_are_told() {
    assert_eq!(below_rule("", "10 years"), []);
    assert_eq!(below_rule("", "1 s"), [Rule::Years]);
    let told = below_rule("[[event]]\nname = \"nothing\"\nforward = 0\n", "10 years");
    let ways = [Push::Forward, Push::Rear, Push::Side, Push::Up, Push::Down];
    assert_eq!(told.len(), ways.len());
    assert!(ways.into_iter().all(|it| told.contains(&Rule::Push(it))));
    // As hard as the road's, and next to never.
    let seldom = "[[event]]\nname = \"ours\"\nforward = 1\nrear = 1\nside = 1\nup = 1\ndown = 1\nper_day = 0.001\n";
    let told = below_rule(seldom, "10 years");
    assert!(
        ways.into_iter()
            .all(|it| told.contains(&Rule::PushesPerDay(it)))
    );
    assert_eq!(told.len(), ways.len());
}

/// What the extruder does not reach was laid by hot gas in sheet of any thickness: 53 runs in 25 mm passed.
#[test]
fn thick_sheet_that_no_extruder_reaches_stops() {
    let of = |thickness: i64| {
        let start = START.replace("thickness = 12", &format!("thickness = {thickness}"));
        let start = start.replace("\"extrusion\"", "\"extrusion\"\ngun_diameter = 300");
        let text = format!("{start}[body]\nbox = [600, 400, 300]\nthickness = {thickness}\n");
        let job = Job::parse(&text).unwrap_or_else(|faults| panic!("{faults:#?}"));
        let plan = plan(job, Depth::Whole).unwrap_or_else(|faults| panic!("{faults:#?}"));
        let kind = Kind::Weld(WeldKind::TooThickByHand { all_of_it: true });
        let found = plan.findings.iter().find(|it| it.kind == kind);
        found.map(|it| it.grade)
    };
    assert_eq!(of(25), Some(Grade::Stop));
    assert_eq!(of(12), Some(Grade::Mend));
    assert_eq!(of(10), None);
}
