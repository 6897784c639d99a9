//! The quick strength check, span by span.

use super::document::{Document, figures, wide, words as column};
use crate::words::Words;
use brimful_tank::check::quick::{Governs, SpanCheck};
use brimful_tank::plan::Plan;
use brimful_units::show;
use std::collections::BTreeSet;

pub fn write(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    document.page("Strength: the quick check");
    document.paragraph("Each span of a panel between its supports as a flat plate. Bulge is with hinged edges, the larger of the two bounds. \"Used\" is stress over what is allowed: above 1 it does not hold. A span that is not covered is not passed. Of each span only the loads with the most bulge and the most use are listed here; strength.csv has all.");
    let system = plan.job.about.units;
    let rows: Vec<Vec<String>> = governing(&plan.quick.rows)
        .into_iter()
        .map(|row| row_of(plan, row, words, system))
        .collect();
    if rows.is_empty() {
        document.paragraph("No span could be checked: see the findings.");
    } else {
        document.table(
            &[
                wide("Span"),
                wide("Load"),
                figures("Acts for,\nat"),
                figures(format!("Size\n({})", words.length_unit())),
                figures("Pressure"),
                figures("Bulge"),
                figures("Stress /\nallowed"),
                figures("Used"),
                column("Covered"),
            ],
            &rows,
        );
    }
    document.heading("What the check takes for granted");
    document.bullets(&words.text.quick_assumptions());
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

fn row_of(
    plan: &Plan,
    row: &SpanCheck,
    words: &Words<'_>,
    system: brimful_units::UnitSystem,
) -> Vec<String> {
    let mark = plan
        .panels
        .get(row.panel)
        .map_or("", |panel| panel.mark.as_str());
    let governs = match row.governs {
        Governs::Sheet => "sheet",
        Governs::Weld => "weld",
    };
    vec![
        format!(
            "{mark} {}",
            words.text.span(&plan.panels[row.panel].name, row.span)
        ),
        words.text.case(row.case).into(),
        format!(
            "{}\n{}",
            show::time(row.duration),
            show::temperature(row.temperature, system)
        ),
        format!(
            "{} x {}",
            words.bare(row.width.m()),
            words.bare(row.height.m())
        ),
        format!(
            "{}\nto {}",
            show::pressure(row.pressure_low, system),
            show::pressure(row.pressure_high, system)
        ),
        words.fine(row.deflection),
        format!(
            "{governs} {} /\n{}",
            show::stress(row.stress, system),
            show::stress(row.allowable, system)
        ),
        show::decimal(row.utilisation, 2),
        if row.covered { "yes" } else { "NO" }.into(),
    ]
}

fn sources(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    let sources: BTreeSet<String> = plan
        .quick
        .rows
        .iter()
        .flat_map(|row| &row.sources)
        .map(|source| words.text.source(source).to_string())
        .collect();
    if !sources.is_empty() {
        document.heading("Sources");
        document.bullets(&sources.into_iter().collect::<Vec<_>>());
    }
}
