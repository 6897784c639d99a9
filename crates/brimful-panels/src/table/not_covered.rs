//! Why a table has no answer.

use brimful_units::{Temperature, Time};

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
