//! A finding as JSON.

use crate::words;
use brimful_tank::finding::{self, Quantity};
use schemars::JsonSchema;
use serde::Serialize;

/// What a check says.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct Finding {
    /// `stop`, `mend` or `note`.
    #[schemars(extend("enum" = ["stop", "mend", "note"]))]
    grade: &'static str,
    /// The panel, seam, opening or part of the job.
    about: String,
    /// What is found, in a sentence.
    says: String,
    /// What was computed; null where it is no number.
    figure: Option<Figure>,
    /// What it is held against.
    limit: Option<Figure>,
    /// Where the limit or the rule comes from.
    source: String,
    /// What would cure it; empty for a note that needs nothing.
    cure: String,
    /// What the cure is called in the job file; empty where it has no entry of its own.
    entry: &'static str,
    /// The line of the job file it comes from, from 1; null where it is not one line.
    line: Option<usize>,
}

/// A number with its unit.
#[derive(Debug, Serialize, JsonSchema)]
struct Figure {
    /// The number.
    value: f64,
    /// Its unit: `m`, `m2`, `m3`, `kg`, `pa`, `n`, `k`, `m_s`, `rad`, `ratio` or `count`.
    unit: &'static str,
}

pub(super) fn finding(finding: &finding::Finding) -> Finding {
    let place = finding.place.as_ref();
    Finding {
        grade: words::grade(finding.grade),
        about: finding.about.clone(),
        says: finding.says.clone(),
        figure: finding.figure.map(figure),
        limit: finding.limit.map(figure),
        source: finding.source.clone(),
        cure: finding.cure.clone(),
        entry: finding.entry,
        line: place.map(|place| place.line).filter(|line| *line > 0),
    }
}

fn figure(quantity: Quantity) -> Figure {
    let (value, unit) = match quantity {
        Quantity::Length(length) | Quantity::Thickness(length) => (length.m(), "m"),
        Quantity::Area(area) => (area.m2(), "m2"),
        Quantity::Volume(volume) => (volume.m3(), "m3"),
        Quantity::Mass(mass) => (mass.kg(), "kg"),
        Quantity::Pressure(pressure) => (pressure.pa(), "pa"),
        Quantity::Force(force) => (force.n(), "n"),
        Quantity::Temperature(temperature) => (temperature.kelvin(), "k"),
        Quantity::Speed(speed) => (speed.m_s(), "m_s"),
        Quantity::Angle(angle) => (angle.rad(), "rad"),
        Quantity::Ratio(ratio) => (ratio, "ratio"),
        Quantity::Count(count) => (count as f64, "count"),
    };
    Figure { value, unit }
}
