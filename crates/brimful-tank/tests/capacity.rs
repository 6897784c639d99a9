//! What a tank holds against what is wanted.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

use brimful_job::Job;
use brimful_panels::finding::kind::{CapacityKind, PracticeKind, RoomSaid};
use brimful_panels::finding::{Finding, Grade, Kind, Subject};
use brimful_panels::liquid::Holds;
use brimful_panels::name::CompartmentId;
use brimful_tank::mass::MassStateKind;
use brimful_tank::plan::{Depth, Plan, plan};
use brimful_units::Volume;

/// A box of 400 x 300 x 260 mm in 10 mm sheet holds 380 x 280 x 240 mm = 25.536 L to the brim. Half its
/// inside area, 0.2648 m2, by 0.5 mm of saw is 0.132 L.
#[test]
fn what_only_the_saw_decides_is_said() {
    let about_capacity = |wanted: f64| -> Vec<Finding> {
        let job = Job::parse(&format!(
            "[job]\nlengths = \"mm\"\nduty = \"standing\"\n[liquid]\nkind = \"water\"\nwanted = \"{wanted} L brim\"\n[body]\nbox = [400, 300, 260]\nthickness = 10\n[shop]\nsaw_tolerance = 0.5\n"
        ));
        let plan = plan(job.unwrap(), Depth::Quick).unwrap();
        let findings = plan.findings.into_iter();
        findings
            .filter(|it| {
                matches!(
                    it.kind,
                    Kind::Capacity(
                        CapacityKind::BelowWanted(_) | CapacityKind::NarrowlyWanted { .. }
                    )
                )
            })
            .collect()
    };
    assert!(about_capacity(25.3).is_empty());
    let narrow = about_capacity(25.5);
    assert_eq!(narrow[0].grade, Grade::Mend);
    let Kind::Capacity(CapacityKind::NarrowlyWanted { within, .. }) = narrow[0].kind else {
        panic!("{narrow:?}");
    };
    assert!((within.litres() - 0.1324).abs() < 1e-6, "{within:?}");
    assert_eq!(about_capacity(25.6)[0].grade, Grade::Stop);
}

/// A body of 10 mm sheet, 300 mm wide, with an outline seen from the side.
fn of_side(side: &str, more: &str) -> Plan {
    planned(&format!(
        "[body]\nside = {side}\nwidth = 300\nthickness = 10\n{more}"
    ))
}

fn planned(rest: &str) -> Plan {
    planned_wanting("", rest)
}

/// What is found of a kind.
fn about<'a>(plan: &'a Plan, kind: &(impl Into<Kind> + Clone)) -> Option<&'a Finding> {
    let kind = kind.clone().into();
    plan.findings.iter().find(|it| it.kind == kind)
}

fn planned_wanting(wanted: &str, rest: &str) -> Plan {
    let job = Job::parse(&format!(
        "[job]\nlengths = \"mm\"\nduty = \"standing\"\n[liquid]\nkind = \"water\"\nair_space = 0\n{wanted}\n{rest}"
    ));
    let job = job.unwrap_or_else(|faults| panic!("{faults:?}"));
    plan(job, Depth::Quick).unwrap_or_else(|faults| panic!("{faults:?}"))
}

fn opening(service: &str, panel: &str, at: [f64; 2]) -> String {
    format!(
        "[[opening]]\nname = \"{service} {panel}\"\nservice = \"{service}\"\npanel = \"{panel}\"\nat = {at:?}\ndiameter = 20\n"
    )
}

/// Two legs, each 380 x 280 mm inside, under a saddle 160 mm up, 150 over their floors.
const LEGS: &str =
    "[[0, 0], [400, 0], [400, 150], [600, 150], [600, 0], [1000, 0], [1000, 300], [0, 300]]";
/// The same upside down: two humps.
const HUMPS: &str =
    "[[0, 0], [1000, 0], [1000, 300], [600, 300], [600, 150], [400, 150], [400, 300], [0, 300]]";

