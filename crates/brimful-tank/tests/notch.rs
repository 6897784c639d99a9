//! The stress next to a notch does not depend on where the mesh happens to put its nodes.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

mod common;

use brimful_job::Job;
use brimful_strength::whole::on_mesh;
use brimful_tank::plan::{Depth, plan};
use common::whole_tank::tank;

/// Its middle baffle stands on the floor with two ends, and is asked most of there.
const BENCH_BOX: &str = include_str!("../../../tests/jobs/bench-box.job.toml");

/// Read at the nearest nodes that were more than a thickness away it was 0.94, 0.85 and 0.92 of the limit on
/// these meshes. On a circle the meshes agree to the 3 % that a verdict stands by, and to four times that on
/// one whose elements there are longer than the circle's radius.
#[test]
fn stress_at_the_foot_of_a_baffle_converges() {
    let found = plan(Job::parse(BENCH_BOX).unwrap(), Depth::Whole).unwrap();
    let cases = found.whole.as_ref().unwrap().cases.iter();
    let governing = cases
        .max_by(|a, b| a.figures.worst_panel().total_cmp(&b.figures.worst_panel()))
        .unwrap();
    let tank = tank(&found);
    let on = |fineness: f64| {
        let score = on_mesh(&tank, &found.welds.welds, &[governing.case.id], fineness);
        score.unwrap().panel
    };
    let finest = on(30.0);
    for (fineness, error) in [(9.0, 0.12), (13.5, 0.03), (20.25, 0.03)] {
        let used = on(fineness);
        assert!(
            (used - finest).abs() < error * finest,
            "{fineness}: {used} of {finest}"
        );
    }
}
