//! The order of work as it is followed at the bench.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

use brimful_job::Job;
use brimful_panels::weld::bench::bench;
use brimful_tank::plan::{Depth, plan};
use std::collections::BTreeSet;

#[test]
fn every_step_has_an_id_of_its_own_and_cautions() {
    let text = include_str!("../../../examples/shelf-box.job.toml");
    let plan = plan(Job::parse(text).unwrap(), Depth::Quick).unwrap();
    let steps = bench(
        &plan.order.steps,
        plan.heat.as_ref(),
        &plan.panels,
        &plan.seams,
        &plan.welds.welds,
        &plan.fixtures.blocks,
    );
    let ids: BTreeSet<&str> = steps.iter().map(|step| step.id.as_str()).collect();
    assert_eq!(ids.len(), steps.len());
    // Test strips, angle blocks, edges, and the water test.
    assert_eq!(steps.len(), plan.order.steps.len() + 4);
    assert!(steps.iter().all(|step| !step.cautions.is_empty()));
}
