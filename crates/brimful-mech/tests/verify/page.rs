//! The page that shows everything.

use super::compare::{Group, Order, Ours, beyond, off};
use super::table::{Row, Standing};
use std::fmt::Write;

/// A page, or a part of one, under its own words.
pub fn page<'a>(intro: &str, groups: impl Iterator<Item = &'a Group>) -> String {
    let groups: Vec<&Group> = groups.collect();
    let mut out = String::from(intro);
    summary(&mut out, &groups);
    for group in groups {
        section(&mut out, group);
    }
    out
}

fn summary(out: &mut String, groups: &[&Group]) {
    line(out, "\n## Summary\n");
    line(
        out,
        "| table | figures | outside | largest error of the rest |",
    );
    line(out, "| --- | --- | --- | --- |");
    for group in groups {
        let met = |row: &Row| row.standing == Standing::Agrees;
        let count = group.rows().count();
        let rest = group.rows().filter(|(row, _)| !met(row)).count();
        let largest = group
            .rows()
            .filter(|(row, _)| met(row))
            .map(|(row, ours)| beyond(row, ours))
            .fold(0.0, f64::max);
        let largest = if rest == count {
            "–".into()
        } else {
            percent(largest)
        };
        let title = &group.table.title;
        line(out, &format!("| {title} | {count} | {rest} | {largest} |"));
    }
}

fn section(out: &mut String, group: &Group) {
    let table = &group.table;
    line(out, &format!("\n## {}\n", table.title));
    line(out, &format!("- Source: {}", table.source));
    line(out, &format!("- Reference: {}", table.flag));
    line(out, &format!("- Meshes: {}", table.meshes));
    line(out, &format!("- Tolerance: {}", table.reason));
    for note in &table.notes {
        line(out, &format!("- {note}"));
    }
    line(
        out,
        "\n| case | quantity | reference | coarse | middle | fine | order | error | allowed |",
    );
    line(
        out,
        "| --- | --- | --- | --- | --- | --- | --- | --- | --- |",
    );
    for (row, ours) in group.rows() {
        line(out, &figures(row, ours));
    }
}

fn figures(row: &Row, ours: &Ours) -> String {
    let [coarse, middle, fine] = ours.values.map(|v| shown(v, row));
    let order = match ours.order {
        Order::Observed(order) => format!("{order:.1}"),
        Order::Settled => "–".into(),
        Order::Unsteady => "~".into(),
    };
    let allowed = match row.standing {
        Standing::Agrees => percent(row.share),
        Standing::Outside(stated) => format!("**outside**: {stated} to {}", percent(row.share)),
    };
    format!(
        "| {} | {} | {} | {coarse} | {middle} | {fine} | {order} | {} | {allowed} |",
        row.case,
        row.quantity,
        row.printed,
        percent(off(row, ours))
    )
}

/// A figure to one digit more than the reference is printed with.
fn shown(value: f64, row: &Row) -> String {
    let (digits, power) = row.printed.split_once('e').unwrap_or((&row.printed, ""));
    let places = digits.split_once('.').map_or(0, |(_, after)| after.len()) + 1;
    match power.parse::<i32>() {
        Ok(power) => format!("{:.places$}e{power}", value / 10_f64.powi(power)),
        Err(_) => format!("{value:.places$}"),
    }
}

fn percent(share: f64) -> String {
    let share = 100.0 * share;
    // Not to show a minus before zero, nor more digits than mean something.
    if share.abs() < 0.005 {
        "0 %".into()
    } else {
        format!("{share:.2} %")
    }
}

fn line(out: &mut String, text: &str) {
    writeln!(out, "{text}").expect("a string takes all");
}
