//! The room about the tank in its space.

use super::document::{Document, figures, wide, words as column};
use crate::words::Words;
use brimful_tank::plan::Plan;
use brimful_tank::room::FittingRoom;
use brimful_text::{Text, say};
use brimful_units::Length;

pub fn write(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    if plan.room.rows.is_empty() {
        return;
    }
    document.page(&say!(words, "Room kept"));
    document.paragraph(&say!(words, "The gap before each outside panel in the space as measured, what takes from it when the tank is full and warm, and what is left over. Clearance is what the job asks to be kept; it is this room, and not added. Less than nothing left is a stop."));
    // The millimetres of an inch job stand below, or the panel's name would find no room.
    let fine = |length: Length| words.fine_in_two_lines(length);
    let or = |length: Option<Length>, none: Text| length.map_or(none, fine);
    let rows: Vec<Vec<Text>> = plan
        .room
        .rows
        .iter()
        .map(|row| {
            let growth = row.growth.map(|[least, greatest]| {
                say!(
                    words,
                    "{least}\nto {greatest}",
                    least = fine(least),
                    greatest = fine(greatest)
                )
            });
            let left = match row {
                row if row.carries => say!(words, "stands on it"),
                row if row.gap.is_none() => say!(words, "free"),
                row => or(row.left, words.not_known()),
            };
            vec![
                words.panel(&plan.panels[row.panel].name),
                or(row.gap, say!(words, "over half\na metre")),
                fine(row.clearance),
                growth.unwrap_or_else(|| words.not_known()),
                or(row.bulge, words.not_known()),
                fine(row.ribs),
                fine(row.weld),
                left,
            ]
        })
        .collect();
    document.table(
        &[
            wide(say!(words, "Panel")),
            figures(say!(words, "Gap")),
            figures(say!(words, "Clearance\nasked")),
            figures(say!(words, "Growth")),
            figures(say!(words, "Bulge")),
            figures(say!(words, "Ribs")),
            figures(say!(words, "Weld")),
            figures(say!(words, "Left")),
        ],
        &rows,
    );
    fittings(document, plan, words);
    let assumptions = plan.room.assumptions.iter();
    let assumptions = assumptions.map(|it| words.room_assumption(*it));
    document.bullets(&assumptions.collect::<Vec<_>>());
}

/// The room before each fitting.
fn fittings(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    if plan.room.fittings.is_empty() {
        return;
    }
    let or = |length: Option<Length>, none: Text| length.map_or(none, |length| words.fine(length));
    let row = |row: &FittingRoom| {
        let left = match row.gap {
            _ if row.goes_through => words.goes_through(),
            None => say!(words, "free"),
            Some(_) => or(row.left, words.not_known()),
        };
        vec![
            words.given(&row.name),
            words.panel(&plan.panels[row.panel].name),
            or(row.gap, say!(words, "over half a metre")),
            or(row.stands_out, words.not_stated()),
            left,
        ]
    };
    let rows: Vec<Vec<Text>> = plan.room.fittings.iter().map(row).collect();
    document.heading(&say!(words, "Fittings"));
    document.table(
        &[
            wide(say!(words, "Fitting")),
            column(say!(words, "Panel")),
            figures(say!(words, "Gap before it")),
            figures(say!(words, "Stands out")),
            figures(say!(words, "Left")),
        ],
        &rows,
    );
}
