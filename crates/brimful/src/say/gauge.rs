//! `gauge`: dip against volume, a table a compartment.

use super::capacity::capacity;
use super::findings;
use super::layout::{PLAIN, Table, heading, line};
use super::title::title;
use brimful_panels::gauge::{Gauge, GaugeRow};
use brimful_tank::plan::Plan;
use brimful_text::{Words, say};
use brimful_units::Length;

/// The gauge tables and the marks of a dipstick.
pub(crate) fn gauge(plan: &Plan, words: &Words<'_>) -> String {
    let mut text = title(plan, words);
    text.push_str(&capacity(plan, words));
    for gauge in &plan.gauges {
        text.push_str(&one(words, gauge));
    }
    text.push_str(&findings::stops(plan, words));
    text.push_str(&findings::verdict(plan, words));
    text
}

fn one(words: &Words<'_>, gauge: &Gauge) -> String {
    let level = gauge.heel.rad() == 0.0 && gauge.pitch.rad() == 0.0;
    let stands = if level {
        say!(words, "level")
    } else {
        say!(
            words,
            "heel {heel} (left side up), pitch {pitch} (front down)",
            heel = words.angle(gauge.heel),
            pitch = words.angle(gauge.pitch)
        )
    };
    let mut text = heading(&say!(
        words,
        "Gauge of {room}, {stands}",
        room = words.compartment_and_liquid(gauge.compartment),
        stands = stands
    ));
    let [x, y] = [gauge.foot.x, gauge.foot.y].map(|at| words.length(Length::from_m(at)));
    let dip = say!(
        words,
        "Dip under {under}, straight down to the floor at x {x}, y {y}.",
        under = words.dip_under(&gauge.under),
        x = x,
        y = y
    );
    text.push_str(&line(PLAIN, 2, &dip));
    text.push('\n');
    text.push_str(&beside(
        &table(words, ">dip", &gauge.rows),
        &table(words, ">stick mark", &gauge.marks),
    ));
    text
}

fn table(words: &Words<'_>, head: &'static str, rows: &[GaugeRow]) -> Vec<String> {
    let mut table = Table::new(words, &[head, ">volume"]);
    for row in rows {
        // On a tilt some liquid lies where the stick does not reach.
        let dip = if row.dip < Length::ZERO {
            say!(words, "below the stick")
        } else {
            words.length(row.dip)
        };
        table.row([dip, words.volume(row.volume)]);
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
