//! `gauge`: dip against volume, a table a compartment.

use super::check::{capacity, title};
use super::findings;
use super::layout::{Table, clean, heading};
use super::units::Units;
use brimful_panels::gauge::{Gauge, GaugeRow};
use brimful_tank::plan::Plan;
use brimful_units::Length;

/// The gauge tables and the marks of a dipstick.
pub(crate) fn gauge(plan: &Plan) -> String {
    let mut text = title(plan);
    text.push_str(&capacity(plan));
    for gauge in &plan.gauges {
        text.push_str(&one(plan, gauge));
    }
    text.push_str(&findings::stops(plan));
    text.push_str(&findings::verdict(plan));
    text
}

fn one(plan: &Plan, gauge: &Gauge) -> String {
    let units = Units(&plan.job.about);
    let level = gauge.heel.rad() == 0.0 && gauge.pitch.rad() == 0.0;
    let stands = if level {
        "level".to_owned()
    } else {
        format!(
            "heel {} (left side up), pitch {} (front down)",
            units.angle(gauge.heel),
            units.angle(gauge.pitch)
        )
    };
    let words = crate::words::of_plan(plan);
    let room = words.compartment(gauge.compartment);
    let mut text = heading(&format!("Gauge of {room}, {stands}"));
    text.push_str(&format!(
        "  Dip under {}, straight down to the floor at x {}, y {}.\n\n",
        clean(words.dip_under(&gauge.under).as_str()),
        units.metres(gauge.foot.x),
        units.metres(gauge.foot.y)
    ));
    text.push_str(&beside(
        &table(units, ">dip", &gauge.rows),
        &table(units, ">stick mark", &gauge.marks),
    ));
    text
}

fn table(units: Units<'_>, head: &'static str, rows: &[GaugeRow]) -> Vec<String> {
    let mut table = Table::new(&[head, ">volume"]);
    for row in rows {
        // On a tilt some liquid lies where the stick does not reach.
        let dip = if row.dip < Length::ZERO {
            "below the stick".to_owned()
        } else {
            units.length(row.dip)
        };
        table.row([dip, units.volume(row.volume)]);
    }
    table.text().lines().map(str::to_owned).collect()
}

/// Two blocks of lines side by side.
fn beside(left: &[String], right: &[String]) -> String {
    let visible = |line: &str| {
        anstream::adapter::strip_str(line)
            .to_string()
            .chars()
            .count()
    };
    let width = left.iter().map(|line| visible(line)).max().unwrap_or(0) + 6;
    let mut text = String::new();
    for number in 0..left.len().max(right.len()) {
        let left = left.get(number).map_or("", String::as_str);
        let right = right.get(number).map_or("", String::as_str);
        let pad = " ".repeat(width - visible(left));
        text.push_str(format!("{left}{pad}{right}").trim_end());
        text.push('\n');
    }
    text
}
