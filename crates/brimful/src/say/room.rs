//! The room about the tank when it is full and warm, for the answer of `check`.

use super::layout::{Table, paragraph};
use brimful_tank::plan::Plan;
use brimful_text::{Text, Words, say};
use brimful_units::Length;

/// The gap before each panel, what takes from it and what is left.
pub(super) fn room(plan: &Plan, words: &Words<'_>) -> String {
    let rows = plan.room.rows.iter();
    let beside: Vec<_> = rows
        .filter_map(|row| Some((row, row.gap.filter(|_| !row.carries)?)))
        .collect();
    if beside.is_empty() {
        return String::new();
    }
    let mut table = Table::new(
        words,
        &[
            "room", ">gap", ">asked", ">growth", ">bulge", ">ribs", ">weld", ">left",
        ],
    );
    let unknown = || words.not_known();
    let or_unknown =
        |length: Option<Length>| length.map_or_else(unknown, |length| words.length(length));
    for (row, gap) in beside {
        table.row([
            words.panel(&plan.panels[row.panel].name),
            words.length(gap),
            words.length(row.clearance),
            row.growth.map_or_else(unknown, |growth| {
                let [least, greatest] = growth.map(|it| words.length(it));
                say!(
                    words,
                    "{least} to {greatest}",
                    least = least,
                    greatest = greatest
                )
            }),
            or_unknown(row.bulge),
            words.length(row.ribs),
            words.length(row.weld),
            or_unknown(row.left),
        ]);
    }
    let assumptions = plan.room.assumptions.iter();
    let assumptions = Text::join(assumptions.map(|it| words.room_assumption(*it)), " ");
    format!(
        "\n{}{}{}",
        table.text(),
        fittings(plan, words),
        paragraph(2, 2, &assumptions)
    )
}

/// The room before fittings that have something within half a metre.
fn fittings(plan: &Plan, words: &Words<'_>) -> String {
    let beside = plan.room.fittings.iter();
    let beside: Vec<_> = beside.filter_map(|row| Some((row, row.gap?))).collect();
    if beside.is_empty() {
        return String::new();
    }
    let mut table = Table::new(words, &["fitting", "on", ">gap", ">stands out", ">left"]);
    for (row, gap) in beside {
        table.row([
            words.given(&row.name),
            words.panel(&plan.panels[row.panel].name),
            words.length(gap),
            row.stands_out
                .map_or_else(|| words.not_stated(), |it| words.length(it)),
            match (row.goes_through, row.left) {
                (true, _) => words.goes_through(),
                (false, Some(left)) => words.length(left),
                (false, None) => words.not_known(),
            },
        ]);
    }
    format!("\n{}", table.text())
}
