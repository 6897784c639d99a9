//! What the job did not say and was taken for granted, and where each value comes from.

use super::document::{Document, wide, words as column};
use crate::words::Words;
use brimful_tank::plan::Plan;
use brimful_text::{Text, say};
use brimful_units::Volume;

pub fn write(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    document.page(&say!(words, "Defaults used, and sources"));
    document.paragraph(&say!(words, "The job file does not say these; each was filled in. Whoever builds answers for them: change in the job file what does not hold."));
    let rows: Vec<Vec<Text>> = plan
        .defaults
        .iter()
        .map(|default| {
            let said = words.default_used(default);
            vec![
                words.symbol(&default.key),
                said.value,
                said.reason,
                said.source,
            ]
        })
        .collect();
    document.table(
        &[
            column(say!(words, "Key")),
            wide(say!(words, "Value")),
            wide(say!(words, "Why")),
            wide(say!(words, "Source")),
        ],
        &rows,
    );
    document.heading(&say!(words, "Proof of the panels"));
    let proof = &plan.proof;
    let exact = |volume: Volume| words.exact_volume(volume);
    let verdict = if proof.holds {
        say!(words, "the panels make up the body")
    } else {
        say!(
            words,
            "the panels do NOT make up the body: see the findings"
        )
    };
    document.facts(&[
        (say!(words, "Body"), exact(proof.body)),
        (say!(words, "Cavity"), exact(proof.cavity)),
        (
            say!(words, "Outer panels, before openings"),
            exact(proof.outer_panels),
        ),
        (
            say!(words, "Gaps and grooves between them"),
            exact(proof.grooves),
        ),
        (
            say!(words, "Body less all of these"),
            exact(proof.unaccounted),
        ),
        (say!(words, "Ribs, outside the body"), exact(proof.ribs)),
        (
            say!(words, "Largest error of a gap"),
            words.exact_length(proof.worst_gap_error),
        ),
        (say!(words, "Verdict"), verdict),
    ]);
    document.heading(&say!(words, "Conventions"));
    document.bullets(&[
        say!(words, "Drawings: lines after ISO 128-2 (wide: seen; dashed: hidden; long-dashed dotted: centres), running dimensions after ISO 129-1, seen from outside the tank unless said."),
        say!(words, "Joints and welds are named in the words of ISO 2553 (both edges square, bevelled; fillet; butt)."),
        words.rounding(),
    ]);
}
