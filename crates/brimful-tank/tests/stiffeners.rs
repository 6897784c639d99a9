//! Ribs round the outside and stays inside: cut, welded, weighed and proven like everything else.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

use brimful_tank::finding::Grade;
use brimful_tank::job::Job;
use brimful_tank::panel::{Panel, Role};
use brimful_tank::plan::{Depth, Plan, plan};
use brimful_tank::seam::Joint;

const START: &str = r#"
[job]
name = "stiff box"
lengths = "mm"
duty = "standing"
[liquid]
kind = "water"
[stock]
material = "HDPE"
[[stock.sheet]]
size = [3000, 1500]
thickness = 10
[shop]
process = "extrusion"
[body]
box = [600, 500, 900]
thickness = 10
"#;

fn planned(rest: &str) -> Plan {
    let job = Job::parse(&format!("{START}\n{rest}")).unwrap_or_else(|it| panic!("{it:#?}"));
    plan(job, Depth::Quick).unwrap_or_else(|it| panic!("{it:#?}"))
}

fn of(plan: &Plan, role: Role) -> Vec<&Panel> {
    plan.panels
        .iter()
        .filter(|panel| panel.role == role)
        .collect()
}

const BANDS: &str = "[[rib]]\nname = \"band\"\nheights = [150, 300, 500]\ndepth = 60\n";

/// Four strips a band. With the gap g to the wall each band covers the ring between the box grown
/// by g and by 60 mm, less the gaps g across its four mitres of length sqrt(2) (60 - g).
#[test]
fn three_bands_are_twelve_strips_of_known_volume() {
    let plan = planned(BANDS);
    let ribs = of(&plan, Role::Rib);
    assert_eq!(ribs.len(), 12);
    let gap = plan.job.shop.gap.m();
    let (l, w, d, t) = (0.6, 0.5, 0.06, 0.01);
    let ring = (l + 2.0 * d) * (w + 2.0 * d) - (l + 2.0 * gap) * (w + 2.0 * gap);
    let mitres = 4.0 * gap * 2.0_f64.sqrt() * (d - gap);
    let found: f64 = ribs
        .iter()
        .map(|rib| rib.finished.solid().moments().volume)
        .sum();
    let by_hand = 3.0 * t * (ring - mitres);
    assert!((found / by_hand - 1.0).abs() < 1e-6, "{found} {by_hand}");
    assert!((plan.proof.ribs.m3() - found).abs() < 1e-12);
    let feet = plan
        .seams
        .iter()
        .filter(|seam| seam.joint == Joint::Tee && plan.panels[seam.panels[0]].role == Role::Rib);
    assert_eq!(feet.count(), 12);
    assert!(
        !plan
            .findings
            .iter()
            .any(|it| it.grade == Grade::Stop && it.says.contains("overlaps"))
    );
    let bare = planned("");
    let density = 950.0;
    let more = plan.mass.panels.kg() - bare.mass.panels.kg();
    assert!((more / (density * found) - 1.0).abs() < 1e-6, "{more}");
}

/// A stay is a strip between two walls: its volume is taken off the liquid.
#[test]
fn two_stays_take_their_volume_off_the_liquid() {
    let stays = "[[inner]]\nkind = \"stay\"\nacross = \"x\"\nat = 200\nheight = 200\nwidth = 60\n[[inner]]\nkind = \"stay\"\nacross = \"x\"\nat = 400\nheight = 200\nwidth = 60\n";
    let (plan, bare) = (planned(stays), planned(""));
    assert_eq!(of(&plan, Role::Stay).len(), 2);
    let less = bare.capacity.brim().m3() - plan.capacity.brim().m3();
    // Each reaches from wall to wall, 480 mm: once welded, rod fills its gaps.
    let by_hand = 2.0 * 0.48 * 0.06 * 0.01;
    assert!((less - by_hand).abs() < 1e-3 * by_hand, "{less} {by_hand}");
    assert!(plan.proof.unaccounted.m3().abs() < 1e-9 * plan.proof.body.m3());
}

#[test]
fn a_band_that_does_not_fit_is_told_with_its_place() {
    let fault = |rest: &str| {
        let job = Job::parse(&format!("{START}\n{rest}")).unwrap_or_else(|it| panic!("{it:#?}"));
        plan(job, Depth::Quick).unwrap_err()
    };
    for (rest, says) in [
        ("[[rib]]\nheights = [2000]\ndepth = 60\n", "reach"),
        ("[[rib]]\nheights = [300, 305]\ndepth = 60\n", "runs into"),
        (
            "[[rib]]\nheights = [300]\ndepth = 60\npanels = [\"lid\"]\n",
            "does not stand upright",
        ),
        (
            "[[rib]]\nheights = [300]\ndepth = 60\npanels = [\"frond\"]\n",
            "frond",
        ),
    ] {
        let faults = fault(rest);
        let told: String = faults.iter().map(ToString::to_string).collect();
        assert!(told.contains(says), "{rest}: {told}");
    }
}

/// Bands carry: the bulge of a deep wall falls to a fraction, and the more of them the less.
#[test]
fn bands_hold_the_walls_in() {
    let bulge = |rest: &str| {
        let job = Job::parse(&format!("{START}\n{rest}")).unwrap_or_else(|it| panic!("{it:#?}"));
        let plan = plan(job, Depth::Whole).unwrap_or_else(|it| panic!("{it:#?}"));
        let whole = plan.whole.unwrap();
        assert!(!whole.cases.is_empty(), "{:#?}", whole.findings);
        whole
            .cases
            .iter()
            .map(|run| run.worst.last().unwrap()[0])
            .fold(0.0, f64::max)
    };
    let (bare, banded) = (bulge(""), bulge(BANDS));
    assert!(banded < 0.6 * bare, "{banded} {bare}");
}
