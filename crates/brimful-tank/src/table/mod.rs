//! The tables of the trade: materials, factors and welding settings, a source on every row.
//!
//! The rows stand in `data/*.csv` and are compiled in. A value comes with where it is from and
//! how sure it is. Nothing is extrapolated: outside a table the answer is [`NotCovered`]. What
//! the road does to a tank and how heavy liquids are stands with the job, beside its defaults.

pub mod factor;
pub mod material;
pub mod sheet;
pub mod welding;

use brimful_units::{Temperature, Time, UnitSystem, show};
use serde::Deserialize;
use serde::de::DeserializeOwned;
use std::fmt;

/// How sure a value is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Flag {
    /// Read in the source named.
    Seen,
    /// Recalled from the source named, not read again.
    #[serde(rename = "from memory")]
    FromMemory,
    /// Worked out as the source says.
    Computed,
    /// What shops do, or judgement; no published figure.
    #[serde(rename = "common practice")]
    CommonPractice,
    /// Given in the job; its maker answers for it.
    #[serde(skip)]
    Given,
}

impl Flag {
    /// The word for it on paper.
    pub fn word(self) -> &'static str {
        match self {
            Self::Seen => "seen",
            Self::FromMemory => "from memory",
            Self::Computed => "computed",
            Self::CommonPractice => "common practice",
            Self::Given => "given in the job",
        }
    }
}

/// Where one value comes from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Source {
    /// What the value is, with the value.
    pub what: String,
    /// How sure it is.
    pub flag: Flag,
    /// Author, title, table.
    pub text: String,
}

impl fmt::Display for Source {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {} ({})", self.what, self.text, self.flag.word())
    }
}

impl From<brimful_mech::plate::Flag> for Flag {
    fn from(flag: brimful_mech::plate::Flag) -> Self {
        match flag {
            brimful_mech::plate::Flag::Seen => Self::Seen,
            brimful_mech::plate::Flag::FromMemory => Self::FromMemory,
            brimful_mech::plate::Flag::Computed => Self::Computed,
        }
    }
}

/// A value with the sources of everything that went into it.
#[derive(Clone, Debug, PartialEq)]
pub struct Sourced<T> {
    /// The value.
    pub value: T,
    /// Where it and its factors come from.
    pub sources: Vec<Source>,
}

/// Why a table has no answer.
#[derive(Clone, Debug, PartialEq)]
pub enum NotCovered {
    /// No rows for this word.
    Word {
        /// Which table.
        table: &'static str,
        /// The word.
        word: String,
    },
    /// Longer than the table goes.
    Duration {
        /// Which table.
        table: &'static str,
        /// What was asked for.
        asked: Time,
        /// The longest there is.
        longest: Time,
    },
    /// Colder or warmer than the table goes.
    Temperature {
        /// Which table.
        table: &'static str,
        /// What was asked for.
        asked: Temperature,
        /// The coldest there is.
        coldest: Temperature,
        /// The warmest there is.
        warmest: Temperature,
    },
}

impl NotCovered {
    /// The reason, in a clause.
    pub fn text(&self, system: UnitSystem) -> String {
        match self {
            Self::Word { table, word } => format!("the table of {table} has no row for `{word}`"),
            Self::Duration {
                table,
                asked,
                longest,
            } => format!(
                "the table of {table} goes to {:.0} years, and {:.0} years were asked for",
                longest.years(),
                asked.years()
            ),
            Self::Temperature {
                table,
                asked,
                coldest,
                warmest,
            } => {
                let [asked, coldest, warmest] = [asked, coldest, warmest]
                    .map(|temperature| show::temperature(*temperature, system));
                format!(
                    "the table of {table} goes from {coldest} to {warmest}, and {asked} was asked for"
                )
            }
        }
    }
}

impl fmt::Display for NotCovered {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.text(UnitSystem::Metric))
    }
}

impl std::error::Error for NotCovered {}

/// The rows of a compiled-in table, its columns named as the fields of a row.
fn rows<T: DeserializeOwned>(text: &'static str) -> Vec<T> {
    csv::Reader::from_reader(text.as_bytes())
        .into_deserialize()
        .collect::<Result<_, _>>()
        .expect("every compiled-in row is whole; a test reads them all")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_is_whole() {
        for row in material::CREEP_MODULUS.iter() {
            assert!(row.hours > 0.0 && row.psi > 0.0 && !row.source.is_empty());
        }
        for row in material::TEMPERATURE_FACTOR.iter() {
            assert!(row.degf.is_finite() && row.factor > 0.0 && !row.source.is_empty());
        }
        for row in material::PROPERTY.iter() {
            assert!(row.value > 0.0 && !row.unit.is_empty() && !row.source.is_empty());
        }
        for row in factor::FACTOR.iter() {
            assert!(row.value > 0.0 && !row.source.is_empty());
        }
        for row in welding::SETTING.iter() {
            assert!(row.low <= row.high && !row.source.is_empty());
        }
    }
}
