//! Loads that the whole-tank check once passed over, and must not again.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

use brimful_job::Job;
use brimful_panels::case::LoadKind;
use brimful_panels::finding::kind::StrengthKind;
use brimful_panels::finding::{Finding, Grade, Kind, Quantity};
use brimful_tank::mass::MassStateKind;
use brimful_tank::plan::{Depth, Plan, plan};

fn planned(text: &str, depth: Depth) -> Plan {
    let job = Job::parse(text).unwrap_or_else(|faults| panic!("{faults:#?}"));
    plan(job, depth).unwrap_or_else(|faults| panic!("{faults:#?}"))
}

fn of_strength<'a>(
    plan: &'a Plan,
    is: impl Fn(&StrengthKind) -> bool + 'a,
) -> impl Iterator<Item = &'a Finding> {
    let findings = plan.findings.iter();
    findings.filter(move |it| matches!(&it.kind, Kind::Strength(kind) if is(kind)))
}

/// A box that is driven over rough ground, its events as said.
fn driven(events: &str) -> Plan {
    let start = r#"
[job]
lengths = "mm"
duty = "road"
[body]
box = [500, 300, 250]
thickness = 12
[liquid]
kind = "water"
warmest = "30 degC"
years = "10 years"
[shop]
process = "extrusion"
[support]
chocks = ["front", "rear", "left", "right"]
[[opening]]
name = "fill"
service = "fill"
panel = "lid"
at = [80, 150]
diameter = 30
[[opening]]
name = "hand hole"
service = "hatch"
panel = "lid"
at = [250, 150]
diameter = 150
cover = 12
"#;
    planned(&format!("{start}{events}"), Depth::Whole)
}

/// The same track in one event and in ten takes the same of a weld: ten times 2000 a day are 20000.
#[test]
fn an_event_in_ten_parts_takes_as_much() {
    let track = |number: usize, per_day: f64| {
        format!("[[event]]\nname = \"track {number}\"\ndown = 1.2\nper_day = {per_day}\n")
    };
    let stops = |plan: &Plan| {
        let over = |kind: &StrengthKind| {
            matches!(
                kind,
                StrengthKind::AddUp { .. }
                    | StrengthKind::WeldOverLimit { .. }
                    | StrengthKind::RootOpens { .. }
            )
        };
        of_strength(plan, over).any(|it| it.grade == Grade::Stop)
    };
    assert!(stops(&driven(&track(1, 20_000.0))), "one");
    let ten: String = (1..=10).map(|number| track(number, 2_000.0)).collect();
    assert!(stops(&driven(&ten)), "ten");
    assert!(!stops(&driven(&track(1, 2_000.0))), "a tenth");
}

/// A lid of 30 mm with a hatch in it, 200 mm across.
fn with_hatch(hatch: &str, checks: &str, depth: Depth) -> Plan {
    planned(&hatched(hatch, checks), depth)
}

fn hatched(hatch: &str, checks: &str) -> String {
    format!(
        r#"
[job]
lengths = "mm"
duty = "standing"
[body]
box = [500, 400, 300]
thickness = 15
thicknesses = {{ lid = 30 }}
[liquid]
kind = "water"
warmest = "25 degC"
years = "10 years"
[shop]
process = "extrusion"
{checks}
[[opening]]
name = "fill"
service = "fill"
panel = "lid"
at = [60, 60]
diameter = 30
[[opening]]
name = "hatch"
service = "hatch"
panel = "lid"
at = [250, 210]
flange = 240
{hatch}
"#
    )
}

/// The stress in a cover that is over its limit, Pa.
fn over_limit(plan: &Plan) -> Option<f64> {
    let is = |kind: &StrengthKind| matches!(kind, StrengthKind::CoverOverLimit { .. });
    of_strength(plan, is).find_map(|it| match it.figures.as_ref()?.figure {
        Quantity::Stress(stress) => Some(stress.pa()),
        _ => None,
    })
}

const LID_LOAD: &str = "[checks]\nlid_load = \"80 kg\"\n";

/// 40 kg on a circle of 50 mm radius in the middle of one of 100 mm, and the suction of 300 Pa pulls the same way; with
/// nu = 0.4: M = 392.3 / (4 pi) x (1.4 ln 2 + 1 - 0.6 / 16) = 60.3 N, 6 M / t^2 = 22.6 MPa, and 3 (3.4) / 8 x 300 Pa x 625
/// = 0.24 MPa (Roark, table 11.2 cases 16 and 10a, from memory). Spread it would be 9.9 MPa.
#[test]
fn what_hangs_on_a_cover_loads_its_middle() {
    let heavy = with_hatch(
        "diameter = 200\ncover = 4\nweighs = \"40 kg\"",
        "",
        Depth::Whole,
    );
    let found = over_limit(&heavy).unwrap();
    let poisson = heavy.whole.as_ref().unwrap().cases[0]
        .limits
        .strictest()
        .poisson;
    let moment = 40.0 * 9.80665 / (4.0 * std::f64::consts::PI)
        * ((1.0 + poisson) * 2.0_f64.ln() + 1.0 - (1.0 - poisson) / 16.0);
    let wanted = 6.0 * moment / 0.004_f64.powi(2) + 3.0 * (3.0 + poisson) / 8.0 * 300.0 * 625.0;
    assert!((found / wanted - 1.0).abs() < 1e-6, "{found} {wanted}");
    let light = with_hatch(
        "diameter = 200\ncover = 4\nweighs = \"1 kg\"",
        "",
        Depth::Whole,
    );
    assert_eq!(over_limit(&light), None);
}

