//! Compartments of different liquids in one tank.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

mod common;

use brimful_job::Job;
use brimful_panels::case::{CaseId, Fill, LoadKind};
use brimful_panels::finding::kind::{CapacityKind, PracticeKind, RoomSaid};
use brimful_panels::finding::{Finding, Grade, Kind, Subject};
use brimful_panels::name::CompartmentId;
use brimful_strength::whole::CaseLimits;
use brimful_tank::mass::MassStateKind;
use brimful_tank::plan::{Depth, Plan, plan};
use brimful_units::Time;
use common::whole_tank::{START, planned, rest, whole};

const REAR: CompartmentId = CompartmentId::Number(1);
const FRONT: CompartmentId = CompartmentId::Number(2);

/// A box of 600 x 400 x 300 mm in 12 mm sheet, parted in the middle.
const PARTED: &str = "[body]\nbox = [600, 400, 300]\nthickness = 12\n[[inner]]\nname = \"wall\"\nkind = \"divider\"\nacross = \"x\"\nat = 300\n";

/// What the compartment before the wall holds.
fn front(keys: &str) -> String {
    format!("[[compartment]]\nbetween = [\"wall\", \"front\"]\n{keys}")
}

fn parted(keys: &str) -> String {
    format!("{PARTED}{}", front(keys))
}

/// What is found of a tank without its strength, whose job begins with `start`.
fn drafted(start: &str, rest: &str) -> Plan {
    let job = Job::parse(&format!("{start}\n{rest}")).unwrap_or_else(|it| panic!("{it:#?}"));
    plan(job, Depth::Quick).unwrap_or_else(|it| panic!("{it:#?}"))
}

fn practice(plan: &Plan, is_it: impl Fn(&PracticeKind) -> bool) -> Vec<&Finding> {
    let is_it = |it: &&Finding| matches!(&it.kind, Kind::Practice(kind) if is_it(kind));
    plan.findings.iter().filter(is_it).collect()
}

/// Liquid to the middle of the sheets stands `H - 1.5 t` deep on `W - t` by what is before the wall, 294 mm: the
/// support bears 200 kg/m3 more there, and each compartment alone its own liquid.
#[test]
fn the_support_bears_what_each_compartment_weighs() {
    let (one, two) = (
        planned(PARTED),
        planned(&parted("density = \"1200 kg/m3\"\n")),
    );
    let borne = |plan: &Plan, fill: Fill| {
        let id = CaseId::of(LoadKind::Rest).filled(fill);
        whole(plan).case(id).unwrap().figures.borne
    };
    let by_hand = 200.0 * 9.80665 * (0.3 - 1.5 * 0.012) * 0.294 * (0.4 - 0.012);
    let more = |fill: Fill| borne(&two, fill) - borne(&one, fill);
    for fill in [Fill::All, Fill::Alone(FRONT)] {
        assert!((more(fill) / by_hand - 1.0).abs() < 0.01, "{}", more(fill));
    }
    // Behind the wall it is the same water.
    assert!(more(Fill::Alone(REAR)).abs() < 1e-3 * by_hand);
    // Tested with water, whatever they hold.
    let tested = |plan: &Plan| {
        let id = CaseId::of(LoadKind::Test);
        whole(plan).case(id).unwrap().figures.clone()
    };
    assert_eq!(tested(&one), tested(&two));
}

/// 282 x 376 x 276 mm of each liquid: 29.26 kg of water, and 35.12 kg of that of 1200 kg/m3.
#[test]
fn it_weighs_what_each_compartment_holds() {
    let plan = drafted(START, &parted("density = \"1200 kg/m3\"\n"));
    let mass = |kind| plan.mass.state(kind).unwrap();
    let (empty, brim) = (mass(MassStateKind::Empty), mass(MassStateKind::Brim));
    let litres = 2.82 * 3.76 * 2.76;
    assert!((brim.liquid.litres() - 2.0 * litres).abs() < 1e-6);
    let (light, heavy) = (litres, 1.2 * litres);
    assert!((brim.mass.kg() - empty.mass.kg() - light - heavy).abs() < 1e-6);
    // Their middles lie 147 mm before and behind the wall, which is in the middle of the tank.
    let moment = brim.centre.x * brim.mass.kg() - empty.centre.x * empty.mass.kg();
    let by_hand = light * (0.3 - 0.147) + heavy * (0.3 + 0.147);
    assert!((moment - by_hand).abs() < 1e-3, "{moment} {by_hand}");
}

