//! How the panels go together: pictures with marks, and the lists of panels and fittings.

use super::document::{Document, figures, wide, words as column};
use crate::draw::picture::{Show, picture};
use crate::words::{self, Words};
use brimful_job::OpeningSize;
use brimful_tank::plan::Plan;

pub fn write(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    let (width, height) = document.room();
    document.page("Pictures and parts");
    document.heading("With the lid off");
    document.drawing(picture(plan, Show::LidOff, (width, height * 0.4)));
    document.heading("Pulled apart");
    document.drawing(picture(plan, Show::Apart, (width, height * 0.48)));
    document.page("Panels and fittings");
    document.paragraph("x runs along the tank (on a vehicle: forward), y to the left, z up. A panel whose mark stands in no picture is hidden there. Its own drawing shows it from outside.");
    panel_list(document, plan, words);
    fitting_list(document, plan, words);
    balance(document, plan, words);
}

fn panel_list(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    document.heading("Panels");
    let rows: Vec<Vec<String>> = plan
        .panels
        .iter()
        .map(|panel| {
            let size = |plate: &brimful_geom::plate::Plate| {
                let (low, high) = plate.bounds();
                format!(
                    "{} x {}",
                    words.bare(high.x - low.x),
                    words.bare(high.y - low.y)
                )
            };
            vec![
                panel.mark.clone(),
                panel.name.to_string(),
                words::role(panel.role).into(),
                words.bare(panel.thickness.m()),
                size(&panel.cut),
                size(&panel.finished),
            ]
        })
        .collect();
    let unit = words.length_unit();
    document.table(
        &[
            column("Mark"),
            wide("Name"),
            column("What it is"),
            figures(format!("Thick ({unit})")),
            figures(format!("Size as cut ({unit})")),
            figures(format!("Size finished ({unit})")),
        ],
        &rows,
    );
    document.paragraph("Sizes are of the rectangle round both faces of the panel. \"Finished\" is after scraping, without the allowance on welded edges.");
}

fn fitting_list(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    document.heading("Fittings and hatches (numbers as in the first picture)");
    if plan.job.openings.is_empty() {
        document.paragraph("None.");
        return;
    }
    let rows: Vec<Vec<String>> = plan
        .job
        .openings
        .iter()
        .enumerate()
        .map(|(number, opening)| {
            let size = match opening.size {
                OpeningSize::Round { diameter } => format!("dia. {}", words.length(diameter)),
                OpeningSize::Rectangle { width, height } => words.size(&[width, height]),
            };
            vec![
                (number + 1).to_string(),
                opening.name.clone(),
                opening.service.word().into(),
                opening.panel.clone(),
                size,
                opening
                    .flange
                    .map_or("-".into(), |flange| words.length(flange)),
                opening
                    .stands_out
                    .map_or("not said".into(), |high| words.length(high)),
                opening.goes_on.word().into(),
            ]
        })
        .collect();
    document.table(
        &[
            figures("No."),
            wide("Name"),
            column("Service"),
            column("Panel"),
            column("Hole"),
            column("Flat it\ncovers"),
            column("Stands\nout"),
            column("Goes on"),
        ],
        &rows,
    );
    document.paragraph(
        "Have each fitting in the hand, with its thread standard, before its hole is cut.",
    );
}

fn balance(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    document.heading("Weight and where it sits");
    let rows: Vec<Vec<String>> = plan
        .mass
        .states
        .iter()
        .map(|state| {
            let mut row = vec![
                words.text.mass_state(state.kind).into(),
                words.volume(state.liquid),
                words.mass(state.mass),
            ];
            row.extend(state.centre.to_array().map(|metres| words.bare(metres)));
            row
        })
        .collect();
    let unit = words.length_unit();
    let place = |axis: &str| figures(format!("{axis} ({unit})"));
    document.table(
        &[
            wide("State"),
            figures("Liquid"),
            figures("Mass"),
            place("x"),
            place("y"),
            place("z"),
        ],
        &rows,
    );
    document.paragraph("\"Worst\" is the fill and trim that shift most load.");
}
