//! The quick strength check, span by span.

use super::document::{Document, figures, wide, words as column};
use crate::words::Words;
use brimful_strength::quick::{Governs, SpanCheck};
use brimful_tank::plan::Plan;
use brimful_text::{Text, say};
use std::collections::BTreeSet;

pub fn write(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    document.page(&say!(words, "Strength: the quick check"));
    document.paragraph(&say!(words, "Each span of a panel between its supports as a flat plate. Bulge is with hinged edges, the larger of the two bounds. \"Used\" is stress over what is allowed: above 1 it does not hold. A span that is not covered is not passed. Of each span only the loads with the most bulge and the most use are listed here; strength.csv has all."));
    let rows: Vec<Vec<Text>> = governing(&plan.quick.rows)
        .into_iter()
        .map(|row| row_of(plan, row, words))
        .collect();
    if rows.is_empty() {
        document.paragraph(&say!(words, "No span could be checked: see the findings."));
    } else {
        document.table(
            &[
                wide(say!(words, "Span")),
                wide(say!(words, "Load")),
                figures(say!(words, "Acts for,\nat")),
                figures(say!(words, "Size\n({unit})", unit = words.length_unit())),
                figures(say!(words, "Pressure")),
                figures(say!(words, "Bulge")),
                figures(say!(words, "Stress /\nallowed")),
                figures(say!(words, "Used")),
                column(say!(words, "Covered")),
            ],
            &rows,
        );
    }
    document.heading(&say!(words, "What the check takes for granted"));
    document.bullets(&words.quick_assumptions());
    sources(document, plan, words);
}

/// Of each span the load that bulges it most and the load that uses its strength most.
fn governing(rows: &[SpanCheck]) -> Vec<&SpanCheck> {
    let mut governing: Vec<&SpanCheck> = Vec::new();
    for span in rows.chunk_by(|a, b| a.panel == b.panel && a.span == b.span) {
        let most = |figure: fn(&SpanCheck) -> f64| {
            span.iter().max_by(|a, b| figure(a).total_cmp(&figure(b)))
        };
        let bulge = most(|row| row.deflection.m());
        let used = most(|row| row.utilisation);
        governing.extend(bulge);
        governing.extend(used.filter(|row| bulge.is_none_or(|other| !std::ptr::eq(*row, other))));
    }
    governing
}

fn row_of(plan: &Plan, row: &SpanCheck, words: &Words<'_>) -> Vec<Text> {
    let panel = &plan.panels[row.panel];
    let (stress, allowed) = (words.stress(row.stress), words.stress(row.allowable));
    vec![
        Text::join(
            [words.symbol(&panel.mark), words.span(&panel.name, row.span)],
            " ",
        ),
        words.case(row.case),
        Text::join(
            [words.time(row.duration), words.temperature(row.temperature)],
            "\n",
        ),
        words.bare_size([row.width, row.height].map(|length| length.m())),
        say!(
            words,
            "{low}\nto {high}",
            low = words.pressure(row.pressure_low),
            high = words.pressure(row.pressure_high)
        ),
        words.fine(row.deflection),
        match row.governs {
            Governs::Sheet => say!(
                words,
                "sheet {stress} /\n{allowed}",
                stress = stress,
                allowed = allowed
            ),
            Governs::Weld => say!(
                words,
                "weld {stress} /\n{allowed}",
                stress = stress,
                allowed = allowed
            ),
        },
        words.ratio(row.utilisation),
        if row.covered {
            say!(words, "yes")
        } else {
            say!(words, "NO")
        },
    ]
}

fn sources(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    let sources: BTreeSet<Text> = plan
        .quick
        .rows
        .iter()
        .flat_map(|row| &row.sources)
        .map(|source| words.source(source))
        .collect();
    if !sources.is_empty() {
        document.heading(&say!(words, "Sources"));
        document.bullets(&sources.into_iter().collect::<Vec<_>>());
    }
}
