//! `cut`: sheet by sheet what comes out of it, and every cut in order.

use super::check::title;
use super::findings;
use super::layout::{Table, heading};
use super::units::Units;
use brimful_nest::{Fate, Layout, Piece, Reference, Runs};
use brimful_tank::cut::CutGroup;
use brimful_tank::plan::Plan;

/// The sheet layouts and the order of cuts.
pub(crate) fn cut(plan: &Plan) -> String {
    let mut text = title(plan);
    let mut number = 0;
    for group in &plan.cut.groups {
        for layout in &group.plan.layouts {
            number += 1;
            text.push_str(&sheet(plan, group, layout, number));
        }
        text.push_str(&closing(plan, group));
    }
    text.push_str(&findings::stops(plan));
    text.push_str(&findings::verdict(plan));
    text
}

fn sheet(plan: &Plan, group: &CutGroup, layout: &Layout, number: usize) -> String {
    let units = Units(&plan.job.about);
    let rect = layout.root.rect;
    let stock = plan.job.stock.sheets.get(layout.sheet);
    let kind = match stock {
        Some(stock) if stock.offcut => "offcut",
        _ => "sheet",
    };
    let mut text = heading(&format!(
        "Sheet {number}: {kind} {}",
        units.sizes([rect.length, rect.width, group.thickness.m()])
    ));
    let mut parts = Table::new(&["panel", "name", ">size on the sheet", "", "then"]);
    for part in layout.placements() {
        let blank = group.blanks.iter().find(|blank| blank.panel == part.part);
        let second = blank.is_some_and(|blank| blank.second_operations);
        parts.row([
            mark(plan, part.part),
            name(plan, part.part),
            units.sizes([part.rect.length, part.rect.width]),
            if part.turned { "turned" } else { "" }.to_owned(),
            if second {
                "angles, notches or bevels"
            } else {
                ""
            }
            .to_owned(),
        ]);
    }
    text.push_str(&parts.text());
    text.push('\n');
    text.push_str(&cuts(plan, layout));
    let offcuts: Vec<String> = layout
        .offcuts()
        .iter()
        .map(|offcut| units.sizes([offcut.length, offcut.width]))
        .collect();
    if !offcuts.is_empty() {
        text.push_str(&super::layout::wrapped(
            "\n  offcuts  ",
            11,
            &offcuts.join("; "),
        ));
    }
    text
}

fn cuts(plan: &Plan, layout: &Layout) -> String {
    let units = Units(&plan.job.about);
    let mut table = Table::new(&[
        ">cut",
        ">of the piece",
        "blade runs",
        "fence against",
        ">set fence to",
        "frees",
        "leaves",
    ]);
    for (piece, cut) in layout.cuts() {
        let (runs, near, far) = match cut.runs {
            Runs::AlongLength => ("along length", "near long edge", "far long edge"),
            Runs::AlongWidth => ("across", "near short edge", "far short edge"),
        };
        table.row([
            cut.number.to_string(),
            units.sizes([piece.length, piece.width]),
            runs.to_owned(),
            match cut.reference {
                Reference::Near => near,
                Reference::Far => far,
            }
            .to_owned(),
            units.metres(cut.fence),
            fate(plan, Some(&cut.kept)),
            fate(plan, cut.rest.as_ref()),
        ]);
    }
    table.text()
}

fn fate(plan: &Plan, piece: Option<&Piece>) -> String {
    match piece.map(|piece| &piece.fate) {
        None => "nothing".to_owned(),
        Some(Fate::Part { id, .. }) => mark(plan, *id),
        Some(Fate::Offcut) => "offcut".to_owned(),
        Some(Fate::Trimming) => "trimming".to_owned(),
        Some(Fate::Cut(next)) => format!("piece for cut {}", next.number),
    }
}

fn closing(plan: &Plan, group: &CutGroup) -> String {
    let units = Units(&plan.job.about);
    let thickness = units.thickness(group.thickness);
    let mut text = String::new();
    let words = crate::words::of_plan(plan);
    for out in &group.plan.left_out {
        text.push_str(&format!(
            "\n  {} {} {}.\n",
            mark(plan, out.part),
            super::layout::clean(&name(plan, out.part)),
            words.left_out(out.why)
        ));
    }
    let verdict = words.layout_verdict(group.plan.verdict);
    text.push_str(&format!("\n  {thickness} sheet: {verdict}\n"));
    text
}

fn mark(plan: &Plan, panel: usize) -> String {
    let panel = plan.panels.get(panel);
    panel.map(|panel| panel.mark.clone()).unwrap_or_default()
}

fn name(plan: &Plan, panel: usize) -> String {
    let panel = plan.panels.get(panel);
    let words = crate::words::of_plan(plan);
    panel.map_or_else(String::new, |panel| words.panel(&panel.name).into())
}
