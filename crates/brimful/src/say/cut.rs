//! `cut`: sheet by sheet what comes out of it, and every cut in order.

use super::findings;
use super::layout::{Label, PLAIN, Table, heading, labelled, line};
use super::title::title;
use brimful_nest::{Layout, Reference, Runs};
use brimful_tank::cut::CutGroup;
use brimful_tank::plan::Plan;
use brimful_text::{Text, Words, say};
use brimful_units::Length;

/// The sheet layouts and the order of cuts.
pub(crate) fn cut(plan: &Plan, words: &Words<'_>) -> String {
    let mut text = title(plan, words);
    let mut number = 0;
    for group in &plan.cut.groups {
        for layout in &group.plan.layouts {
            number += 1;
            text.push_str(&sheet(plan, words, group, layout, number));
        }
        text.push_str(&closing(plan, words, group));
    }
    text.push_str(&findings::stops(plan, words));
    text.push_str(&findings::verdict(plan, words));
    text
}

fn sheet(
    plan: &Plan,
    words: &Words<'_>,
    group: &CutGroup,
    layout: &Layout,
    number: usize,
) -> String {
    let rect = layout.root.rect;
    let size = words.sizes([rect.length, rect.width, group.thickness.m()].map(Length::from_m));
    let stock = plan.job.stock.sheets.get(layout.sheet);
    let mut text = heading(&match stock.is_some_and(|stock| stock.offcut) {
        true => say!(
            words,
            "Sheet {number}: offcut {size}",
            number = number,
            size = size
        ),
        false => say!(
            words,
            "Sheet {number}: sheet {size}",
            number = number,
            size = size
        ),
    });
    text.push_str(&parts(plan, words, group, layout));
    text.push('\n');
    text.push_str(&cuts(plan, words, layout));
    let offcuts = layout.offcuts();
    let offcuts = offcuts.iter().map(|it| size_of(words, it.length, it.width));
    let offcuts = Text::join(offcuts, "; ");
    if !offcuts.is_empty() {
        text.push('\n');
        let label = say!(words, "offcuts");
        text.push_str(&labelled(Label::new(2, &label), 11, &offcuts));
    }
    text
}

/// The panels that come out of a sheet.
fn parts(plan: &Plan, words: &Words<'_>, group: &CutGroup, layout: &Layout) -> String {
    let mut table = Table::new(words, &["panel", "name", ">size on the sheet", "", "then"]);
    for part in layout.placements() {
        let blank = group.blanks.iter().find(|blank| blank.panel == part.part);
        let then = blank.is_some_and(|blank| blank.second_operations);
        table.row([
            mark(plan, words, part.part),
            name(plan, words, part.part),
            size_of(words, part.rect.length, part.rect.width),
            match part.turned {
                true => say!(words, "turned"),
                false => Text::default(),
            },
            match then {
                true => say!(words, "angles, notches or bevels"),
                false => Text::default(),
            },
        ]);
    }
    table.text()
}

fn cuts(plan: &Plan, words: &Words<'_>, layout: &Layout) -> String {
    let mut table = Table::new(
        words,
        &[
            ">cut",
            ">of the piece",
            "blade runs",
            "fence against",
            ">set fence to",
            "frees",
            "leaves",
        ],
    );
    for (piece, cut) in layout.cuts() {
        table.row([
            cut.number.into(),
            size_of(words, piece.length, piece.width),
            words.blade_runs(cut.runs),
            match (cut.runs, cut.reference) {
                (Runs::AlongLength, Reference::Near) => say!(words, "near long edge"),
                (Runs::AlongLength, Reference::Far) => say!(words, "far long edge"),
                (Runs::AlongWidth, Reference::Near) => say!(words, "near short edge"),
                (Runs::AlongWidth, Reference::Far) => say!(words, "far short edge"),
            },
            words.length(Length::from_m(cut.fence)),
            words.piece_fate(Some(&cut.kept), |panel| mark(plan, words, panel)),
            words.piece_fate(cut.rest.as_ref(), |panel| mark(plan, words, panel)),
        ]);
    }
    table.text()
}

fn closing(plan: &Plan, words: &Words<'_>, group: &CutGroup) -> String {
    let mut text = String::new();
    for out in &group.plan.left_out {
        let left_out = say!(
            words,
            "{mark} {name} {why}.",
            mark = mark(plan, words, out.part),
            name = name(plan, words, out.part),
            why = words.left_out(out.why)
        );
        text.push('\n');
        text.push_str(&line(PLAIN, 2, &left_out));
    }
    let verdict = say!(
        words,
        "{thickness} sheet: {verdict}",
        thickness = words.thickness(group.thickness),
        verdict = words.layout_verdict(group.plan.verdict)
    );
    text.push('\n');
    text.push_str(&line(PLAIN, 2, &verdict));
    text
}

fn size_of(words: &Words<'_>, length: f64, width: f64) -> Text {
    words.sizes([length, width].map(Length::from_m))
}

fn mark(plan: &Plan, words: &Words<'_>, panel: usize) -> Text {
    let panel = plan.panels.get(panel);
    panel.map_or_else(Text::default, |panel| words.symbol(&panel.mark))
}

fn name(plan: &Plan, words: &Words<'_>, panel: usize) -> Text {
    let panel = plan.panels.get(panel);
    panel.map_or_else(Text::default, |panel| words.panel(&panel.name))
}
