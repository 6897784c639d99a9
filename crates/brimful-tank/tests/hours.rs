//! The hours of whole jobs: line by line, and what is waited for.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

use brimful_job::Job;
use brimful_panels::finding::Kind;
use brimful_panels::finding::kind::CutKind;
use brimful_panels::weld::corner::{Corner, Pass, Way};
use brimful_panels::weld::heat::Heat;
use brimful_panels::weld::laying::SpeedBound;
use brimful_panels::weld::order::Work;
use brimful_panels::weld::{SeamWeld, WeldSide};
use brimful_tank::hours::{Amount, Labour, people};
use brimful_tank::plan::{Depth, Plan, plan};
use brimful_tank::waits::{Waiting, cooling};
use brimful_units::{Length, Mass, Time};

/// A box of 600 x 400 x 300 in 8 mm with a vent and a hatch, and these keys of the shop.
fn planned(shop: &str, rest: &str, depth: Depth) -> Plan {
    let text = format!(
        "[job]\nname = \"hours\"\nlengths = \"mm\"\nduty = \"standing\"\n[liquid]\nkind = \"water\"\n[shop]\n{shop}\n[body]\nbox = [600, 400, 300]\nthickness = 8\n[[opening]]\nservice = \"vent\"\npanel = \"lid\"\nat = [100, 100]\ndiameter = 27\n[[opening]]\nservice = \"hatch\"\npanel = \"lid\"\nat = [400, 200]\ndiameter = 150\n{rest}"
    );
    let job = Job::parse(&text).unwrap_or_else(|it| panic!("{it:#?}"));
    plan(job, depth).unwrap_or_else(|it| panic!("{it:#?}"))
}

fn draft(shop: &str) -> Plan {
    planned(shop, "", Depth::Quick)
}

fn minutes(plan: &Plan, what: Labour) -> f64 {
    let mut lines = plan.hours.lines.iter();
    let line = lines.find(|line| line.what == what);
    line.map_or(0.0, |line| line.time.minutes())
}

/// Rounding of sums of a few dozen lengths.
const ROUNDING: f64 = 1e-9;

/// How many short runs are begun at a corner, one on the other counted too.
fn short_runs_begun(corner: &Corner, welds: &[SeamWeld]) -> usize {
    let through = |pass: &&Pass| pass.way == Way::Through;
    let first = corner.passes.iter().find(through);
    let against = corner.passes.iter().filter(|it| it.way == Way::Against);
    let runs = |pass: &Pass| {
        let mut own = welds.iter().filter(|it| it.side == corner.side);
        own.find(|it| it.seam == pass.seam).map_or(0, |it| it.runs)
    };
    first.into_iter().chain(against).map(runs).sum()
}

#[test]
fn every_line_is_its_amount_at_the_rate_of_the_shop() {
    let plan = draft("");
    let welds = &plan.welds.welds;
    let laid: Length = welds.iter().map(|it| it.length * it.runs as f64).sum();
    let short: Length = welds
        .iter()
        .filter_map(|it| it.short_runs.as_ref())
        .map(|it| it.length() * it.runs as f64)
        .sum();
    let runs: usize = welds.iter().map(|it| it.runs).sum();
    // At a corner of a box one short run goes through and one is laid against it, each as often as its weld has runs.
    let begun: usize = plan
        .corners
        .iter()
        .map(|it| short_runs_begun(it, welds))
        .sum();
    let seams: Length = plan.seams.iter().map(|it| it.length()).sum();
    // Of a through-and-butt corner the one edge that butts is bevelled, outside.
    let outside = welds.iter().filter(|it| it.side == WeldSide::Outside);
    let bevelled: Length = outside.map(|it| it.length).sum();
    for (what, wanted) in [
        (Labour::Bevelling, bevelled.m() / 0.5),
        (Labour::Holes, 20.0),
        (Labour::Setting, 60.0),
        (Labour::Tacking, seams.m()),
        (Labour::Scraping, laid.m() / 2.0),
        (Labour::Laying, (laid - short).m() / 0.3),
        // The middle of what is published for a round nozzle.
        (Labour::LayingShort, short.m() / 0.08),
        (Labour::Starting, (runs + begun) as f64),
        // Over, and right side up again, by two people.
        (Labour::Turning, 2.0 * 2.0 * 10.0),
        (Labour::Fitting, 20.0),
        (Labour::Filling, plan.capacity.brim().litres() / 15.0),
        (Labour::Testing, 4.0 * 15.0),
    ] {
        let found = minutes(&plan, what);
        assert!(
            (found - wanted).abs() < ROUNDING * wanted,
            "{what:?}: {found}, not {wanted}"
        );
    }
    // Six panels out of a sheet, at 1 m/min: no less than half of what goes round them, no more than all of it.
    let round: f64 = plan.cut.groups[0]
        .blanks
        .iter()
        .map(|it| 2.0 * (it.length + it.width).m())
        .sum();
    let sawing = minutes(&plan, Labour::Sawing);
    assert!(
        (0.5 * round..round).contains(&sawing),
        "{sawing} of {round}"
    );
    // By hand: two walls with a corner at either end and two clamps between, two with four corners and two clamps, and
    // the lid with four corners and one clamp to a side.
    let clamping = minutes(&plan, Labour::Clamping);
    assert_eq!(clamping, 2.0 * 4.0 + 2.0 * 6.0 + 8.0);
    let sum: f64 = plan.hours.lines.iter().map(|it| it.time.minutes()).sum();
    assert!((plan.hours.work().minutes() - sum).abs() < ROUNDING * sum);
}

