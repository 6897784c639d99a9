//! What supports bear and hold, against statics by hand.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

mod common;

use brimful_job::Job;
use brimful_panels::case::{CaseId, Direction, EventPush, Fill, LoadKind};
use brimful_panels::finding::kind::{StrengthKind, Toward};
use brimful_panels::finding::{Finding, Grade, Kind};
use brimful_panels::shape::ShapeFaultKind;
use brimful_tank::mass::MassStateKind;
use brimful_tank::plan::{Depth, Plan, plan};
use common::whole_tank::{START, planned, rest, whole};

/// The first event of a job, forward.
const STOP: CaseId = CaseId {
    kind: LoadKind::Event,
    tilt: None,
    event: Some(EventPush {
        event: 0,
        direction: Direction::Forward,
    }),
    fill: Fill::All,
};

/// The support bears the weight of the sheet and the pressure on the floor: with pressure on the
/// middle of the sheets, `rho g (H - 1.5 t) (L - t) (W - t)` and the plates' own weight.
#[test]
fn the_support_bears_what_presses_down() {
    let plan = planned("[body]\nbox = [500, 400, 300]\nthickness = 12\n");
    let run = rest(&plan);
    let (l, w, h, t) = (0.5, 0.4, 0.3, 0.012);
    let g = 9.80665;
    let liquid = plan.job.liquid.density.kg_m3() * g * (h - 1.5 * t) * (l - t) * (w - t);
    let (a, b, c) = (l - t, w - t, h - t);
    let sheet =
        run.limits.strictest().sheet_density.kg_m3() * g * t * 2.0 * (a * b + b * c + c * a);
    let off = run.figures.borne / (liquid + sheet) - 1.0;
    // Pressure keeps to the points of the sheet it was computed for while floor and walls give way:
    // of a bulge of half a per cent of the size about half a per cent.
    assert!(off.abs() < 0.005, "{off:e}");
}

/// Two rails that stand unevenly take the weight by the rule of the lever; straps hung from above
/// each pull with a quarter of it at both ends; feet at the corners of a rectangle share alike.
#[test]
fn supports_share_the_weight_as_statics_say() {
    let on = |support: &str| {
        let job = "[body]\nbox = [500, 400, 300]\nthickness = 12\n[support]\n";
        let plan = planned(&format!("{job}{support}"));
        let run = rest(&plan);
        let pushes: Vec<f64> = run.figures.reactions.iter().map(|it| it.push).collect();
        (run.figures.borne, pushes)
    };
    // The push on a rail may lie anywhere over its width of 8 mm, of 300 mm between the two.
    let near =
        |share: f64, wanted: f64| assert!((share - wanted).abs() < 0.014, "{share} {wanted}");
    let (all, rails) = on("kind = \"rails\"\nalong = \"y\"\nat = [50, 350]\nwidth = 8");
    near(rails[0] / all, 100.0 / 300.0);
    near(rails[1] / all, 200.0 / 300.0);
    let (all, straps) = on("kind = \"straps\"\nacross = \"x\"\nat = [100, 400]\nwidth = 40");
    straps.iter().for_each(|strap| near(strap / all, 0.25));
    let (all, feet) =
        on("kind = \"feet\"\nat = [[80, 80], [420, 80], [420, 320], [80, 320]]\nsize = [60, 60]");
    feet.iter().for_each(|foot| near(foot / all, 0.25));
}

