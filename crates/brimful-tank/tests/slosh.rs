//! How the liquid of a tank swings.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

use brimful_job::Job;
use brimful_panels::finding::Kind;
use brimful_panels::finding::kind::SloshKind;
use brimful_panels::table::motion::{Direction, Motion};
use brimful_tank::plan::{Depth, Plan, plan};
use brimful_tank::slosh::{FillMotion, RoomMotion};
use brimful_units::quantity::STANDARD_GRAVITY;

/// A box of 900 x 400 x 300 mm in 12 mm sheet: 876 x 376 mm inside.
const BOX: &str = "[body]\nbox = [900, 400, 300]\nthickness = 12\n";
const INSIDE: [f64; 2] = [0.876, 0.376];

fn drafted(duty: &str, rest: &str) -> Plan {
    let start = format!(
        "[job]\nlengths = \"mm\"\nduty = \"{duty}\"\n{BOX}[liquid]\nkind = \"water\"\n[[stock.sheet]]\nsize = [3000, 1500]\nthickness = 12\ncount = 9\n"
    );
    let job = Job::parse(&format!("{start}{rest}")).unwrap_or_else(|it| panic!("{it:#?}"));
    plan(job, Depth::Quick).unwrap_or_else(|it| panic!("{it:#?}"))
}

fn baffle(across: &str, at: f64, more: &str) -> String {
    format!(
        "[[inner]]\nname = \"across {across}\"\nkind = \"baffle\"\nacross = \"{across}\"\nat = {at}\n{more}\n"
    )
}

fn only(plan: &Plan) -> &RoomMotion {
    let [room] = &plan.slosh().rooms[..] else {
        panic!("one room wanted");
    };
    room
}

fn half(fills: &[FillMotion]) -> &FillMotion {
    fills.iter().find(|it| it.fill == 0.5).unwrap()
}

/// Frequency and share of the main swing, half full.
fn main(fills: &[FillMotion], direction: Direction) -> (f64, f64) {
    let swing = half(fills).along(direction).unwrap().main().unwrap();
    (swing.frequency.hz(), swing.moves)
}

#[test]
fn a_plain_box_swings_as_the_closed_form_says() {
    let plan = drafted("road", "");
    for fill in &only(&plan).fills {
        let depth = fill.depth.m();
        for (direction, length) in Direction::BOTH.into_iter().zip(INSIDE) {
            let wave = std::f64::consts::PI / length;
            let exact =
                (STANDARD_GRAVITY * wave * (wave * depth).tanh()).sqrt() / std::f64::consts::TAU;
            let swing = fill.along(direction).unwrap().main().unwrap();
            let off = (swing.frequency.hz() / exact - 1.0).abs();
            assert!(off < swing.error.unwrap().max(1e-3), "{fill:?}: {exact}");
        }
    }
}

/// A baffle across the tank slows what runs along it and leaves what runs beside it; the tank without it is the tank
/// that never had one.
#[test]
fn a_baffle_slows_what_runs_across_it_alone() {
    let gaps = "air_gap = 20\ndrain_gap = 20\n[[inner.hole]]\ndiameter = 100\nat = [200, 150]";
    let (bare, with) = (
        drafted("road", ""),
        drafted("road", &baffle("x", 450.0, gaps)),
    );
    let (bare, with) = (only(&bare), only(&with));
    let [without] = &with.without[..] else {
        panic!("one baffle to leave out");
    };
    for direction in Direction::BOTH {
        let (before, left_out) = (
            main(&bare.fills, direction),
            main(&without.fills, direction),
        );
        // The grids differ by a line where the baffle was.
        assert!((before.0 / left_out.0 - 1.0).abs() < 1e-6);
    }
    let lowest = |room: &[FillMotion]| {
        let along = half(room).along(Direction::Along).unwrap();
        along.swings[0].frequency.hz()
    };
    // By a good tenth: the gaps and the hole leave more than a third of it open below the surface.
    assert!(lowest(&with.fills) < 0.9 * lowest(&bare.fills));
    let (before, after) = (
        main(&bare.fills, Direction::Across),
        main(&with.fills, Direction::Across),
    );
    assert!(
        (after.0 / before.0 - 1.0).abs() < 0.02,
        "{before:?} {after:?}"
    );
}

/// Baffles without a gap, one of which ends on the other: three bays, and no slot at any of their seams.
#[test]
fn baffles_that_meet_leave_no_slot_between() {
    let tight = "air_gap = 0\ndrain_gap = 0";
    let bodies = |plan: &Plan| half(&only(plan).fills).swings.as_ref().unwrap().bodies;
    let one = baffle("x", 450.0, tight);
    assert_eq!(bodies(&drafted("road", &one)), 2);
    let behind = baffle("y", 200.0, &format!("{tight}\nspan = [12, 450]"));
    assert_eq!(bodies(&drafted("road", &format!("{one}{behind}"))), 3);
}

#[test]
fn each_compartment_swings_by_itself() {
    let divided = drafted(
        "road",
        "[[inner]]\nname = \"d\"\nkind = \"divider\"\nacross = \"x\"\nat = 300\n",
    );
    let rooms = &divided.slosh().rooms;
    assert_eq!(rooms.len(), 2);
    let [short, long] = [0, 1].map(|it| main(&rooms[it].fills, Direction::Along).0);
    assert!(short > 1.2 * long, "{short} {long}");
}

#[test]
fn a_vehicle_is_told_what_its_motions_feed() {
    let told = |plan: &Plan| -> Vec<Motion> {
        let kinds = plan.slosh().findings.iter().map(|it| it.kind.clone());
        kinds
            .filter_map(|kind| match kind {
                Kind::Slosh(SloshKind::InBand { motion, .. }) => Some(motion),
                _ => None,
            })
            .collect()
    };
    // 876 mm half full: 0.73 Hz along; 376 mm: 1.3 Hz across.
    assert_eq!(told(&drafted("road", "")), [Motion::Braking, Motion::Roll]);
    for duty in ["standing", "afloat"] {
        assert_eq!(told(&drafted(duty, "")), [], "{duty}");
    }
}
