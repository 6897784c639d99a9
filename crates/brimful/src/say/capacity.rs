//! What each compartment holds, for the answers of `check` and `gauge`.

use super::layout::Table;
use brimful_tank::plan::Plan;
use brimful_text::{Words, say};
use brimful_units::Volume;

pub(super) fn capacity(plan: &Plan, words: &Words<'_>) -> String {
    let mut table = Table::new(
        words,
        &[
            "capacity",
            ">brim",
            ">rated",
            ">usable",
            ">left behind",
            ">trapped air",
            "outlets",
            "vents",
        ],
    );
    let or_unknown = |volume: Option<Volume>| {
        volume.map_or_else(|| words.not_known(), |volume| words.volume(volume))
    };
    let or_none = |names: &[String]| match names {
        [] => say!(words, "none"),
        names => words.all_given(names),
    };
    for row in &plan.capacity.compartments {
        table.row([
            words.compartment_and_liquid(row.id),
            words.volume(row.brim),
            words.volume(row.rated),
            or_unknown(row.usable),
            or_unknown(row.stranded),
            or_unknown(row.trapped_air),
            or_none(&row.outlets),
            or_none(&row.vents),
        ]);
    }
    if plan.capacity.compartments.len() > 1 {
        table.row([
            say!(words, "together"),
            words.volume(plan.capacity.brim()),
            words.volume(plan.capacity.rated()),
            or_unknown(plan.capacity.usable()),
        ]);
    }
    format!("\n{}", table.text())
}
