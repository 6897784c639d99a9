//! A tank that is never filled to the brim: what that changes, and what has to keep it so.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

use brimful_job::{FilledTo, Job};
use brimful_panels::case::{CaseId, LoadKind};
use brimful_panels::finding::kind::{FillingKind, PracticeKind};
use brimful_panels::finding::{Finding, Grade, Kind, Subject};
use brimful_panels::name::CompartmentId;
use brimful_tank::plan::{Depth, Plan, plan};
use brimful_tank::remedy::What;
use brimful_units::Length;

/// Deep and thin: too weak when brim-full. `rest` comes after the body.
fn planned(rest: &str, depth: Depth) -> Plan {
    sheet(10, rest, depth)
}

fn sheet(thickness: u32, rest: &str, depth: Depth) -> Plan {
    let text = format!(
        "[job]\nlengths = \"mm\"\nduty = \"standing\"\n[liquid]\nkind = \"water\"\nwarmest = \"43 degC\"\nair_space = 150\n\
         [stock]\nmaterial = \"HDPE\"\n[[stock.sheet]]\nsize = [3000, 1500]\nthickness = {thickness}\n[[stock.rod]]\ndiameter = 4\n\
         [body]\nbox = [600, 500, 500]\nthickness = {thickness}\n{rest}"
    );
    let job = Job::parse(&text).unwrap_or_else(|it| panic!("{it:#?}"));
    plan(job, depth).unwrap_or_else(|it| panic!("{it:#?}"))
}

fn filling(plan: &Plan) -> Option<&Finding> {
    let about = Subject::Filling(CompartmentId::Only);
    plan.findings.iter().find(|it| it.subject == about)
}

const RATED: &str = "[checks]\nfilled_to = \"rated\"\n";
const FILL: &str = "[[opening]]\nname = \"filler\"\nservice = \"fill\"\npanel = \"lid\"\nat = [100, 100]\ndiameter = 40\n";

fn overflow(up: u32, diameter: u32) -> String {
    format!(
        "[[opening]]\nname = \"spill\"\nservice = \"overflow\"\npanel = \"front\"\nat = [250, {up}]\ndiameter = {diameter}\n"
    )
}

/// The inside of the lid is at 490 mm and the level at 340 mm.
#[test]
fn only_an_overflow_low_and_large_enough_keeps_a_tank_from_being_filled_higher() {
    assert!(filling(&planned(FILL, Depth::Quick)).is_none(), "brim-full");
    let found = |up, diameter| {
        let plan = planned(
            &format!("{FILL}{}{RATED}", overflow(up, diameter)),
            Depth::Quick,
        );
        filling(&plan).unwrap().grade
    };
    assert_eq!(found(300, 40), Grade::Note);
    assert_eq!(
        found(325, 40),
        Grade::Mend,
        "its upper edge is above the level"
    );
    assert_eq!(found(300, 30), Grade::Mend, "smaller than the fill");
    let none = planned(&format!("{FILL}{RATED}"), Depth::Quick);
    let none = filling(&none).unwrap();
    let air = Length::from_mm(150.0);
    let Kind::Practice(PracticeKind::Filling(FillingKind::NotKeptBelow { air: found })) = none.kind
    else {
        panic!("{none:?}")
    };
    assert!((found - air).abs() < Length::from_mm(1e-6), "{none:?}");
}

/// Inside it measures 580 by 480 mm. The upper edge of the overflow is at 330 mm in the outside of the
/// left side, 250 mm from the middle. With that side up by 6 deg the liquid in the middle stands
/// 250 tan(6 deg) = 26.3 mm higher, 16.3 mm above the level of 340 mm: 4.5 L.
#[test]
fn an_overflow_on_the_side_that_is_up_lets_more_in_than_was_checked() {
    let heeled = |heel: &str, up: u32| {
        let spill = format!(
            "[[opening]]\nname = \"spill\"\nservice = \"overflow\"\npanel = \"left\"\nat = [300, {up}]\ndiameter = 40\n"
        );
        let trim = format!("[trim]\nheel = \"{heel}\"\n");
        let plan = planned(&format!("{FILL}{spill}{RATED}{trim}"), Depth::Quick);
        filling(&plan).unwrap().clone()
    };
    let level = heeled("0 deg", 300);
    assert_eq!(level.grade, Grade::Note, "{level:?}");
    let up = heeled("6 deg", 300);
    assert_eq!(up.grade, Grade::Mend, "{up:?}");
    let Kind::Practice(PracticeKind::Filling(FillingKind::KeptBelowWhenLevel {
        more,
        overflow,
        ..
    })) = &up.kind
    else {
        panic!("{up:?}")
    };
    assert_eq!(overflow, "spill");
    assert!((more.litres() - 4.5).abs() < 0.05, "{up:?}");
    // One in each side: at 6 deg either way and level one of them keeps it. Their upper edges are at 335
    // and 355 mm, so that where both would run, at atan(10 / 250) = 2.3 deg, it stands at 345 mm.
    let both: String = [("left", 305), ("right", 325)]
        .map(|(side, up)| format!("[[opening]]\nname = \"spill {side}\"\nservice = \"overflow\"\npanel = \"{side}\"\nat = [300, {up}]\ndiameter = 40\n"))
        .concat();
    let trim = "[trim]\nheel = [\"-6 deg\", \"6 deg\"]\n";
    let plan = planned(&format!("{FILL}{both}{RATED}{trim}"), Depth::Quick);
    let found = filling(&plan).unwrap();
    assert_eq!(found.grade, Grade::Mend, "{found:?}");
    let down = heeled("-6 deg", 300);
    assert_eq!(down.grade, Grade::Note, "{down:?}");
}

#[test]
fn a_lower_fill_asks_for_less_but_for_the_leak_test() {
    let (full, lower) = (planned("", Depth::Whole), planned(RATED, Depth::Whole));
    let used = |plan: &Plan, kind: LoadKind| {
        let run = plan.whole.as_ref().unwrap().case(CaseId::of(kind)).unwrap();
        // The waterline is a line of the mesh, so the meshes differ.
        run.earlier.first().unwrap_or(&run.figures).worst_panel()
    };
    let share = used(&lower, LoadKind::Test) / used(&full, LoadKind::Test);
    assert!((share - 1.0).abs() < 0.1, "{share}");
    let share = used(&lower, LoadKind::Rest) / used(&full, LoadKind::Rest);
    assert!(share < 0.8, "{share}");
}

/// The change is a job like any other: worked out by itself it comes to what the trial came to, as
/// far as the first mesh tells.
#[test]
fn a_lower_fill_that_holds_is_a_job_that_holds() {
    let plan = sheet(12, "", Depth::Remedies);
    let lower = plan
        .remedies
        .tried
        .iter()
        .find(|it| it.is_shown() && matches!(it.change.what, What::LowerFill { .. }));
    let lower = lower.unwrap_or_else(|| {
        panic!(
            "{:?}",
            plan.remedies
                .tried
                .iter()
                .map(|r| (r.change.what.clone(), r.score.clone(), r.holds))
                .collect::<Vec<_>>()
        )
    });
    let job = lower.change.job.clone();
    assert_eq!(job.checks.filled_to, FilledTo::Rated);
    assert_eq!(lower.change.writes(&plan.job).len(), 2);
    let after = brimful_tank::plan::plan(job, Depth::Whole).unwrap();
    assert!(after.capacity.rated() < plan.capacity.brim());
    let score = after.whole.as_ref().unwrap().score().unwrap();
    let tried = lower.score.as_ref().unwrap();
    let share = score.panel / tried.panel;
    assert!((0.7..1.5).contains(&share), "{share}");
}
