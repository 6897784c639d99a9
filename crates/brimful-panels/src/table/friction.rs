//! Friction between a tank and what it stands on.

use super::row::rows;
use super::source::{Cited, Flag, Source, Sourced, SourcedValue};
use serde::Deserialize;
use std::sync::LazyLock;

#[derive(Deserialize)]
pub(super) struct Row {
    end: String,
    pub value: f64,
    flag: Flag,
    pub source: String,
}

pub(super) static FRICTION: LazyLock<Vec<Row>> =
    LazyLock::new(|| rows(include_str!("data/friction.csv")));

/// Which end of what friction may be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FrictionEnd {
    /// The least: for what has to be held.
    Least,
    /// The most: for what is pulled.
    Most,
}

/// Friction over the push that it goes with.
pub fn friction(end: FrictionEnd) -> Sourced<f64> {
    let word = match end {
        FrictionEnd::Least => "least",
        FrictionEnd::Most => "most",
    };
    let row = FRICTION.iter().find(|row| row.end == word);
    let row = row.expect("a test reads a row of each");
    Sourced {
        value: row.value,
        sources: vec![Source {
            value: SourcedValue::Factor {
                name: "friction",
                value: row.value,
                of: word,
            },
            flag: row.flag,
            cited: Cited::Row(&row.source),
        }],
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn both_ends_have_a_row() {
        let [least, most] = [FrictionEnd::Least, FrictionEnd::Most].map(|end| friction(end).value);
        assert!(0.0 < least && least < most && most < 1.0);
    }
}
