//! `weld`: what is laid into every seam, with what, how long it takes, and in which order.

use super::findings;
use super::layout::{Label, Table, heading, labelled, paragraph};
use super::title::title;
use brimful_job::RodForm;
use brimful_panels::weld::cautions::Caution;
use brimful_panels::weld::hours::total;
use brimful_tank::plan::Plan;
use brimful_text::{Text, Words, say};

/// Seams, runs, rod, hours, settings and the order of work.
pub(crate) fn weld(plan: &Plan, words: &Words<'_>) -> String {
    [
        title(plan, words),
        seams(plan, words),
        rods(plan, words),
        hours(plan, words),
        settings(plan, words),
        heat(plan, words),
        pull(plan, words),
        steps(plan, words),
        cautions(words),
        findings::stops(plan, words),
        findings::verdict(plan, words),
    ]
    .concat()
}

fn seams(plan: &Plan, words: &Words<'_>) -> String {
    let mut table = Table::new(
        words,
        &[
            "seam",
            "panels",
            "laid from",
            "weld",
            ">length",
            ">throat",
            ">runs",
            "edges",
        ],
    );
    for weld in &plan.welds.welds {
        let Some(seam) = plan.seams.get(weld.seam) else {
            continue;
        };
        let panel = |number: usize| {
            let panel = plan.panels.get(number);
            panel.map_or_else(Text::default, |it| words.panel(&it.name))
        };
        table.row([
            words.symbol(&seam.mark),
            Text::join(seam.panels.map(panel), " / "),
            words.weld_side(weld.side),
            words.groove(weld.kind),
            words.length(weld.length),
            words.length(weld.throat),
            weld.runs.into(),
            words.preparation(weld.preparation),
        ]);
    }
    format!("\n{}", table.text())
}

fn rods(plan: &Plan, words: &Words<'_>) -> String {
    let mut table = Table::new(words, &["rod", ">needed", ">by weight", ">on hand"]);
    for rod in &plan.welds.rods {
        let form = plan.job.stock.rods.get(rod.rod).map(|rod| rod.form);
        let size = words.length(rod.diameter);
        table.row([
            match form {
                Some(RodForm::Triangular) => say!(words, "{size} triangular", size = size),
                Some(RodForm::Round) | None => say!(words, "{size} round", size = size),
            },
            words.long_length(rod.length),
            words.mass(rod.mass),
            rod.on_hand
                .map_or_else(|| words.not_stated(), |length| words.long_length(length)),
        ]);
    }
    format!("\n{}", table.text())
}

fn hours(plan: &Plan, words: &Words<'_>) -> String {
    let mut table = Table::new(words, &["work", ">how much", ">rate", ">time"]);
    for line in &plan.welds.hours {
        table.row([
            words.labour(line.what),
            words.amount(line.amount),
            words.rate(line.amount),
            words.time(line.time),
        ]);
    }
    table.row([
        say!(words, "together"),
        Text::default(),
        Text::default(),
        words.time(total(&plan.welds.hours)),
    ]);
    format!("\n{}", table.text())
}

fn settings(plan: &Plan, words: &Words<'_>) -> String {
    let mut text = heading(&say!(
        words,
        "Published settings; try them on a coupon first"
    ));
    for setting in &plan.welds.settings {
        let line = say!(
            words,
            "{quantity} {range} [{cited}, {flag}]",
            quantity = words.setting(setting.quantity),
            range = words.setting_range(setting.range),
            cited = words.cited(&setting.source.cited),
            flag = words.flag(setting.source.flag)
        );
        text.push_str(&paragraph(2, 4, &line));
    }
    text
}

fn heat(plan: &Plan, words: &Words<'_>) -> String {
    let Some(heat) = &plan.heat else {
        return String::new();
    };
    let mut table = Table::new(words, &["sheet", ">next run after", ">clamps off after"]);
    for wait in &heat.waits {
        table.row([
            words.length(wait.thickness),
            wait.next_run
                .map_or_else(|| say!(words, "one run"), |time| words.time(time)),
            words.time(wait.clamps),
        ]);
    }
    [
        heading(&say!(words, "Heat")),
        paragraph(2, 2, &words.melted(heat)),
        paragraph(2, 2, &words.heat_model()),
        format!("\n{}", table.text()),
    ]
    .concat()
}

fn pull(plan: &Plan, words: &Words<'_>) -> String {
    let Some(pull) = plan.pull() else {
        return String::new();
    };
    let mut table = Table::new(words, &["panel", ">bow"]);
    for bow in &pull.panels {
        table.row([
            words.panel(&plan.panels[bow.panel].name),
            words.bow(bow.bow),
        ]);
    }
    [
        heading(&say!(words, "Pull")),
        paragraph(2, 2, &words.drawn_in(&pull.inherent)),
        paragraph(2, 2, &words.pull_model()),
        format!("\n{}", table.text()),
    ]
    .concat()
}

fn steps(plan: &Plan, words: &Words<'_>) -> String {
    let mut text = heading(&say!(words, "Order of work"));
    for (number, step) in words.steps(plan).iter().enumerate() {
        let number = Text::from(number + 1);
        let label = Label::ending(4, &number);
        text.push_str(&labelled(label, 6, step));
    }
    text
}

fn cautions(words: &Words<'_>) -> String {
    let mut text = heading(&say!(words, "Cautions"));
    for caution in Caution::ALL {
        let caution = words.caution(caution);
        let line = say!(
            words,
            "{about}: {text}",
            about = caution.about,
            text = caution.text
        );
        text.push_str(&paragraph(2, 4, &line));
    }
    text
}
