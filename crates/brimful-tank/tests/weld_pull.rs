//! How far the welds of a whole job pull it out of flat.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

use brimful_job::Job;
use brimful_strength::whole::Pull;
use brimful_tank::plan::{Depth, Plan, plan};
use brimful_units::Length;

/// A box with these lines beside its own.
fn pulled(shop: &str, rest: &str) -> (Plan, Pull) {
    let text = format!(
        "[job]\nname = \"pull\"\nlengths = \"mm\"\nduty = \"standing\"\n[liquid]\nkind = \"water\"\n[stock]\nmaterial = \"HDPE\"\n[[stock.sheet]]\nsize = [2000, 1000]\nthickness = 8\n[shop]\n{shop}\n[body]\nbox = [600, 400, 300]\nthickness = 8\n{rest}"
    );
    let job = Job::parse(&text).unwrap_or_else(|it| panic!("{it:#?}"));
    let plan = plan(job, Depth::Whole).unwrap_or_else(|it| panic!("{it:#?}"));
    let pull = plan.pull.clone().unwrap();
    (plan, pull)
}

fn bow(plan: &Plan, pull: &Pull, panel: &str) -> [Length; 3] {
    let is_it =
        |it: &&brimful_strength::whole::Bow| plan.panels[it.panel].name.to_string() == panel;
    pull.panels.iter().find(is_it).unwrap().bow
}

#[test]
fn bows_are_in_proportion_to_the_strain() {
    let (plan, ranged) = pulled("", "");
    let (_, measured) = pulled("pull = 0.02", "");
    for (one, other) in ranged.panels.iter().zip(&measured.panels) {
        // Rounding of the same figure.
        assert!((one.bow[1] - other.bow[1]).abs() < Length::from_mm(1e-6));
        assert!(one.bow[0] < one.bow[1] && one.bow[1] < one.bow[2]);
        assert_eq!(other.bow[0], other.bow[2]);
    }
    assert!(ranged.strip.is_some() && measured.strip.is_none());
    // A few millimetres: none is flat to a hundredth, none is out by a tenth of its size.
    let [least, _, most] = bow(&plan, &ranged, "front");
    assert!(
        least > Length::from_mm(0.1) && most < Length::from_mm(60.0),
        "{least:?} {most:?}"
    );
}

#[test]
fn walls_that_are_alike_bow_alike_in_one_step() {
    let (plan, pull) = pulled("", "");
    let [one, other] = ["left", "right"].map(|name| bow(&plan, &pull, name)[1]);
    // Both are welded inside in one step and outside in one; the mesh is not quite its own mirror image.
    assert!((one - other).abs() < one * 0.1, "{one:?} {other:?}");
}

#[test]
fn of_a_sheet_whose_beads_nobody_has_measured_nothing_is_said() {
    let text = "[job]\nname = \"pull\"\nlengths = \"mm\"\nduty = \"standing\"\n[liquid]\nkind = \"water\"\n[stock]\nmaterial = \"PVC-U\"\n[[stock.sheet]]\nsize = [2000, 1000]\nthickness = 8\n[body]\nbox = [600, 400, 300]\nthickness = 8\n";
    let plan = plan(Job::parse(text).unwrap(), Depth::Whole).unwrap();
    assert_eq!(plan.pull, None);
}