/// Inside area of a leg or hump in the plan, m2: litres a millimetre of height.
const LEG: f64 = 0.380 * 0.280;

#[track_caller]
fn litres(volume: Option<Volume>, hand: f64) {
    let found = volume.unwrap().litres();
    // Booleans and moments keep rounding far below a thousandth of a millilitre.
    assert!((found - hand).abs() < 1e-6, "{found} L, by hand {hand}");
}

/// Places are from the lower edge of the panel's outside, 11 mm up: a hole of 20 mm in the middle 40 mm up
/// has its sill 20 over the floor's inside.
#[test]
fn every_outlet_draws_from_its_own_basin() {
    let vent = opening("vent", "lid", [500.0, 150.0]);
    let near = opening("draw", "rear", [139.0, 29.0]);
    let far = opening("draw", "front", [139.0, 29.0]);
    let one = of_side(LEGS, &format!("{vent}{near}"));
    let [row] = &one.capacity.compartments[..] else {
        panic!("{:?}", one.capacity);
    };
    litres(row.stranded, LEG * (20.0 + 150.0));
    assert!(about(&one, &PracticeKind::LittleUsable).is_some_and(|it| it.grade == Grade::Mend));
    let both = of_side(LEGS, &format!("{vent}{near}{far}"));
    let [row] = &both.capacity.compartments[..] else {
        panic!("{:?}", both.capacity);
    };
    litres(row.stranded, LEG * (20.0 + 20.0));
    litres(row.usable, row.rated.litres() - LEG * 40.0);
    assert_eq!(row.outlets, ["draw front", "draw rear"]);
    assert_eq!(about(&both, &PracticeKind::LittleUsable), None);
    // A drain is for the last of it, and is no outlet in use beside one that is.
    let drain = far.replace("draw", "drain");
    let drained = of_side(LEGS, &format!("{vent}{near}{drain}"));
    litres(drained.capacity.compartments[0].stranded, LEG * 170.0);
}

#[test]
fn what_stays_behind_is_a_note_where_the_usable_litres_wanted_are_there() {
    let ports = [
        opening("vent", "lid", [500.0, 150.0]),
        opening("draw", "rear", [139.0, 29.0]),
    ];
    let body = format!(
        "[body]\nside = {LEGS}\nwidth = 300\nthickness = 10\n{}",
        ports.concat()
    );
    let plan = planned_wanting("wanted = \"30 L usable\"", &body);
    assert!(about(&plan, &PracticeKind::LittleUsable).is_some_and(|it| it.grade == Grade::Note));
}

#[test]
fn every_vent_lets_out_the_air_of_its_own_pocket() {
    let draw = opening("draw", "rear", [139.0, 29.0]);
    let near = opening("vent", "lid", [200.0, 150.0]);
    let far = opening("vent", "lid 2", [200.0, 150.0]);
    let one = of_side(HUMPS, &format!("{draw}{near}"));
    // The far hump keeps its air down to the inside of the dip, 150 mm.
    litres(one.capacity.compartments[0].trapped_air, LEG * 150.0);
    assert!(about(&one, &CapacityKind::TrappedAir).is_some());
    let both = of_side(HUMPS, &format!("{draw}{near}{far}"));
    litres(both.capacity.compartments[0].trapped_air, 0.0);
    assert_eq!(about(&both, &CapacityKind::TrappedAir), None);
    // Tilted by 2 degrees each hump keeps a wedge over the rim of its vent, 180 mm long.
    let tilted = of_side(
        HUMPS,
        &format!("{draw}{near}{far}[trim]\npitch = \"2 deg\"\n"),
    );
    let wedge = 0.5 * 0.18_f64.powi(2) * 2.0_f64.to_radians().tan() * 0.28 * 1e3;
    litres(tilted.capacity.compartments[0].trapped_air, 2.0 * wedge);
}

