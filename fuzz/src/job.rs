//! Any text at all as a job file: it is refused with faults, or worked out to a plan. Never a
//! panic, and never proven panels that do not add up.
#![no_main]

use brimful_job::Job;
use brimful_tank::plan::{Depth, plan};
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| {
    let Ok(text) = std::str::from_utf8(bytes) else {
        return;
    };
    match Job::parse(text) {
        Err(faults) => {
            assert!(!faults.is_empty());
            for fault in faults {
                assert!(
                    text.get(fault.span.clone()).is_some(),
                    "the span cuts a character"
                );
            }
        }
        Ok(job) => {
            if let Ok(plan) = plan(job, Depth::Quick) {
                let proof = &plan.proof;
                let sum = proof.cavity + proof.outer_panels + proof.grooves;
                let off = (sum - proof.body).abs().m3() > 1e-9 * proof.body.m3();
                assert!(!off || plan.stops(), "wrong panels passed as right");
            }
        }
    }
});
