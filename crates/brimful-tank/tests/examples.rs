//! Every example job is worked out from end to end.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

use brimful_job::Job;
use brimful_panels::finding::{Grade, Kind};
use brimful_tank::plan::{Depth, plan};
use std::path::PathBuf;

fn examples() -> Vec<PathBuf> {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../examples");
    let mut files: Vec<_> = std::fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.to_string_lossy().ends_with(".job.toml"))
        .collect();
    files.sort();
    assert!(files.len() >= 6, "the examples are gone");
    files
}

#[test]
fn every_example_has_proven_panels() {
    for path in examples() {
        let text = std::fs::read_to_string(&path).unwrap();
        let job = Job::parse(&text).unwrap_or_else(|faults| panic!("{path:?}: {faults:#?}"));
        let plan = plan(job, Depth::Quick).unwrap_or_else(|faults| panic!("{path:?}: {faults:#?}"));
        assert!(plan.proof.holds, "{path:?}: {:#?}", plan.proof);
        assert!(plan.body.solid.faults().is_empty() && plan.body.cavity.faults().is_empty());
        for panel in &plan.panels {
            let solid = panel.finished.solid_with_cutouts();
            assert_eq!(solid.faults(), [], "{path:?} {}", panel.name);
        }
        let of_panels = |kind: &Kind| matches!(kind, Kind::Panels(_));
        let mut findings = plan.findings.iter();
        assert!(!findings.any(|f| f.grade == Grade::Stop && of_panels(&f.kind)));
    }
}

#[test]
fn the_shelf_box_passes_every_check() {
    let text = include_str!("../../../examples/shelf-box.job.toml");
    let plan = plan(Job::parse(text).unwrap(), Depth::Whole).unwrap();
    assert!(!plan.stops(), "{:#?}", plan.findings);
}