/// 10 kg that stand 400 mm out of a wall pull down at 200 mm, 19.6 N m: 3 C / (pi r t^2) is 23.4 MPa, and the water behind
/// it is worth about one more.
#[test]
fn what_stands_out_of_a_cover_tilts_its_middle() {
    let over = |weighs: &str| {
        let hatch = format!("diameter = 200\ncover = 4\nweighs = \"10 kg\"\n{weighs}");
        let text = hatched(&hatch, "").replace(
            "panel = \"lid\"\nat = [250, 210]",
            "panel = \"front\"\nat = [200, 150]",
        );
        over_limit(&planned(&text, Depth::Whole))
    };
    let tilted = over("stands_out = 400").unwrap();
    assert!((23.4e6..26e6).contains(&tilted), "{tilted}");
    assert_eq!(over(""), None);
}

/// 80 kg on a circle of 50 mm radius in the middle of one of 100 mm: by hand, nu = 0.4,
/// M = 784.5 / (4 pi) x (1.4 ln 2 + 1 - 0.6 / 16) = 120.7 N, over 4 mm 6 M / t^2 = 45 MPa.
#[test]
fn who_stands_on_a_cover_loads_it() {
    let thin = with_hatch("diameter = 200\ncover = 4", LID_LOAD, Depth::Whole);
    let found = over_limit(&thin).unwrap();
    assert!((44e6..47e6).contains(&found), "{found}");
    // A rectangle as wide bears no more than the circle.
    let strip = with_hatch(
        "width = 200\nheight = 240\ncover = 4",
        LID_LOAD,
        Depth::Whole,
    );
    assert!(over_limit(&strip).unwrap() > found);
    let thick = with_hatch("diameter = 200\ncover = 30", LID_LOAD, Depth::Whole);
    assert_eq!(over_limit(&thick), None);
}

/// What a bought cover has to bear: 80 kg are 784.5 N.
#[test]
fn who_stands_on_a_bought_cover_is_told() {
    let plan = with_hatch("diameter = 200", LID_LOAD, Depth::Whole);
    let on_lid = |kind: &StrengthKind| {
        matches!(kind, StrengthKind::CoverNotChecked { case, force, .. }
            if case.kind == LoadKind::OnLid && (force.n() - 784.5).abs() < 0.1)
    };
    assert_eq!(
        of_strength(&plan, on_lid).count(),
        1,
        "{:#?}",
        plan.findings
    );
}

/// 4 mm of sheet over a flange of 240 mm: pi / 4 x 0.24^2 x 0.004 m3 of the same sheet as the panels.
#[test]
fn a_cover_of_sheet_weighs_something() {
    let empty = |hatch: &str| {
        let plan = with_hatch(hatch, "", Depth::Quick);
        let state = plan.mass.state(MassStateKind::Empty).unwrap();
        (state.mass.kg(), state.centre.z)
    };
    let (bare, low) = empty("diameter = 200");
    let (covered, high) = empty("diameter = 200\ncover = 4");
    let volume = std::f64::consts::PI / 4.0 * 0.24_f64.powi(2) * 0.004;
    let density = (covered - bare) / volume;
    assert!((930.0..970.0).contains(&density), "{density}");
    assert!(high > low);
}

/// 80 kg on 20 mm of sheet between two hatches 260 mm long, near the end of a long lid: by hand a strip fixed at both
/// ends, 784.5 N x 0.26 m / 8 over 20 x 30^2 / 6 mm3, 8.5 MPa. The rest of the lid helps and hinders by a few hundredths.
#[test]
fn who_stands_between_two_hatches_is_on_a_strip() {
    let hatch = |x: f64| {
        format!(
            "[[opening]]\nservice = \"hatch\"\npanel = \"lid\"\nat = [{x}, 200]\nwidth = 200\nheight = 260\ncover = 30\n"
        )
    };
    let text = format!(
        "[job]\nlengths = \"mm\"\nduty = \"standing\"\n[body]\nbox = [1000, 400, 300]\nthickness = 15\nthicknesses = {{ lid = 30 }}\n[liquid]\nkind = \"water\"\nwarmest = \"25 degC\"\nyears = \"10 years\"\n[shop]\nprocess = \"extrusion\"\n{LID_LOAD}{}{}",
        hatch(150.0),
        hatch(370.0)
    );
    let plan = planned(&text, Depth::Whole);
    let lid = plan.panels.iter().position(|it| it.name == *"lid").unwrap();
    let mut cases = plan.whole.as_ref().unwrap().cases.iter();
    let run = cases
        .find(|run| run.case.id.kind == LoadKind::OnLid)
        .unwrap();
    let stress = run.figures.panels[lid].stress;
    assert!((7.6e6..9.4e6).contains(&stress), "{stress}");
}
