//! `weld`: what is laid into every seam, with what, how long it takes, and in which order.

use super::check::title;
use super::findings;
use super::layout::{Table, heading, wrapped};
use super::units::Units;
use crate::words::of_plan;
use brimful_job::RodForm;
use brimful_panels::weld::cautions::Caution;
use brimful_panels::weld::hours::total;
use brimful_tank::plan::Plan;

/// Seams, runs, rod, hours, settings and the order of work.
pub(crate) fn weld(plan: &Plan) -> String {
    [
        title(plan),
        seams(plan),
        rods(plan),
        hours(plan),
        settings(plan),
        steps(plan),
        cautions(plan),
        findings::stops(plan),
        findings::verdict(plan),
    ]
    .concat()
}

fn seams(plan: &Plan) -> String {
    let units = Units(&plan.job.about);
    let words = of_plan(plan);
    let mut table = Table::new(&[
        "seam",
        "panels",
        "laid from",
        "weld",
        ">length",
        ">throat",
        ">runs",
        "edges",
    ]);
    for weld in &plan.welds.welds {
        let Some(seam) = plan.seams.get(weld.seam) else {
            continue;
        };
        let panel = |number: usize| {
            plan.panels
                .get(number)
                .map_or_else(String::new, |it| words.panel(&it.name).into())
        };
        table.row([
            seam.mark.clone(),
            seam.panels.map(panel).join(" / "),
            words.weld_side(weld.side).into(),
            words.groove(weld.kind).into(),
            units.length(weld.length),
            units.length(weld.throat),
            weld.runs.to_string(),
            words.preparation(weld.preparation).into(),
        ]);
    }
    format!("\n{}", table.text())
}

fn rods(plan: &Plan) -> String {
    let units = Units(&plan.job.about);
    let mut table = Table::new(&["rod", ">needed", ">by weight", ">on hand"]);
    for rod in &plan.welds.rods {
        let form = plan.job.stock.rods.get(rod.rod).map(|rod| rod.form);
        let form = if form == Some(RodForm::Triangular) {
            "triangular"
        } else {
            "round"
        };
        table.row([
            format!("{} {form}", units.length(rod.diameter)),
            units.run(rod.length),
            units.mass(rod.mass),
            rod.on_hand
                .map_or_else(|| "not said".to_owned(), |length| units.run(length)),
        ]);
    }
    format!("\n{}", table.text())
}

fn hours(plan: &Plan) -> String {
    let units = Units(&plan.job.about);
    let mut table = Table::new(&["work", ">how much", ">rate", ">time"]);
    let words = of_plan(plan);
    for line in &plan.welds.hours {
        table.row([
            words.labour(line.what).into(),
            words.amount(line.amount).into(),
            words.rate(line.amount).into(),
            units.time(line.time),
        ]);
    }
    let sum = units.time(total(&plan.welds.hours));
    table.row(["together".to_owned(), String::new(), String::new(), sum]);
    format!("\n{}", table.text())
}

fn settings(plan: &Plan) -> String {
    let words = of_plan(plan);
    let mut text = heading("Published settings; try them on a coupon first");
    for setting in &plan.welds.settings {
        let line = format!(
            "{} {} [{}, {}]",
            words.setting(setting.quantity),
            words.setting_range(setting.range),
            words.cited(&setting.source.cited),
            words.flag(setting.source.flag)
        );
        text.push_str(&wrapped("  ", 4, &line));
    }
    text
}

fn steps(plan: &Plan) -> String {
    let words = of_plan(plan);
    let mut text = heading("Order of work");
    for (number, step) in plan.welds.steps.iter().enumerate() {
        let step = words.step(step, plan);
        text.push_str(&wrapped(
            &format!("  {:>2}  ", number + 1),
            6,
            step.as_str(),
        ));
    }
    text
}

fn cautions(plan: &Plan) -> String {
    let words = of_plan(plan);
    let mut text = heading("Cautions");
    for caution in Caution::ALL {
        let caution = words.caution(caution);
        let line = format!("{}: {}", caution.about, caution.text);
        text.push_str(&wrapped("  ", 4, &line));
    }
    text
}