/// Grey water weakens HDPE 1.2 times, by the table, and water does not: the wall has it on one side, and
/// the rear never.
#[test]
fn a_divider_is_judged_by_the_worse_of_its_liquids() {
    let clean = planned(PARTED);
    let mixed = planned(&parted("kind = \"grey water\"\n"));
    let limits = |plan: &Plan| rest(plan).limits.clone();
    let (by_clean, by_mixed) = (limits(&clean), limits(&mixed));
    let panel = |name: &str| {
        let mut panels = mixed.panels.iter();
        panels.position(|panel| panel.name == *name).unwrap()
    };
    let rear = panel("rear");
    for (seam, joins) in mixed.seams.iter().map(|seam| seam.panels).enumerate() {
        let weakened = by_clean.of_seam(seam).weld / by_mixed.of_seam(seam).weld;
        // Of the wall, of the front, and of walls that both rooms share; nothing of the rear is.
        let by_hand = if joins.contains(&rear) { 1.0 } else { 1.2 };
        assert!((weakened - by_hand).abs() < 1e-9, "{joins:?}: {weakened}");
    }
    let life = |limits: &CaseLimits, panel: usize| {
        let years = Time::from_years(1.0);
        limits.of_panel(panel).sheet_life.allowed(years)
    };
    for (name, by_hand) in [("rear", 1.0), ("wall", 1.2), ("front", 1.2), ("floor", 1.2)] {
        let weakened = life(&by_clean, panel(name)) / life(&by_mixed, panel(name));
        assert!((weakened - by_hand).abs() < 1e-9, "{name}: {weakened}");
    }
}

/// What only names a room, and says what is wanted of it, changes no figure.
#[test]
fn a_compartment_of_the_same_liquid_is_no_other_tank() {
    let (plain, named) = (
        planned(PARTED),
        planned(&parted("name = \"day tank\"\nkind = \"water\"\n")),
    );
    let figures = |plan: &Plan| -> Vec<_> {
        let cases = whole(plan).cases.iter();
        cases
            .map(|run| (run.case.id, run.figures.clone()))
            .collect()
    };
    assert_eq!(figures(&plain), figures(&named));
    assert_eq!(plain.mass, named.mass);
    assert_eq!(plain.capacity, named.capacity);
}

#[test]
fn what_is_said_of_no_room_or_twice_of_one_stops() {
    let stop = |rest: &str| {
        let plan = drafted(START, rest);
        let found = practice(&plan, |kind| {
            matches!(
                kind,
                PracticeKind::NotOneRoom { .. } | PracticeKind::RoomSaidTwice { .. }
            )
        });
        let [found] = found[..] else {
            panic!("{:#?}", plan.findings)
        };
        assert_eq!(found.grade, Grade::Stop);
        assert!(found.place.is_some());
        found.kind.clone()
    };
    let not_one = |between: [&str; 2]| {
        let between = between.map(str::to_owned);
        Kind::Practice(PracticeKind::NotOneRoom {
            between,
            said: RoomSaid::Compartment,
        })
    };
    let named =
        |a: &str, b: &str| format!("{PARTED}[[compartment]]\nbetween = [\"{a}\", \"{b}\"]\n");
    assert_eq!(stop(&named("wal", "front")), not_one(["wal", "front"]));
    assert_eq!(stop(&named("lid", "front")), not_one(["lid", "front"]));
    let twice = |first| {
        Kind::Practice(PracticeKind::RoomSaidTwice {
            between: ["wall", "front"].map(str::to_owned),
            first,
        })
    };
    let two = format!("{}{}", parted(""), front("kind = \"milk\"\n"));
    assert_eq!(stop(&two), twice(RoomSaid::Compartment));
    let dry = "[[dry]]\nbetween = [\"front\", \"wall\"]\n";
    assert_eq!(stop(&format!("{}{dry}", parted(""))), twice(RoomSaid::Dry));
}

#[test]
fn drinking_water_shares_no_single_wall() {
    let start = START.replace("\"water\"", "\"drinking water\"");
    let stops = |rest: &str| {
        let plan = drafted(&start, rest);
        let beside =
            |kind: &PracticeKind| matches!(kind, PracticeKind::DrinkingWaterBesideOther { .. });
        practice(&plan, beside).len()
    };
    let plan = drafted(&start, &parted("kind = \"grey water\"\n"));
    let kind = PracticeKind::DrinkingWaterBesideOther {
        drinking: REAR,
        other: FRONT,
    };
    let found = practice(&plan, |it| *it == kind);
    assert_eq!(found[0].grade, Grade::Stop);
    assert_eq!(stops(PARTED), 0);
    assert_eq!(stops(&parted("additives = [\"disinfectant\"]\n")), 0);
    assert_eq!(stops(&parted("additives = [\"antifreeze\"]\n")), 1);
    // A dry room between them lets a leak be seen.
    let second = "[[inner]]\nname = \"other wall\"\nkind = \"divider\"\nacross = \"x\"\nat = 250\n";
    let dry = "[[dry]]\nbetween = [\"wall\", \"other wall\"]\n";
    let gap = format!("{PARTED}{second}{}{dry}", front("kind = \"grey water\"\n"));
    assert_eq!(stops(&gap), 0);
    assert_eq!(stops(&gap.replace(dry, "")), 1);
}