#[test]
fn rates_are_the_job_s() {
    let (usual, own) = (
        draft(""),
        draft(
            "clamp_time = \"2 min\"\nturn_time = \"30 min\"\nhole_time = \"1 min\"\nbevel_speed = \"1 m/min\"\nfill_rate = \"30 L/min\"\nstage_time = \"5 min\"",
        ),
    );
    for (what, times) in [
        (Labour::Clamping, 2.0),
        (Labour::Turning, 3.0),
        (Labour::Holes, 0.1),
        (Labour::Bevelling, 0.5),
        (Labour::Filling, 0.5),
        (Labour::Testing, 1.0 / 3.0),
    ] {
        let ratio = minutes(&own, what) / minutes(&usual, what);
        assert!((ratio / times - 1.0).abs() < ROUNDING, "{what:?}: {ratio}");
    }
}

#[test]
fn a_draft_and_a_whole_check_both_have_hours() {
    let (draft, whole) = (draft(""), planned("", "", Depth::Whole));
    assert!(draft.hours.work() > Time::ZERO);
    // Of the same panels, seams and welds; only the tacks and turns hang on the order.
    for what in [Labour::Sawing, Labour::Laying, Labour::Testing] {
        assert!((minutes(&draft, what) - minutes(&whole, what)).abs() < ROUNDING);
    }
    let turns = whole.order.steps.iter().filter(|it| it.work == Work::Turn);
    assert_eq!(
        minutes(&whole, Labour::Turning),
        2.0 * 10.0 * turns.count() as f64
    );
}

/// By its output an extruder takes as long as its melt does, whichever way it is summed.
#[test]
fn what_an_extruder_gives_is_the_time_of_its_runs() {
    let plan = draft("process = \"extrusion\"\nextruder = \"small\"");
    let own = plan
        .welds
        .welds
        .iter()
        .filter(|it| it.bound == SpeedBound::Output);
    let by_run: f64 = own.map(|it| it.run_time().minutes() * it.runs as f64).sum();
    let found = minutes(&plan, Labour::LayingByOutput);
    assert!(
        by_run > 0.0 && (found / by_run - 1.0).abs() < ROUNDING,
        "{found}, not {by_run}"
    );
    let mut lines = plan.hours.lines.iter();
    let line = lines.find(|it| it.what == Labour::LayingByOutput).unwrap();
    let Amount::Laid(_, rate) = line.amount else {
        panic!("{line:?}")
    };
    // 65 % of the 0.8 kg/h that a small one is rated at.
    assert!((rate.kg_h() - 0.52).abs() < ROUNDING);
}

#[test]
fn heavy_tanks_take_more_people_to_turn() {
    let all = [1.0, 25.0, 26.0, 80.0].map(|kg| people(Mass::from_kg(kg)));
    assert_eq!(all, [2, 2, 2, 4]);
}

/// The waits of a plan were its beads to cool for so long.
fn waited(plan: &Plan, next_run: Time) -> Time {
    let mut heat: Heat = plan.heat.clone().unwrap();
    for wait in &mut heat.waits {
        wait.next_run = Some(next_run);
    }
    let tank = (&plan.panels[..], &plan.seams[..]);
    let rates = &plan.job.shop.rates;
    let waits = cooling(tank, &plan.welds.welds, &plan.order.steps, &heat, rates);
    let own = waits.iter().find(|it| it.what == Waiting::NextRun);
    own.map_or(Time::ZERO, |it| it.time)
}

#[test]
fn only_what_other_runs_do_not_fill_is_waited_for() {
    let plan = draft("");
    // Each run of the other seams of a step takes minutes: seconds are filled.
    assert_eq!(waited(&plan, Time::from_s(10.0)), Time::ZERO);
    // Days are not: between the runs of each step it stands still, less the work done in that time.
    let long = Time::from_days(10.0);
    let steps = plan.order.steps.iter();
    let stands: usize = steps
        .map(|step| {
            let own = plan.welds.welds.iter().filter(|weld| {
                let is_side = match step.work {
                    Work::WeldInside => weld.side.key() == "inside",
                    Work::WeldOutside => weld.side.key() == "outside",
                    _ => false,
                };
                is_side && step.seams.contains(&weld.seam)
            });
            own.map(|weld| weld.runs - 1).max().unwrap_or(0)
        })
        .sum();
    let found = waited(&plan, long);
    let all = long * stands as f64;
    assert!(
        found <= all && found > all - plan.hours.work(),
        "{found:?} of {all:?}"
    );
}

/// Half an hour in the short stages is spent looking; an hour and a day are not.
#[test]
fn the_leak_test_is_waited_for_in_every_room() {
    let of = |plan: &Plan| {
        let mut waits = plan.hours.waits.iter();
        waits
            .find(|it| it.what == Waiting::LeakTest)
            .unwrap()
            .time
            .hours()
    };
    assert!((of(&draft("")) - (0.75 + 23.75)).abs() < ROUNDING);
    let divider = "[[inner]]\nname = \"d\"\nkind = \"divider\"\nacross = \"x\"\nat = 250\n";
    let two = planned("", divider, Depth::Quick);
    assert!((of(&two) - 2.0 * 24.5).abs() < ROUNDING);
}

/// 5/16 in is 7.94 mm, and sold as 8 mm: a job that has both is asked which it is.
#[test]
fn a_sheet_given_in_two_units_is_asked_about() {
    let stock = "[[stock.sheet]]\nsize = [2000, 1000]\nthickness = \"5/16 in\"\n";
    let plan = planned("", stock, Depth::Quick);
    let mut kinds = plan.findings.iter().map(|it| &it.kind);
    let sold_as = kinds.find_map(|kind| match kind {
        Kind::Cut(CutKind::NoStock { sold_as, .. }) => *sold_as,
        _ => None,
    });
    let off = (sold_as.unwrap() - Length::from_inches(5.0 / 16.0)).abs();
    assert!(off < Length::from_mm(ROUNDING));
}
