//! `weld`: what is laid into every seam, with what, how long it takes, and in which order.

use super::check::title;
use super::findings;
use super::layout::{Table, heading, wrapped};
use super::units::Units;
use brimful_job::RodForm;
use brimful_tank::plan::Plan;
use brimful_tank::weld::cautions;
use brimful_tank::weld::hours::total;
use brimful_units::show::decimal;

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
                .map_or_else(String::new, |it| it.name.to_string())
        };
        table.row([
            seam.mark.clone(),
            seam.panels.map(panel).join(" / "),
            weld.side.word().to_owned(),
            weld.kind.to_owned(),
            units.length(weld.length),
            units.length(weld.throat),
            weld.runs.to_string(),
            weld.preparation.clone(),
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
    for line in &plan.welds.hours {
        table.row([
            line.what.to_owned(),
            format!("{} {}", decimal(line.quantity, 1), line.unit)
                .trim_end()
                .to_owned(),
            line.rate.clone(),
            units.time(line.time),
        ]);
    }
    let sum = units.time(total(&plan.welds.hours));
    table.row(["together".to_owned(), String::new(), String::new(), sum]);
    format!("\n{}", table.text())
}

fn settings(plan: &Plan) -> String {
    let words = crate::words::of_plan(plan);
    let mut text = heading("Published settings; try them on a coupon first");
    for setting in &plan.welds.settings {
        let range = if setting.low == setting.high {
            decimal(setting.low, 2)
        } else {
            format!(
                "{} to {}",
                decimal(setting.low, 2),
                decimal(setting.high, 2)
            )
        };
        let line = format!(
            "{} {range} {} [{}, {}]",
            setting.quantity,
            setting.unit,
            words.cited(&setting.source.cited),
            words.flag(setting.source.flag)
        );
        text.push_str(&wrapped("  ", 4, &line));
    }
    text
}

fn steps(plan: &Plan) -> String {
    let mut text = heading("Order of work");
    for (number, step) in plan.welds.steps.iter().enumerate() {
        text.push_str(&wrapped(&format!("  {:>2}  ", number + 1), 6, &step.text));
    }
    text
}

fn cautions(plan: &Plan) -> String {
    let mut text = heading("Cautions");
    for caution in cautions::cautions(plan.job.about.units) {
        let line = format!("{}: {}", caution.about, caution.text);
        text.push_str(&wrapped("  ", 4, &line));
    }
    text
}
