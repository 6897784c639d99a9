//! `weld`: what is laid into every seam, with what, how long it takes, and in which order.

use super::findings;
use super::layout::{Label, Table, heading, labelled, paragraph};
use super::title::title;
use brimful_job::RodForm;
use brimful_panels::weld::WeldSide;
use brimful_panels::weld::cautions::Caution;
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
        fixtures(plan, words),
        corners(plan, words),
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
            ">speed",
            "edges",
        ],
    );
    for weld in &plan.welds.welds {
        let Some(seam) = plan.seams.get(weld.seam) else {
            continue;
        };
        table.row([
            words.symbol(&seam.mark),
            words.panels_of(seam, &plan.panels),
            words.weld_side(weld.side),
            words.groove(weld.kind),
            words.length(weld.length),
            words.length(weld.throat),
            weld.runs.into(),
            words.speed(weld.speed),
            words.preparation(weld.preparation),
        ]);
    }
    format!("\n{}", table.text())
}

fn rods(plan: &Plan, words: &Words<'_>) -> String {
    let mut table = Table::new(
        words,
        &["rod", ">needed", ">by weight", ">on hand", ">coils to buy"],
    );
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
            rod.coils.map_or_else(|| words.not_stated(), Text::from),
        ]);
    }
    format!("\n{}", table.text())
}

fn hours(plan: &Plan, words: &Words<'_>) -> String {
    let mut table = Table::new(words, &["work", ">how much", ">rate", ">time"]);
    for line in &plan.hours.lines {
        table.row([
            words.labour(line.what),
            words.amount(line.amount),
            words.rate(line.amount),
            words.working_time(line.time),
        ]);
    }
    table.row([
        say!(words, "together"),
        Text::default(),
        Text::default(),
        words.working_time(plan.hours.work()),
    ]);
    let mut waits = Table::new(words, &["waiting", ">time"]);
    for wait in &plan.hours.waits {
        waits.row([words.waiting(wait.what), words.time(wait.time)]);
    }
    format!("\n{}\n{}", table.text(), waits.text())
}

fn settings(plan: &Plan, words: &Words<'_>) -> String {
    let mut text = heading(&say!(
        words,
        "Published settings; try them on a coupon first"
    ));
    for setting in &plan.welds.settings {
        let line = say!(
            words,
            "{tool}: {quantity} {range} [{cited}, {flag}]",
            tool = words.tool(setting.tool),
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
        return match plan.whole {
            Some(_) => heading(&say!(words, "Pull")) + &paragraph(2, 2, &words.no_pull()),
            None => String::new(),
        };
    };
    let mut table = Table::new(words, &["panel", "bow"]);
    for bow in &pull.panels {
        table.row([words.panel(&plan.panels[bow.panel].name), words.bow(bow)]);
    }
    let mut seams = Table::new(
        words,
        &[
            "seam",
            "joins",
            "before others hold it",
            "in the end",
            "after one side",
            "set beforehand",
        ],
    );
    for lean in words.seams_off(pull) {
        seams.row(words.lean_row(plan, lean));
    }
    let notes = words.pull_notes(plan, pull).into_iter();
    let notes = notes.map(|note| paragraph(2, 2, &note));
    [
        heading(&say!(words, "Pull")),
        paragraph(2, 2, &words.drawn_in(&pull.inherent)),
        paragraph(2, 2, &words.pull_model()),
        notes.collect(),
        match words.seams_off(pull).next() {
            Some(_) => format!("\n{}\n{}", table.text(), seams.text()),
            None => format!("\n{}", table.text()),
        },
    ]
    .concat()
}

fn steps(plan: &Plan, words: &Words<'_>) -> String {
    let mut text = heading(&say!(words, "Order of work"));
    if let Some(edges) = words.edges_first(plan) {
        text.push_str(&paragraph(2, 2, &edges));
    }
    for (number, step) in words.steps(plan).iter().enumerate() {
        let number = Text::from(number + 1);
        let label = Label::ending(4, &number);
        text.push_str(&labelled(label, 6, step));
    }
    text
}

fn fixtures(plan: &Plan, words: &Words<'_>) -> String {
    if plan.fixtures.holdings.is_empty() {
        return String::new();
    }
    let mut text = heading(&say!(words, "Holding it"));
    for rule in words.holding_rules() {
        text.push_str(&paragraph(2, 2, &rule));
    }
    for (block, stock) in plan.fixtures.blocks.iter().zip(&plan.block_stock) {
        let line = say!(
            words,
            "Angle blocks {block}. Cut: {stock}.",
            block = words.angle_block(block),
            stock = words.block_stock(stock, plan)
        );
        text.push_str(&paragraph(2, 4, &line));
    }
    for step in 0..plan.order.steps.len() {
        if let Some(held) = words.held_in_step(step, plan) {
            let number = Text::from(step + 1);
            text.push_str(&labelled(Label::ending(4, &number), 6, &held));
        }
    }
    text
}

fn corners(plan: &Plan, words: &Words<'_>) -> String {
    if plan.corners.is_empty() {
        return String::new();
    }
    let mut text = heading(&say!(words, "Corners"));
    for rule in [
        words.corner_rule(&plan.restart),
        words.corner_preheat(),
        words.restart_rule(&plan.restart),
    ] {
        text.push_str(&paragraph(2, 2, &rule));
    }
    for side in [WeldSide::Inside, WeldSide::Outside] {
        let of_side = plan.corners.iter().filter(|it| it.side == side);
        for corner in words.corners_said(of_side, plan) {
            let side = words.weld_side(side).capitalised();
            let line = say!(words, "{side}: {corner}", side = side, corner = corner);
            text.push_str(&paragraph(2, 4, &line));
        }
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
