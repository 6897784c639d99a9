//! Openings as the whole-tank check takes them: holes, what hangs on them and what covers them.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

mod common;

use brimful_panels::finding::kind::StrengthKind;
use brimful_panels::finding::{Grade, Kind};
use brimful_panels::panel::Role;
use brimful_strength::whole::PanelFigure;
use brimful_tank::plan::Plan;
use common::whole_tank::{planned, rest};

/// The figures of a panel at rest.
fn at_rest(text: &str, panel: &str) -> PanelFigure {
    let plan = planned(text);
    let number = plan.panels.iter().position(|it| it.name == *panel).unwrap();
    rest(&plan).figures.panels[number]
}

/// A slot is in the mesh however narrow it is: across the bending of its wall it weakens it by more than a
/// round hole as wide does.
#[test]
fn a_slot_is_in_the_mesh() {
    let wall = |hole: &str| {
        let opening = format!(
            "[[opening]]\nservice = \"sender\"\npanel = \"right\"\nat = [300, 200]\n{hole}\n"
        );
        let body = "[body]\nbox = [600, 400, 400]\nthickness = 12\n";
        at_rest(&format!("{body}{opening}"), "right")
    };
    let (round, slot) = (wall("diameter = 30"), wall("width = 300\nheight = 30"));
    assert!(
        slot.outward > 1.03 * round.outward,
        "{} {}",
        slot.outward,
        round.outward
    );
}

/// What hangs on a panel bends it: a pump of 10 kg in the middle of a lid of 576 by 376 mm, 12 mm thick. By
/// hand, plates with hinged and with clamped edges take 0.0151 and 0.0068 `F b^2 / D` in the middle at this
/// ratio (Timoshenko and Woinowsky-Krieger, *Theory of Plates and Shells*, tables 23 and 37, between their
/// rows); the lid of a box lies between.
#[test]
fn a_heavy_fitting_hangs_on_its_panel() {
    let lid = |weighs: &str| {
        let body =
            "[body]\nbox = [600, 400, 300]\nthickness = 12\n[checks]\nfilled_to = \"rated\"\n";
        let opening = format!(
            "[[opening]]\nname = \"pump\"\nservice = \"sender\"\npanel = \"lid\"\nat = [300, 200]\ndiameter = 20\n{weighs}\n"
        );
        let plan = planned(&format!("{body}{opening}"));
        let lid = plan
            .panels
            .iter()
            .position(|it| it.role == Role::Lid)
            .unwrap();
        let run = rest(&plan);
        let (e, nu) = (
            run.limits.strictest().modulus.pa(),
            run.limits.strictest().poisson,
        );
        let stiffness = e * 0.012_f64.powi(3) / (12.0 * (1.0 - nu * nu));
        let empty = plan.mass.states[0].mass;
        (run.figures.panels[lid].inward, stiffness, empty.kg())
    };
    let (bare, _, light) = lid("");
    let (loaded, stiffness, heavy) = lid("weighs = \"10 kg\"");
    assert!((heavy - light - 10.0).abs() < 1e-9);
    let unit = 10.0 * 9.80665 * 0.388_f64.powi(2) / stiffness;
    let more = bare - loaded;
    assert!(
        more > 0.0068 * unit && more < 0.0151 * unit,
        "{more} of {unit}"
    );
}

/// A hatch of 200 mm under a filling head: a cover of sheet by hand, `3 (3 + nu) q a^2 / (8 t^2)`, and one of which
/// nothing is said has its load named.
#[test]
fn covers_of_hatches_are_checked_or_their_load_is_told() {
    let plan = |cover: &str| {
        planned(&format!(
            "[body]\nbox = [600, 400, 300]\nthickness = 12\n[checks]\nfilling_head = \"2 m\"\n[[opening]]\nname = \"hatch\"\nservice = \"hatch\"\npanel = \"lid\"\nat = [300, 200]\ndiameter = 200\n{cover}\n"
        ))
    };
    let told = |plan: &Plan, grade: Grade| {
        let mut findings = plan.findings.iter().cloned();
        let found = findings.find(|it| {
            it.grade == grade
                && matches!(
                    it.kind,
                    Kind::Strength(
                        StrengthKind::CoverNotChecked { .. } | StrengthKind::CoverOverLimit { .. }
                    )
                )
        });
        found.map(|it| (it.kind, it.figures.map(|it| it.figure.value())))
    };
    let Some((
        Kind::Strength(StrengthKind::CoverNotChecked {
            pressure, force, ..
        }),
        _,
    )) = told(&plan(""), Grade::Mend)
    else {
        panic!("the load on the cover is told");
    };
    // The head is counted from the highest place of the tank's inside; the lid is 12 mm over that.
    assert!(
        (pressure.pa() / (998.2 * 9.80665 * 2.0) - 1.0).abs() < 0.01,
        "{}",
        pressure.pa()
    );
    let area = std::f64::consts::PI * 0.1 * 0.1;
    assert!((force.n() / (pressure.pa() * area) - 1.0).abs() < 1e-9);
    let thin = plan("cover = 4");
    let (_, stress) = told(&thin, Grade::Stop).expect("4 mm is too thin");
    let poisson = rest(&thin).limits.strictest().poisson;
    let by_hand = 3.0 * (3.0 + poisson) / 8.0 * pressure.pa() * (100.0_f64 / 4.0).powi(2);
    assert!(
        (stress.unwrap() / by_hand - 1.0).abs() < 1e-6,
        "{stress:?} {by_hand}"
    );
    assert!(told(&plan("cover = 15"), Grade::Stop).is_none());
}

/// A cover is checked on whatever opening it is said of.
#[test]
fn a_cover_on_a_vent_is_checked() {
    let plan = planned(
        "[body]\nbox = [600, 400, 300]\nthickness = 12\n[checks]\nfilling_head = \"2 m\"\n[[opening]]\nname = \"dome\"\nservice = \"vent\"\npanel = \"lid\"\nat = [300, 200]\ndiameter = 200\ncover = 4\n",
    );
    let over = |kind: &Kind| matches!(kind, Kind::Strength(StrengthKind::CoverOverLimit { .. }));
    assert!(plan.findings.iter().any(|it| over(&it.kind)));
}
