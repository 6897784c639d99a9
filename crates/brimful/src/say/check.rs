//! `check`: the whole tank on two screens, then every finding.

use super::capacity::capacity;
use super::findings;
use super::layout::{Table, paragraph};
use super::title::title;
use brimful_panels::panel::Panel;
use brimful_panels::seam::{Joint, Seam};
use brimful_tank::plan::Plan;
use brimful_text::{Text, Words, say};
use brimful_units::{Angle, Length, Mass};
use std::mem::discriminant;

/// A bevel of less than a twentieth of a degree is a square edge: no saw is set finer.
const SQUARE: Angle = Angle::from_deg(0.05);

/// The summary and the findings.
pub(crate) fn check(plan: &Plan, words: &Words<'_>) -> String {
    [
        title(plan, words),
        super::summary::summary(plan, words),
        capacity(plan, words),
        mass(plan, words),
        panels(plan, words),
        seams(plan, words),
        sheets(plan, words),
        super::strength::strength(plan, words),
        super::room::room(plan, words),
        weld(plan, words),
        defaults(plan, words),
        findings::all(&plan.findings, words),
        super::remedies::remedies(plan, words),
        findings::verdict(plan, words),
    ]
    .concat()
}

fn mass(plan: &Plan, words: &Words<'_>) -> String {
    let mut table = Table::new(
        words,
        &["mass", ">liquid", ">in all", ">centre x", ">y", ">z"],
    );
    for state in &plan.mass.states {
        let [x, y, z] = state.centre.to_array();
        let [x, y, z] = [x, y, z].map(|at| words.length(Length::from_m(at)));
        table.row([
            words.mass_state(state.kind),
            words.volume(state.liquid),
            words.mass(state.mass),
            x,
            y,
            z,
        ]);
    }
    format!("\n{}", table.text())
}

fn panels(plan: &Plan, words: &Words<'_>) -> String {
    let mut table = Table::new(
        words,
        &[
            "panel",
            "name",
            ">sheet",
            ">finished",
            ">as sawn",
            ">sides",
            "edges",
            ">holes",
        ],
    );
    for panel in &plan.panels {
        let sides: usize = panel.finished.loops.iter().map(Vec::len).sum();
        table.row([
            words.symbol(&panel.mark),
            words.panel(&panel.name),
            words.thickness(panel.thickness),
            size(words, &panel.finished),
            size(words, &panel.cut),
            sides.into(),
            edges(words, panel),
            panel.openings.len().into(),
        ]);
    }
    format!("\n{}", table.text())
}

/// The rectangle that covers both faces of a plate.
fn size(words: &Words<'_>, plate: &brimful_geom::plate::Plate) -> Text {
    let (low, high) = plate.bounds();
    words.sizes([high.x - low.x, high.y - low.y].map(Length::from_m))
}

fn edges(words: &Words<'_>, panel: &Panel) -> Text {
    let sides = panel.finished.loops.iter().flatten();
    let mut bevels: Vec<Text> = sides
        .map(|side| Angle::from_rad(side.bevel(panel.thickness.m())).abs())
        .filter(|bevel| *bevel > SQUARE)
        .map(|bevel| words.angle(bevel))
        .collect();
    bevels.sort();
    bevels.dedup();
    match bevels.len() {
        0 => say!(words, "square"),
        _ => say!(words, "bevel {angles}", angles = Text::join(bevels, ", ")),
    }
}

fn seams(plan: &Plan, words: &Words<'_>) -> String {
    let mut table = Table::new(words, &["seams", ">how many", ">length"]);
    let mut kinds: Vec<(Joint, Vec<&Seam>)> = Vec::new();
    for seam in &plan.seams {
        let alike = |joint: Joint| discriminant(&joint) == discriminant(&seam.joint);
        match kinds.iter_mut().find(|(joint, _)| alike(*joint)) {
            Some((_, seams)) => seams.push(seam),
            None => kinds.push((seam.joint, vec![seam])),
        }
    }
    kinds.sort_by_key(|(joint, _)| words.joint(*joint));
    for (joint, seams) in kinds {
        let length: Length = seams.iter().map(|seam| seam.length()).sum();
        table.row([
            words.joint(joint),
            seams.len().into(),
            words.long_length(length),
        ]);
    }
    format!("\n{}", table.text())
}

fn sheets(plan: &Plan, words: &Words<'_>) -> String {
    let mut table = Table::new(
        words,
        &[
            ">sheets",
            ">thickness",
            ">least possible",
            ">panels",
            ">left out",
        ],
    );
    for group in &plan.cut.groups {
        table.row([
            group.plan.layouts.len().into(),
            words.thickness(group.thickness),
            group.plan.bound.sheets.into(),
            group.blanks.len().into(),
            group.plan.left_out.len().into(),
        ]);
    }
    format!("\n{}", table.text())
}

fn weld(plan: &Plan, words: &Words<'_>) -> String {
    let runs: usize = plan.welds.welds.iter().map(|weld| weld.runs).sum();
    let rod: Mass = plan.welds.rods.iter().map(|rod| rod.mass).sum();
    let length: Length = plan.welds.rods.iter().map(|rod| rod.length).sum();
    let line = say!(
        words,
        "Welding: {runs} runs, {length} of rod ({mass}), {time} of work in all; see `{command}`.",
        runs = runs,
        length = words.long_length(length),
        mass = words.mass(rod),
        time = words.working_time(plan.hours.work()),
        command = words.symbol("brimful weld")
    );
    format!("\n{}", paragraph(2, 2, &line))
}

fn defaults(plan: &Plan, words: &Words<'_>) -> String {
    let line = say!(
        words,
        "Defaults: {count} stand in for what the job does not say; the build pack lists them.",
        count = plan.defaults.len()
    );
    paragraph(2, 2, &line)
}