/// By hand: a box that brakes with half of gravity on a smooth floor pushes with half of what it weighs
/// against floor and chock; friction of 0.15 is the floor's part, and the chock ahead takes the rest. The
/// other chocks take nothing.
#[test]
fn a_chock_takes_what_friction_does_not_hold() {
    let body = "[body]\nbox = [500, 400, 300]\nthickness = 12\n[[event]]\nname = \"stop\"\nforward = 0.5\n";
    let chocks = "[support]\nchocks = [\"front\", \"rear\", \"left\", \"right\"]\n";
    let plan = planned(&format!("{body}{chocks}"));
    let run = whole(&plan).case(STOP).unwrap();
    let takes = &run.figures.reactions;
    let (floor, front) = (takes[0], takes[1]);
    let sideways = -(floor.sideways.x + front.sideways.x) / floor.push;
    // Walls bulge under pressure that keeps to the points of the sheet it was computed for.
    assert!((sideways / 0.5 - 1.0).abs() < 0.01, "{sideways}");
    // The springs that keep it from turning take a little too.
    let friction = -floor.sideways.x / floor.push;
    assert!((0.149..0.153).contains(&friction), "{friction}");
    assert_eq!(front.push, 0.0);
    takes[2..]
        .iter()
        .for_each(|it| assert_eq!(it.sideways.length(), 0.0));
    let slides = |plan: &Plan| {
        whole(plan).findings.iter().find_map(|it| match &it.kind {
            Kind::Strength(StrengthKind::Slides { toward, force, .. }) => {
                Some((*toward, force.n()))
            }
            _ => None,
        })
    };
    assert_eq!(slides(&plan), None);
    // Nothing is left on the floor, and friction has no part in a chock.
    let rows: Vec<_> = whole(&plan).on_supports().collect();
    assert!(rows.iter().all(|row| row.not_held().is_none()), "{rows:#?}");
    assert!(rows[1].friction.is_none());
    // Without a chock the finding says what the chock would take.
    let loose = planned(body);
    let (toward, force) = slides(&loose).unwrap();
    assert_eq!(toward, Toward::Front);
    let on_floor = whole(&loose).on_supports().next().unwrap();
    let left = on_floor.not_held().unwrap();
    assert!(
        (left.n() / force - 1.0).abs() < 0.02,
        "{on_floor:?} {force}"
    );
    assert!(
        (force / -front.sideways.x - 1.0).abs() < 0.02,
        "{force} {front:?}"
    );
}

#[test]
fn a_chock_stands_against_an_upright_wall_alone() {
    let faults = |side: &str, panel: &str| {
        let body = format!("[body]\nside = {side}\nwidth = 400\nthickness = 12\n");
        let job = Job::parse(&format!("{START}{body}[support]\nchocks = [\"{panel}\"]\n"));
        plan(job.unwrap(), Depth::Quick)
            .err()
            .map(|faults| faults.into_iter().map(|it| *it.kind).collect::<Vec<_>>())
    };
    let square = "[[0, 0], [500, 0], [500, 300], [0, 300]]";
    let leaning = "[[0, 0], [500, 0], [520, 300], [0, 300]]";
    assert_eq!(faults(square, "front"), None);
    for (side, panel) in [
        (square, "lid"),
        (leaning, "front"),
        (square, "front\", \"front"),
    ] {
        let found = faults(side, panel).unwrap();
        assert!(
            matches!(found[..], [ShapeFaultKind::Chock { .. }]),
            "{found:?}"
        );
    }
}

/// Straps swing with the tank, so that all of a push must be held; an event that lifts the tank by a fifth
/// of its weight must be held down by that.
#[test]
fn what_nothing_holds_is_told_with_its_force() {
    let found = |job: &str| -> Vec<StrengthKind> {
        let plan = planned(&format!(
            "[body]\nbox = [500, 400, 300]\nthickness = 12\n{job}"
        ));
        let findings = whole(&plan).findings.iter();
        findings
            .filter_map(|it| match &it.kind {
                Kind::Strength(kind) => Some(kind.clone()),
                _ => None,
            })
            .collect()
    };
    let weight = 9.80665 * 1000.0 * 0.488 * 0.388 * 0.288;
    let straps = "[support]\nkind = \"straps\"\nacross = \"x\"\nat = [100, 400]\nwidth = 40\n[[event]]\nname = \"stop\"\nforward = 0.5\n";
    let swings = found(straps).into_iter().find_map(|it| match it {
        StrengthKind::Slides {
            force, friction, ..
        } => Some((force.n(), friction)),
        _ => None,
    });
    let (force, friction) = swings.unwrap();
    assert_eq!(friction, None);
    // The sheet weighs 15 % as much as the liquid.
    assert!(
        (1.0..1.2).contains(&(force / (0.5 * weight))),
        "{force} {weight}"
    );
    let lifted = found("[[event]]\nname = \"dip\"\nup = 1.2\n");
    let lifts = lifted.into_iter().find_map(|it| match it {
        StrengthKind::Lifts { force, .. } => Some(force.n()),
        _ => None,
    });
    let force = lifts.unwrap();
    assert!(
        (1.0..1.2).contains(&(force / (0.2 * weight))),
        "{force} {weight}"
    );
}

