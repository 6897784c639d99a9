//! Loads that come again and again: how often, how long each time, and what that leaves of strength.

use super::material::Material;
use super::row::rows;
use super::source::{Cited, Flag, Source, Sourced, SourcedValue};
use brimful_units::Time;
use serde::Deserialize;
use std::sync::LazyLock;

pub(super) static REPEATED_LOAD: LazyLock<Vec<RepeatRow>> =
    LazyLock::new(|| rows(include_str!("data/repeated_load.csv")));
pub(super) static LOAD_TIME: LazyLock<Vec<LoadTimeRow>> =
    LazyLock::new(|| rows(include_str!("data/load_time.csv")));

#[derive(Deserialize)]
pub(super) struct RepeatRow {
    material: String,
    of: String,
    onset: f64,
    slope: f64,
    flag: Flag,
    pub source: String,
}

#[derive(Deserialize)]
pub(super) struct LoadTimeRow {
    load: String,
    hours: f64,
    times_a_year: f64,
    flag: Flag,
    pub source: String,
}

/// What repeated loads are held against.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Repeated {
    /// The sheet.
    Sheet,
    /// A weld.
    Weld,
}

/// A load that comes again and again.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LoadTime {
    /// Liquid stands in the filler.
    Filling,
    /// Something stands on the lid.
    OnLid,
    /// The warmest or coldest part of the year.
    Season,
}

/// How long a load acts each time, and how often in a year.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Often {
    /// Each time.
    pub each: Time,
    /// How often.
    pub times_a_year: f64,
}

/// How often a load comes.
pub fn often(load: LoadTime) -> Sourced<Often> {
    let word = match load {
        LoadTime::Filling => "filling",
        LoadTime::OnLid => "on lid",
        LoadTime::Season => "season",
    };
    let row = LOAD_TIME.iter().find(|row| row.load == word);
    let row = row.expect("a test reads a row of each");
    let each = Time::from_hours(row.hours);
    Sourced {
        value: Often {
            each,
            times_a_year: row.times_a_year,
        },
        sources: vec![Source {
            value: SourcedValue::LoadTime {
                each,
                times_a_year: row.times_a_year,
            },
            flag: row.flag,
            cited: Cited::Row(&row.source),
        }],
    }
}

/// What repeats leave of strength.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RepeatLine {
    onset: f64,
    slope: f64,
}

impl RepeatLine {
    /// The line of a material.
    pub fn of(material: Material, of: Repeated) -> Self {
        let row = row(material, of);
        Self {
            onset: row.onset,
            slope: row.slope,
        }
    }

    /// What is left of strength where a load comes `times` in all: `(onset / times)^(1 / slope)`, and no more
    /// than all of it.
    pub fn factor(self, times: f64) -> f64 {
        (self.onset / times).powf(self.slope.recip()).min(1.0)
    }
}

/// What is left of strength where a load comes `times` in all.
pub fn repeat_factor(material: Material, of: Repeated, times: f64) -> Sourced<f64> {
    let row = row(material, of);
    let factor = RepeatLine::of(material, of).factor(times);
    Sourced {
        value: factor,
        sources: vec![Source {
            value: SourcedValue::RepeatFactor {
                of: word(of),
                factor,
                times,
            },
            flag: row.flag,
            cited: Cited::Row(&row.source),
        }],
    }
}

fn row(material: Material, of: Repeated) -> &'static RepeatRow {
    let mut rows = REPEATED_LOAD.iter();
    let row = rows.find(|row| row.material == material.row_name() && row.of == word(of));
    row.expect("a test reads a row of each")
}

const fn word(of: Repeated) -> &'static str {
    match of {
        Repeated::Sheet => "sheet",
        Repeated::Weld => "weld",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// PIPA POP010A, fatigue load factors of PE pipe by cycles in all (from memory), to their two digits.
    #[test]
    fn fatigue_factors_are_those_of_the_pipe_industry() {
        let rows = [
            (3e5, 1.00),
            (5e5, 0.95),
            (1e6, 0.88),
            (5e6, 0.74),
            (1e7, 0.68),
            (5e7, 0.57),
        ];
        for (times, wanted) in rows {
            let found = repeat_factor(Material::Hdpe, Repeated::Sheet, times).value;
            assert!((found - wanted).abs() <= 0.006, "{times}: {found}");
        }
    }

    #[test]
    fn every_load_and_material_has_a_row() {
        for load in [LoadTime::Filling, LoadTime::OnLid, LoadTime::Season] {
            assert!(often(load).value.each > Time::ZERO);
        }
        for material in [Material::Hdpe, Material::Pp] {
            assert_eq!(repeat_factor(material, Repeated::Weld, 10.0).value, 1.0);
            assert!(repeat_factor(material, Repeated::Sheet, 1e7).value < 1.0);
        }
    }
}
