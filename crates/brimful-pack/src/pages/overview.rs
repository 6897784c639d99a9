//! How the panels go together: pictures with marks, and the lists of panels and fittings.

use super::document::{Document, figures, wide, words as column};
use crate::draw::picture::{Show, picture};
use crate::words::Words;
use brimful_job::OpeningSize;
use brimful_tank::plan::Plan;
use brimful_text::{Text, say};

pub fn write(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    let (width, height) = document.room();
    document.page(&say!(words, "Pictures and parts"));
    document.heading(&say!(words, "With the lid off"));
    document.drawing(picture(plan, Show::LidOff, (width, height * 0.4)));
    document.heading(&say!(words, "Pulled apart"));
    document.drawing(picture(plan, Show::Apart, (width, height * 0.48)));
    document.page(&say!(words, "Panels and fittings"));
    document.paragraph(&say!(words, "x runs along the tank (on a vehicle: forward), y to the left, z up. A panel whose mark stands in no picture is hidden there. Its own drawing shows it from outside."));
    panel_list(document, plan, words);
    fitting_list(document, plan, words);
    balance(document, plan, words);
}

fn panel_list(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    document.heading(&say!(words, "Panels"));
    let rows: Vec<Vec<Text>> = plan
        .panels
        .iter()
        .map(|panel| {
            let size = |plate: &brimful_geom::plate::Plate| {
                let (low, high) = plate.bounds();
                words.bare_size([high.x - low.x, high.y - low.y])
            };
            vec![
                words.symbol(&panel.mark),
                words.panel(&panel.name),
                words.role(panel.role),
                words.bare(panel.thickness.m()),
                size(&panel.cut),
                size(&panel.finished),
            ]
        })
        .collect();
    let unit = words.length_unit();
    document.table(
        &[
            column(say!(words, "Mark")),
            wide(say!(words, "Name")),
            column(say!(words, "What it is")),
            figures(say!(words, "Thick ({unit})", unit = &unit)),
            figures(say!(words, "Size as cut ({unit})", unit = &unit)),
            figures(say!(words, "Size finished ({unit})", unit = &unit)),
        ],
        &rows,
    );
    document.paragraph(&say!(words, "Sizes are of the rectangle round both faces of the panel. \"Finished\" is after scraping, without the allowance on welded edges."));
}

fn fitting_list(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    document.heading(&say!(
        words,
        "Fittings and hatches (numbers as in the first picture)"
    ));
    if plan.job.openings.is_empty() {
        document.paragraph(&say!(words, "None."));
        return;
    }
    let rows: Vec<Vec<Text>> = plan
        .job
        .openings
        .iter()
        .enumerate()
        .map(|(number, opening)| {
            let size = match opening.size {
                OpeningSize::Round { diameter } => {
                    say!(words, "dia. {diameter}", diameter = words.length(diameter))
                }
                OpeningSize::Rectangle { width, height } => words.size([width, height]),
            };
            vec![
                Text::from(number + 1),
                words.given(&opening.name),
                words.service(opening.service),
                words.given(&opening.panel),
                size,
                opening
                    .flange
                    .map_or_else(|| words.symbol("-"), |flange| words.length(flange)),
                opening
                    .stands_out
                    .map_or_else(|| words.not_stated(), |high| words.length(high)),
                words.goes_on(opening.goes_on),
            ]
        })
        .collect();
    document.table(
        &[
            figures(say!(words, "No.")),
            wide(say!(words, "Name")),
            column(say!(words, "Service")),
            column(say!(words, "Panel")),
            column(say!(words, "Hole")),
            column(say!(words, "Flat it\ncovers")),
            column(say!(words, "Stands\nout")),
            column(say!(words, "Goes on")),
        ],
        &rows,
    );
    document.paragraph(&say!(
        words,
        "Have each fitting in the hand, with its thread standard, before its hole is cut."
    ));
}

fn balance(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    document.heading(&say!(words, "Weight and where it sits"));
    let rows: Vec<Vec<Text>> = plan
        .mass
        .states
        .iter()
        .map(|state| {
            let mut row = vec![
                words.mass_state(state.kind),
                words.volume(state.liquid),
                words.mass(state.mass),
            ];
            row.extend(state.centre.to_array().map(|metres| words.bare(metres)));
            row
        })
        .collect();
    let unit = words.length_unit();
    let place = |axis: &str| {
        let axis = words.symbol(axis);
        figures(say!(words, "{axis} ({unit})", axis = axis, unit = &unit))
    };
    document.table(
        &[
            wide(say!(words, "State")),
            figures(say!(words, "Liquid")),
            figures(say!(words, "Mass")),
            place("x"),
            place("y"),
            place("z"),
        ],
        &rows,
    );
    document.paragraph(&say!(
        words,
        "\"Worst\" is the fill and trim that shift most load."
    ));
}