#[test]
fn each_bay_below_a_lid_that_a_baffle_meets_has_a_vent_of_its_own() {
    let baffle =
        "[[inner]]\nkind = \"baffle\"\nacross = \"x\"\nat = 300\nair_gap = 0\ndrain_gap = 100\n";
    let body = "[body]\nbox = [600, 300, 300]\nthickness = 10\n";
    let near = opening("vent", "lid", [150.0, 150.0]);
    let far = opening("vent", "lid", [450.0, 150.0]).replace("vent lid", "far vent");
    let one = planned(&format!("{body}{baffle}{near}"));
    assert!(one.capacity.compartments[0].trapped_air.unwrap().litres() > 10.0);
    let both = planned(&format!("{body}{baffle}{near}{far}"));
    litres(both.capacity.compartments[0].trapped_air, 0.0);
}

/// 900 x 400 x 350 of 10 mm sheet, parted at x 400 and 450 by 10 mm: 385, 40 and 435 mm by 380 by 330.
fn with_gap(more: &str) -> Plan {
    let divider = |name: &str, at: u32| {
        format!(
            "[[inner]]\nname = \"{name}\"\nkind = \"divider\"\nacross = \"x\"\nat = {at}\nthickness = 10\n"
        )
    };
    let port = |service: &str, x: f64, y: f64| {
        let name = format!("\"{service} {x}\"");
        opening(service, "lid", [x, y]).replace(&format!("\"{service} lid\""), &name)
    };
    let sides = [
        port("fill", 100.0, 100.0),
        port("vent", 100.0, 300.0),
        port("draw", 200.0, 200.0),
        port("fill", 600.0, 100.0),
        port("vent", 600.0, 300.0),
        port("draw", 700.0, 200.0),
    ];
    planned(&format!(
        "[body]\nbox = [900, 400, 350]\nthickness = 10\n{}{}{}{more}",
        divider("wall a", 400),
        divider("wall b", 450),
        sides.concat()
    ))
}

const DRY: &str = "[[dry]]\nbetween = [\"wall a\", \"wall b\"]\n";
const IN_GAP: &str = "[[opening]]\nname = \"tell-tale\"\nservice = \"drain\"\npanel = \"lid\"\nat = [425, 200]\ndiameter = 8\n";

#[test]
fn a_dry_gap_holds_nothing() {
    let sides = (385.0 + 435.0) * 380.0 * 330.0 * 1e-6;
    let plan = with_gap(&format!("{DRY}{IN_GAP}"));
    litres(Some(plan.capacity.brim()), sides);
    assert_eq!(plan.capacity.compartments.len(), 2);
    assert_eq!(plan.gauges.len(), 2);
    let brim = plan.mass.state(MassStateKind::Brim).unwrap();
    litres(Some(brim.liquid), sides);
    let of_gap = |it: &&Finding| it.subject == Subject::Compartment(CompartmentId::Number(2));
    assert_eq!(plan.findings.iter().find(of_gap), None);
    // By the wall and the end of the tank, too: of the three rooms the first.
    let end = with_gap("[[dry]]\nbetween = [\"rear\", \"wall a\"]\n");
    let held = |number: usize| end.compartments[number].holds;
    assert_eq!(
        [held(0), held(1), held(2)],
        [Holds::Nothing, Holds::Unknown, Holds::Liquid]
    );
}

#[test]
fn a_closed_room_counts_for_nothing_and_stops() {
    let sides = (385.0 + 435.0) * 380.0 * 330.0 * 1e-6;
    let plan = with_gap("");
    litres(Some(plan.capacity.brim()), sides);
    let stop = |plan: &Plan, kind: PracticeKind| {
        about(plan, &kind).is_some_and(|it| it.grade == Grade::Stop)
    };
    assert!(stop(&plan, PracticeKind::ClosedRoom));
    assert!(stop(&with_gap(DRY), PracticeKind::DrySealed));
    let filled = IN_GAP.replace("drain", "fill");
    let opening = "tell-tale".to_owned();
    assert!(stop(
        &with_gap(&format!("{DRY}{filled}")),
        PracticeKind::DryIsFilled { opening }
    ));
    // The lid bounds all three.
    let between = ["lid".to_owned(), "wall a".to_owned()];
    assert!(stop(
        &with_gap("[[dry]]\nbetween = [\"lid\", \"wall a\"]\n"),
        PracticeKind::NotOneRoom {
            between,
            said: RoomSaid::Dry
        }
    ));
}

