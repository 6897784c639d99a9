//! What the job did not say and was taken for granted, and where each value comes from.

use super::document::{Document, wide, words as column};
use crate::words::Words;
use brimful_tank::plan::Plan;

pub fn write(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    document.page("Defaults used, and sources");
    document.paragraph("The job file does not say these; each was filled in. Whoever builds answers for them: change in the job file what does not hold.");
    let rows: Vec<Vec<String>> = plan
        .defaults
        .iter()
        .map(|default| {
            let said = words.text.default_used(default);
            vec![
                default.key.clone(),
                said.value.into(),
                said.reason.into(),
                said.source.into(),
            ]
        })
        .collect();
    document.table(
        &[column("Key"), wide("Value"), wide("Why"), wide("Source")],
        &rows,
    );
    document.heading("Proof of the panels");
    let proof = &plan.proof;
    let exact = |volume: brimful_units::Volume| format!("{:.6} L", volume.litres());
    document.facts(&[
        ("Body".into(), exact(proof.body)),
        ("Cavity".into(), exact(proof.cavity)),
        (
            "Outer panels, before openings".into(),
            exact(proof.outer_panels),
        ),
        ("Gaps and grooves between them".into(), exact(proof.grooves)),
        ("Body less all of these".into(), exact(proof.unaccounted)),
        ("Ribs, outside the body".into(), exact(proof.ribs)),
        (
            "Largest error of a gap".into(),
            format!("{:.6} mm", proof.worst_gap_error.mm()),
        ),
        (
            "Verdict".into(),
            if proof.holds {
                "the panels make up the body"
            } else {
                "the panels do NOT make up the body: see the findings"
            }
            .into(),
        ),
    ]);
    document.heading("Conventions");
    document.bullets(&[
        "Drawings: lines after ISO 128-2 (wide: seen; dashed: hidden; long-dashed dotted: centres), running dimensions after ISO 129-1, seen from outside the tank unless said.",
        "Joints and welds are named in the words of ISO 2553 (both edges square, bevelled; fillet; butt).",
        words.rounding().as_str(),
    ]);
}
