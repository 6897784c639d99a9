//! A finding as JSON.

use crate::words;
use brimful_panels::finding::{self, Quantity};
use brimful_text::Words;
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

pub(super) fn finding(finding: &finding::Finding, words: &Words<'_>) -> Finding {
    let told = words.finding(finding);
    let place = finding.place.as_ref();
    Finding {
        grade: words::grade(finding.grade),
        about: told.about.into(),
        says: told.says.into(),
        figure: finding.figures.map(|both| figure(both.figure)),
        limit: finding.figures.map(|both| figure(both.limit)),
        source: told.source.into(),
        cure: told.cure.into(),
        entry: told.entry,
        line: place.map(|place| place.line).filter(|line| *line > 0),
    }
}

fn figure(quantity: Quantity) -> Figure {
    Figure {
        value: quantity.value(),
        unit: quantity.unit(),
    }
}
