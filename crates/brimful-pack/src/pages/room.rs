//! The room about the tank in its space.

use super::document::{Document, figures, wide, words as column};
use crate::words::Words;
use brimful_tank::plan::Plan;
use brimful_tank::room::FittingRoom;
use brimful_units::Length;

pub fn write(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    if plan.room.rows.is_empty() {
        return;
    }
    document.page("Room kept");
    document.paragraph("The gap before each outside panel in the space as measured, what takes from it when the tank is full and warm, and what is left over. Clearance is what the job asks to be kept; it is this room, and not added. Less than nothing left is a stop.");
    // The millimetres of an inch job stand below, or the panel's name would find no room.
    let fine = |length: Length| words.fine(length).replace(" (", "\n(");
    let or = |length: Option<Length>, none: &str| length.map_or_else(|| none.to_owned(), fine);
    let rows: Vec<Vec<String>> = plan
        .room
        .rows
        .iter()
        .map(|row| {
            let growth = row
                .growth
                .map(|[least, greatest]| format!("{}\nto {}", fine(least), fine(greatest)));
            let left = match row {
                row if row.carries => "stands on it".to_owned(),
                row if row.gap.is_none() => "free".to_owned(),
                row => or(row.left, "not known"),
            };
            vec![
                plan.panels[row.panel].name.to_string(),
                or(row.gap, "over half\na metre"),
                fine(row.clearance),
                growth.unwrap_or_else(|| "not known".to_owned()),
                or(row.bulge, "not known"),
                fine(row.ribs),
                fine(row.weld),
                left,
            ]
        })
        .collect();
    document.table(
        &[
            wide("Panel"),
            figures("Gap"),
            figures("Clearance\nasked"),
            figures("Growth"),
            figures("Bulge"),
            figures("Ribs"),
            figures("Weld"),
            figures("Left"),
        ],
        &rows,
    );
    fittings(document, plan, words);
    let assumptions = plan.room.assumptions.iter();
    let assumptions = assumptions.map(|it| words.text.room_assumption(*it).to_string());
    document.bullets(&assumptions.collect::<Vec<_>>());
}

/// The room before each fitting.
fn fittings(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    if plan.room.fittings.is_empty() {
        return;
    }
    let or = |length: Option<Length>, none: &str| {
        length.map_or_else(|| none.to_owned(), |length| words.fine(length))
    };
    let row = |row: &FittingRoom| {
        let left = match row.gap {
            _ if row.goes_through => "goes through".to_owned(),
            None => "free".to_owned(),
            Some(_) => or(row.left, "not known"),
        };
        vec![
            row.name.clone(),
            plan.panels[row.panel].name.to_string(),
            or(row.gap, "over half a metre"),
            or(row.stands_out, "not said"),
            left,
        ]
    };
    let rows: Vec<Vec<String>> = plan.room.fittings.iter().map(row).collect();
    document.heading("Fittings");
    document.table(
        &[
            wide("Fitting"),
            column("Panel"),
            figures("Gap before it"),
            figures("Stands out"),
            figures("Left"),
        ],
        &rows,
    );
}
