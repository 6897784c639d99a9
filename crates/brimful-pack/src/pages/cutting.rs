//! A page a sheet: the layout, the cuts in order, what is left over.

use super::document::{Document, figures, wide, words as column};
use crate::draw::sheet::sheet_drawing;
use crate::words::Words;
use brimful_nest::{Layout, Reference, Runs};
use brimful_tank::cut::CutGroup;
use brimful_tank::plan::Plan;
use brimful_text::{Text, say};
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
    document.page(&say!(
        words,
        "Cutting: {thickness} sheet {number} of {count}",
        thickness = words.thickness(group.thickness),
        number = number + 1,
        count = group.plan.layouts.len()
    ));
    let (width, height) = document.room();
    let (drawing, scale) = sheet_drawing(plan, layout, words, (width, height * 0.45));
    let offcut = plan
        .job
        .stock
        .sheets
        .get(layout.sheet)
        .is_some_and(|stock| stock.offcut);
    let size = words.size([sheet.length, sheet.width].map(Length::from_m));
    let what = if offcut {
        say!(words, "Offcut {size}", size = size)
    } else {
        say!(words, "Sheet {size}", size = size)
    };
    document.paragraph(&say!(
        words,
        "{what}, {thickness}, from the stock. Scale {scale}. Saw blade {kerf}; fence settings are to the near side of the blade. The outside face of every panel lies up. {verdict}",
        what = what,
        thickness = words.thickness(group.thickness),
        scale = scale,
        kerf = words.fine(plan.job.shop.kerf),
        verdict = words.layout_verdict(group.plan.verdict)
    ));
    document.drawing(drawing);
    document.heading(&say!(words, "Cuts, in order"));
    let marked = |panel: usize| {
        let panel = plan.panels.get(panel);
        panel.map_or_else(Text::default, |panel| words.marked(panel))
    };
    let rows: Vec<Vec<Text>> = layout
        .cuts()
        .into_iter()
        .map(|(piece, cut)| {
            let edge = match (cut.reference, cut.runs) {
                (Reference::Near, Runs::AlongLength) => say!(words, "lower"),
                (Reference::Far, Runs::AlongLength) => say!(words, "upper"),
                (Reference::Near, Runs::AlongWidth) => say!(words, "left"),
                (Reference::Far, Runs::AlongWidth) => say!(words, "right"),
            };
            vec![
                Text::from(cut.number),
                words.bare_size([piece.length, piece.width]),
                words.blade_runs(cut.runs),
                edge,
                words.bare(cut.fence),
                words.piece_fate(Some(&cut.kept), marked),
                words.piece_fate(cut.rest.as_ref(), marked),
            ]
        })
        .collect();
    let unit = words.length_unit();
    document.table(
        &[
            figures(say!(words, "Cut")),
            column(say!(words, "Of the piece ({unit})", unit = &unit)),
            column(say!(words, "Blade runs")),
            column(say!(words, "Fence on edge")),
            figures(say!(words, "Fence at ({unit})", unit = &unit)),
            wide(say!(words, "Gives at the fence")),
            wide(say!(words, "Gives beyond")),
        ],
        &rows,
    );
    offcuts(document, layout, words);
    second_operations(document, plan, group, layout, words);
}

fn left_out(plan: &Plan, group: &CutGroup, words: &Words<'_>) -> Text {
    let left_out = group.plan.left_out.iter();
    let panels = left_out.filter_map(|out| plan.panels.get(out.part));
    say!(
        words,
        "No place on any {thickness} sheet of the stock for: {panels}. See the findings.",
        thickness = words.thickness(group.thickness),
        panels = Text::join(panels.map(|panel| words.marked(panel)), ", ")
    )
}

/// A strip narrower than this is swept up, not kept, metres.
const NARROWEST_KEPT: f64 = 0.02;

fn offcuts(document: &mut Document, layout: &Layout, words: &Words<'_>) {
    let sizes: Vec<Text> = layout
        .offcuts()
        .iter()
        .filter(|rect| rect.length.min(rect.width) >= NARROWEST_KEPT)
        .map(|rect| words.size([rect.length, rect.width].map(Length::from_m)))
        .collect();
    if sizes.is_empty() {
        document.paragraph(&say!(words, "Nothing worth keeping is left over."));
    } else {
        document.paragraph(&say!(
            words,
            "Left over, largest first, without narrow strips: {sizes}. Mark thickness and material on what is kept.",
            sizes = Text::join(sizes, "; ")
        ));
    }
}

fn second_operations(
    document: &mut Document,
    plan: &Plan,
    group: &CutGroup,
    layout: &Layout,
    words: &Words<'_>,
) {
    let placed = layout.placements();
    let marks: Vec<Text> = group
        .blanks
        .iter()
        .filter(|blank| {
            blank.second_operations && placed.iter().any(|place| place.part == blank.panel)
        })
        .filter_map(|blank| plan.panels.get(blank.panel))
        .map(|panel| words.symbol(&panel.mark))
        .collect();
    if !marks.is_empty() {
        document.paragraph(&say!(
            words,
            "These cuts give a rectangle from which angles, notches or bevels are cut afterwards by the panel's own drawing: {panels}.",
            panels = Text::join(marks, ", ")
        ));
    }
}