/// A bed of the same slope bears the tank square to its floor: its pushes lift what weighs, and on a
/// slope of 1 in 5 the sideways hold takes its part.
#[test]
fn a_bed_bears_a_sloping_floor() {
    let body =
        "[body]\nside = [[0, 100], [500, 0], [500, 300], [0, 300]]\nwidth = 400\nthickness = 12\n";
    let plan = planned(&format!("{body}[support]\nkind = \"bed\"\n"));
    let run = rest(&plan);
    let moments = plan.body.cavity.moments();
    let liquid = plan.job.liquid.density.kg_m3() * 9.80665 * moments.volume;
    let sheet = plan.mass.state(MassStateKind::Empty).unwrap().mass.kg() * 9.80665;
    // Pressure on the middle of sheets 12 mm thick is that of a cavity some 6 mm wider all round.
    let over = run.figures.borne / (liquid + sheet) - 1.0;
    assert!((0.0..0.12).contains(&over), "{over:e}");
}

/// A tank on rails that are nowhere near it has nothing to stand on.
#[test]
fn a_tank_beside_its_rails_is_stopped() {
    let plan = planned(
        "[body]\nbox = [500, 400, 300]\nthickness = 12\n[support]\nkind = \"rails\"\nalong = \"x\"\nat = [2000, 2300]\nwidth = 40\n",
    );
    assert!(plan.stops(), "{:#?}", plan.findings);
}

/// Rails on one side of the centre of mass: the tank tips, and an equilibrium in which it hangs on
/// its side is none that anybody builds.
#[test]
fn a_tank_that_tips_is_stopped() {
    let plan = planned(
        "[body]\nbox = [400, 300, 260]\nthickness = 12\n[support]\nkind = \"rails\"\nalong = \"x\"\nat = [20, 50]\nwidth = 20\n",
    );
    let tips = |it: &Finding| {
        it.grade == Grade::Stop && matches!(it.kind, Kind::Strength(StrengthKind::Tips { .. }))
    };
    assert!(plan.findings.iter().any(tips), "{:#?}", plan.findings);
}

/// A chock of 50 mm meets a flange that begins 42 mm over the foot, and a band that begins 40 mm over it; at 57 and
/// 55 mm they are clear of it. (Openings are measured from the inside of the floor, 12 mm up.)
#[test]
fn a_chock_meets_nothing_on_its_wall() {
    let faults = |middle: f64, band: f64| {
        let text = format!(
            "{START}[body]\nbox = [500, 400, 300]\nthickness = 12\n[support]\nchocks = [\"front\"]\n[[opening]]\nname = \"tap\"\nservice = \"draw\"\npanel = \"front\"\nat = [200, {middle}]\ndiameter = 27\nflange = 60\n[[rib]]\nheights = [{band}]\ndepth = 40\nthickness = 12\n"
        );
        let found = plan(Job::parse(&text).unwrap(), Depth::Quick);
        let found = found.err().unwrap_or_default().into_iter();
        found
            .filter(|it| matches!(*it.kind, ShapeFaultKind::Chock { .. }))
            .count()
    };
    assert_eq!(faults(60.0, 260.0), 1);
    assert_eq!(faults(75.0, 260.0), 0);
    assert_eq!(faults(200.0, 46.0), 1);
    assert_eq!(faults(200.0, 61.0), 0);
}
