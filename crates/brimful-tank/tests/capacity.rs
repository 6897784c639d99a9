//! What a tank holds against what is wanted.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

use brimful_job::Job;
use brimful_panels::finding::kind::CapacityKind;
use brimful_panels::finding::{Finding, Grade, Kind};
use brimful_tank::plan::{Depth, plan};

/// A box of 400 x 300 x 260 mm in 10 mm sheet holds 380 x 280 x 240 mm = 25.536 L to the brim. Half its
/// inside area, 0.2648 m2, by 0.5 mm of saw is 0.132 L.
#[test]
fn what_only_the_saw_decides_is_said() {
    let about_capacity = |wanted: f64| -> Vec<Finding> {
        let job = Job::parse(&format!(
            "[job]\nlengths = \"mm\"\nduty = \"standing\"\n[liquid]\nkind = \"water\"\nwanted = \"{wanted} L brim\"\n[body]\nbox = [400, 300, 260]\nthickness = 10\n[shop]\nsaw_tolerance = 0.5\n"
        ));
        let plan = plan(job.unwrap(), Depth::Quick).unwrap();
        let findings = plan.findings.into_iter();
        findings
            .filter(|it| {
                matches!(
                    it.kind,
                    Kind::Capacity(
                        CapacityKind::BelowWanted(_) | CapacityKind::NarrowlyWanted { .. }
                    )
                )
            })
            .collect()
    };
    assert!(about_capacity(25.3).is_empty());
    let narrow = about_capacity(25.5);
    assert_eq!(narrow[0].grade, Grade::Mend);
    let Kind::Capacity(CapacityKind::NarrowlyWanted { within, .. }) = narrow[0].kind else {
        panic!("{narrow:?}");
    };
    assert!((within.litres() - 0.1324).abs() < 1e-6, "{within:?}");
    assert_eq!(about_capacity(25.6)[0].grade, Grade::Stop);
}
