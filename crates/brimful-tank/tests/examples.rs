//! Every example job is worked out from end to end.

use brimful_tank::finding::Grade;
use brimful_tank::job::Job;
use brimful_tank::plan::{Plan, plan};
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

fn plan_of(name: &str) -> Plan {
    let path = examples()
        .into_iter()
        .find(|path| {
            path.file_name()
                .unwrap()
                .to_string_lossy()
                .starts_with(name)
        })
        .unwrap();
    let job = Job::parse(&std::fs::read_to_string(path).unwrap()).unwrap();
    plan(job).unwrap()
}

#[test]
fn every_example_has_proven_panels() {
    for path in examples() {
        let text = std::fs::read_to_string(&path).unwrap();
        let job = Job::parse(&text).unwrap_or_else(|faults| panic!("{path:?}: {faults:#?}"));
        let plan = plan(job).unwrap_or_else(|faults| panic!("{path:?}: {faults:#?}"));
            "{:?} brim {:?} rated {:?} usable {:?} sheets {}",
            path.file_name().unwrap(),
            plan.capacity.brim().litres(),
            plan.capacity.rated().litres(),
            plan.capacity.usable().map(|v| v.litres()),
            plan.cut.sheets()
        );
        for f in &plan.findings {
                "   {:?} {}: {} [{:?} / {:?}]",
                f.grade,
                f.about,
                f.says,
                f.figure.map(|q| q.text(&plan.job.about)),
                f.limit.map(|q| q.text(&plan.job.about))
            );
        }
        for p in &plan.panels {
            let (a, b) = p.finished.bounds();
                "   {} {} {:?} {:.1}x{:.1}",
                p.mark,
                p.name,
                p.role,
                (b.x - a.x) * 1e3,
                (b.y - a.y) * 1e3
            );
        }
        assert!(plan.proof.holds, "{path:?}: {:#?}", plan.proof);
        assert!(plan.body.solid.faults().is_empty() && plan.body.cavity.faults().is_empty());
        for panel in &plan.panels {
            assert_eq!(
                panel.finished.solid_with_cutouts().faults(),
                [],
                "{path:?} {}",
                panel.name
            );
        }
        let unproven = plan.findings.iter().any(|finding| {
            finding.grade == Grade::Stop && finding.source.contains("proof of panels")
        });
        assert!(!unproven);
    }
}