/// Two panels of the outside bound every room, and no divider parts a dry one off.
#[test]
fn a_whole_tank_is_not_dry() {
    let plan = planned(
        "[body]\nbox = [700, 400, 350]\nthickness = 10\n[[dry]]\nbetween = [\"lid\", \"floor\"]\n[[opening]]\nservice = \"drain\"\npanel = \"floor\"\nat = [100, 100]\ndiameter = 30\n[[opening]]\nservice = \"vent\"\npanel = \"lid\"\nat = [100, 100]\ndiameter = 30\n",
    );
    let not_one = |it: &Finding| matches!(it.kind, Kind::Practice(PracticeKind::NotOneRoom { .. }));
    assert!(plan.findings.iter().any(not_one));
    assert!(plan.capacity.brim().litres() > 50.0);
}

/// Two outlets at opposite ends leave most behind where it stands level, between the ends of its trim.
#[test]
fn the_worst_trim_is_looked_for_within_its_range() {
    let left = |trim: &str| {
        let outlet = |x: u32| {
            format!(
                "[[opening]]\nservice = \"draw\"\npanel = \"right\"\nat = [{x}, 60]\ndiameter = 27\n"
            )
        };
        let plan = planned(&format!(
            "[body]\nbox = [800, 400, 300]\nthickness = 10\n{}{}{trim}",
            outlet(60),
            outlet(740)
        ));
        plan.capacity.compartments[0].stranded.unwrap().litres()
    };
    let range = left("[trim]\npitch = [\"-6 deg\", \"6 deg\"]\n");
    let level = left("");
    assert!(range >= level - 1e-9, "{range} {level}");
}

#[test]
fn a_room_that_is_neither_filled_nor_drawn_from_is_to_be_said_dry() {
    let vent = IN_GAP.replace("drain", "vent");
    let plan = with_gap(&vent);
    let found = about(&plan, &CapacityKind::NeitherFilledNorDrawn).unwrap();
    assert_eq!(found.grade, Grade::Mend);
    assert_eq!(plan.capacity.compartments.len(), 3);
}

#[test]
fn frost_is_told_by_the_freezing_point_of_the_liquid() {
    let at = |kind: &str, coldest: &str| {
        let body = "[body]\nbox = [400, 300, 260]\nthickness = 10\n";
        let text = format!(
            "[job]\nlengths = \"mm\"\nduty = \"standing\"\n[liquid]\n{kind}\ncoldest = \"{coldest}\"\n{body}"
        );
        plan(Job::parse(&text).unwrap(), Depth::Quick).unwrap()
    };
    let grade = |plan: &Plan| {
        let freezes = plan
            .findings
            .iter()
            .find(|it| matches!(it.kind, Kind::Practice(PracticeKind::Freezes { .. })));
        freezes.map(|it| it.grade)
    };
    let water = "kind = \"water\"";
    assert_eq!(grade(&at(water, "0 degC")), Some(Grade::Mend));
    assert_eq!(grade(&at(water, "-10 degC")), Some(Grade::Mend));
    assert_eq!(grade(&at(water, "1 degC")), None);
    assert_eq!(grade(&at("kind = \"sea water\"", "-1 degC")), None);
    assert_eq!(grade(&at("kind = \"glycol 50 %\"", "-20 degC")), None);
    assert_eq!(grade(&at("density = \"1000 kg/m3\"", "-20 degC")), None);
    let guarded = "kind = \"water\"\nadditives = [\"antifreeze\"]";
    assert_eq!(grade(&at(guarded, "-10 degC")), Some(Grade::Note));
}
