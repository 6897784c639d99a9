//! A page a sheet: the layout, the cuts in order, what is left over.

use super::document::{Document, figures, wide, words as column};
use crate::draw::sheet::sheet_drawing;
use crate::words::Words;
use brimful_nest::{Fate, Layout, Piece, Reference, Runs};
use brimful_tank::cut::CutGroup;
use brimful_tank::plan::Plan;
use brimful_units::Length;

pub fn write(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    for group in &plan.cut.groups {
        for (number, layout) in group.plan.layouts.iter().enumerate() {
            write_sheet(document, plan, group, number, layout, words);
        }
        if !group.plan.left_out.is_empty() {
            document.notice(&left_out(plan, group, words));
        }
    }
}

fn write_sheet(
    document: &mut Document,
    plan: &Plan,
    group: &CutGroup,
    number: usize,
    layout: &Layout,
    words: &Words<'_>,
) {
    let sheet = layout.root.rect;
    document.page(&format!(
        "Cutting: {} sheet {} of {}",
        words.thickness(group.thickness),
        number + 1,
        group.plan.layouts.len()
    ));
    let (width, height) = document.room();
    let (drawing, scale) = sheet_drawing(plan, layout, words, (width, height * 0.45));
    let offcut = plan
        .job
        .stock
        .sheets
        .get(layout.sheet)
        .is_some_and(|stock| stock.offcut);
    document.paragraph(&format!(
        "{} {}, {}, from the stock. Scale {scale}. Saw blade {}; fence settings are to the near side of the blade. The outside face of every panel lies up. {}",
        if offcut { "Offcut" } else { "Sheet" },
        words.size(&[sheet.length, sheet.width].map(Length::from_m)),
        words.thickness(group.thickness),
        words.fine(plan.job.shop.kerf),
        words.text.layout_verdict(group.plan.verdict)
    ));
    document.drawing(drawing);
    document.heading("Cuts, in order");
    let rows: Vec<Vec<String>> = layout
        .cuts()
        .into_iter()
        .map(|(piece, cut)| {
            let runs = match cut.runs {
                Runs::AlongLength => "along the sheet",
                Runs::AlongWidth => "across the sheet",
            };
            let edge = match (cut.reference, cut.runs) {
                (Reference::Near, Runs::AlongLength) => "lower",
                (Reference::Far, Runs::AlongLength) => "upper",
                (Reference::Near, Runs::AlongWidth) => "left",
                (Reference::Far, Runs::AlongWidth) => "right",
            };
            vec![
                cut.number.to_string(),
                format!("{} x {}", words.bare(piece.length), words.bare(piece.width)),
                runs.into(),
                edge.into(),
                words.bare(cut.fence),
                gives(plan, &cut.kept, words),
                cut.rest
                    .as_ref()
                    .map_or("nothing".into(), |rest| gives(plan, rest, words)),
            ]
        })
        .collect();
    let unit = words.length_unit();
    document.table(
        &[
            figures("Cut"),
            column(format!("Of the piece ({unit})")),
            column("Blade runs"),
            column("Fence on edge"),
            figures(format!("Fence at ({unit})")),
            wide("Gives at the fence"),
            wide("Gives beyond"),
        ],
        &rows,
    );
    offcuts(document, layout, words);
    second_operations(document, plan, group, layout);
}

fn gives(plan: &Plan, piece: &Piece, words: &Words<'_>) -> String {
    match &piece.fate {
        Fate::Part { id, .. } => plan.panels.get(*id).map_or(String::new(), |panel| {
            format!("{} {}", panel.mark, words.text.panel(&panel.name))
        }),
        Fate::Offcut => "left over".into(),
        Fate::Trimming => "trimming".into(),
        Fate::Cut(next) => format!("piece for cut {}", next.number),
    }
}

fn left_out(plan: &Plan, group: &CutGroup, words: &Words<'_>) -> String {
    let names: Vec<String> = group
        .plan
        .left_out
        .iter()
        .filter_map(|out| plan.panels.get(out.part))
        .map(|panel| format!("{} {}", panel.mark, words.text.panel(&panel.name)))
        .collect();
    format!(
        "No place on any {} sheet of the stock for: {}. See the findings.",
        words.thickness(group.thickness),
        names.join(", ")
    )
}

/// A strip narrower than this is swept up, not kept, metres.
const NARROWEST_KEPT: f64 = 0.02;

fn offcuts(document: &mut Document, layout: &Layout, words: &Words<'_>) {
    let sizes: Vec<String> = layout
        .offcuts()
        .iter()
        .filter(|rect| rect.length.min(rect.width) >= NARROWEST_KEPT)
        .map(|rect| words.size(&[rect.length, rect.width].map(Length::from_m)))
        .collect();
    if sizes.is_empty() {
        document.paragraph("Nothing worth keeping is left over.");
    } else {
        document.paragraph(&format!(
            "Left over, largest first, without narrow strips: {}. Mark thickness and material on what is kept.",
            sizes.join("; ")
        ));
    }
}

fn second_operations(document: &mut Document, plan: &Plan, group: &CutGroup, layout: &Layout) {
    let placed = layout.placements();
    let names: Vec<String> = group
        .blanks
        .iter()
        .filter(|blank| {
            blank.second_operations && placed.iter().any(|place| place.part == blank.panel)
        })
        .filter_map(|blank| plan.panels.get(blank.panel))
        .map(|panel| panel.mark.clone())
        .collect();
    if !names.is_empty() {
        document.paragraph(&format!(
            "These cuts give a rectangle from which angles, notches or bevels are cut afterwards by the panel's own drawing: {}.",
            names.join(", ")
        ));
    }
}
