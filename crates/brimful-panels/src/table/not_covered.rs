//! Why a table has no answer.

use brimful_units::{Temperature, Time};
use schemars::JsonSchema;
use serde::Serialize;

/// Why a table has no answer.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
#[schemars(rename = "TableNotCovered")]
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
        #[serde(rename = "asked_s")]
        asked: Time,
        /// The longest there is.
        #[serde(rename = "longest_s")]
        longest: Time,
    },
    /// Colder or warmer than the table goes.
    Temperature {
        /// Which table.
        table: &'static str,
        /// What was asked for.
        #[serde(rename = "asked_k")]
        asked: Temperature,
        /// The coldest there is.
        #[serde(rename = "coldest_k")]
        coldest: Temperature,
        /// The warmest there is.
        #[serde(rename = "warmest_k")]
        warmest: Temperature,
    },
}

impl NotCovered {
    /// Whether both come from one cause: another word, too long a service, too cold or too warm.
    pub fn has_cause_of(&self, other: &Self) -> bool {
        match (self, other) {
            (Self::Word { word: a, .. }, Self::Word { word: b, .. }) => a == b,
            (Self::Duration { .. }, Self::Duration { .. }) => true,
            (Self::Temperature { asked: a, .. }, Self::Temperature { asked: b, .. }) => a == b,
            _ => false,
        }
    }
}
