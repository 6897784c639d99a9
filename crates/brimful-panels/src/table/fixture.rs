//! What shops do to hold sheet while it is welded, and where they start and stop a run.

use super::row::{RangeRow, rows};
use super::source::Flag;
use brimful_units::{Angle, Length};
use std::sync::LazyLock;

pub(super) static FIXTURE: LazyLock<Vec<RangeRow>> =
    LazyLock::new(|| rows(include_str!("data/fixture.csv")));

fn range(of: &str, quantity: &str, unit: &str) -> [f64; 2] {
    let row = RangeRow::find(&FIXTURE, of, quantity, unit);
    [row.low, row.high]
}

/// The least and the greatest of a length, by the words of its row.
pub fn lengths(of: &str, quantity: &str) -> [Length; 2] {
    range(of, quantity, "mm").map(Length::from_mm)
}

/// The least and the greatest of an angle, by the words of its row.
pub fn angles(of: &str, quantity: &str) -> [Angle; 2] {
    range(of, quantity, "deg").map(Angle::from_deg)
}

/// A count, by the words of its row.
pub fn count(of: &str, quantity: &str) -> usize {
    let [least, _] = range(of, quantity, "count");
    least as usize
}

/// Where the rows of these are from and how sure they are, each source once.
pub fn sources(of: &[&str]) -> Vec<(&'static str, Flag)> {
    let mut sources: Vec<(&str, Flag)> = Vec::new();
    for row in FIXTURE.iter().filter(|row| of.contains(&row.of.as_str())) {
        let source = (row.source.as_str(), row.flag);
        if !sources.contains(&source) {
            sources.push(source);
        }
    }
    sources
}