/// Each liquid is reported where it is: one that the sheet's maker has to answer for, and one that freezes.
#[test]
fn what_is_wrong_with_a_liquid_is_told_of_its_compartment() {
    let of_front = Subject::Compartment(FRONT);
    let acid = drafted(START, &parted("kind = \"sulphuric acid 37 %\"\n"));
    let found = practice(&acid, |it| {
        matches!(it, PracticeKind::MakerHasToAnswer { oxidiser: false })
    });
    assert_eq!(found.len(), 1);
    assert_eq!(found[0].subject, of_front);
    let cold = START.replace("warmest", "coldest = \"-5 degC\"\nwarmest");
    let freezes = |rest: &str| -> Vec<Subject> {
        let plan = drafted(&cold, rest);
        let found = practice(&plan, |it| matches!(it, PracticeKind::Freezes { .. }));
        found.into_iter().map(|it| it.subject.clone()).collect()
    };
    let brine = parted("kind = \"brine 10 %\"\n");
    assert_eq!(freezes(&brine).len(), 1);
    assert!(!freezes(&brine).contains(&of_front));
    let salt = cold.replace("\"water\"", "\"brine 10 %\"");
    let plan = drafted(&salt, &parted("kind = \"water\"\n"));
    let found = practice(&plan, |it| matches!(it, PracticeKind::Freezes { .. }));
    assert_eq!(found[0].subject, of_front);
}

/// 29.26 L to the brim before the wall: 28 L are there, and 30 L are not.
#[test]
fn what_is_wanted_of_a_compartment_is_its_own() {
    let short = |wanted: &str| -> Vec<Subject> {
        let plan = drafted(START, &parted(&format!("wanted = \"{wanted} brim\"\n")));
        let found = plan.findings.into_iter();
        let found =
            found.filter(|it| matches!(it.kind, Kind::Capacity(CapacityKind::BelowWanted(_))));
        found.map(|it| it.subject).collect()
    };
    assert!(short("28 L").is_empty());
    assert_eq!(short("30 L"), [Subject::Compartment(FRONT)]);
}

/// The stress in the divider under a load, with the compartment before the wall or behind it alone.
fn in_wall(plan: &Plan, kind: LoadKind, fill: Fill) -> f64 {
    let mut panels = plan.panels.iter();
    let wall = panels.position(|it| it.name == *"wall").unwrap();
    let mut cases = whole(plan).cases.iter();
    let run = cases.find(|run| run.case.id.kind == kind && run.case.id.fill == fill);
    run.unwrap().figures.panels[wall].stress
}

/// Pushed down by 2 g the head on a divider is three times that at rest, though nothing pushes square to it.
#[test]
fn a_divider_bears_one_room_in_an_event_along_it() {
    let event = "[[event]]\nname = \"dip\"\ndown = 2.0\n";
    let plan = planned(&format!("{PARTED}{event}"));
    let of = |kind| in_wall(&plan, kind, Fill::Alone(FRONT));
    let times = of(LoadKind::Event) / of(LoadKind::Rest);
    assert!((2.7..3.3).contains(&times), "{times}");
}

/// One room emptied under suction while the other stands full: 1.4 kPa of water in the mean and 2 kPa more, which a
/// divider feels alike to a third, since water presses most near its foot.
#[test]
fn suction_pulls_at_a_divider_with_the_next_room_full() {
    let plan = planned(&format!("{PARTED}[checks]\nsuction = \"2 kPa\"\n"));
    let suction = in_wall(&plan, LoadKind::Suction, Fill::Alone(REAR));
    let water = in_wall(&plan, LoadKind::Rest, Fill::Alone(FRONT));
    let times = suction / water;
    assert!((1.7..3.3).contains(&times), "{times}");
}

/// The mirror image of one of the random tanks (docs/soak.md, 157), in which the liquid could not be put together: a
/// baffle cut off at the cavity's faces has its ends in leaning planes of the room.
#[test]
fn the_liquid_about_a_baffle_between_leaning_ends_is_put_together() {
    let plan = drafted(
        START,
        "[body]\nside = [[427, 370], [66, 370], [0, 0], [464, 0]]\nwidth = 511\nthickness = 8\n[[inner]]\nkind = \"baffle\"\nacross = \"y\"\nat = 240\nthickness = 12\n",
    );
    let [room] = plan.compartments.as_slice() else {
        panic!("{} rooms", plan.compartments.len());
    };
    let (whole, liquid) = (room.whole().volume, room.liquid.moments().volume);
    // The root gaps of the baffle are filled with rod in both; 1e-9 is what the solids' own check allows.
    assert!((whole - liquid).abs() < 1e-9, "{whole} {liquid}");
}
