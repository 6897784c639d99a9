//! Reading the rows of a table.

use super::source::Flag;
use serde::Deserialize;
use serde::de::DeserializeOwned;

/// A range of one quantity of something.
#[derive(Deserialize)]
pub(super) struct RangeRow {
    pub of: String,
    pub quantity: String,
    pub low: f64,
    pub high: f64,
    pub unit: String,
    pub flag: Flag,
    pub source: String,
}

impl RangeRow {
    /// The row of these words.
    ///
    /// # Panics
    /// There is none; a test asks for every row that is asked for.
    pub(super) fn find<'a>(rows: &'a [Self], of: &str, quantity: &str, unit: &str) -> &'a Self {
        let is_it = |row: &&Self| row.of == of && row.quantity == quantity && row.unit == unit;
        let row = rows.iter().find(is_it);
        row.unwrap_or_else(|| panic!("no row {of}, {quantity}, {unit}"))
    }
}

/// The rows of a compiled-in table, its columns named as the fields of a row.
pub(super) fn rows<T: DeserializeOwned>(text: &'static str) -> Vec<T> {
    csv::Reader::from_reader(text.as_bytes())
        .into_deserialize()
        .collect::<Result<_, _>>()
        .expect("every compiled-in row is whole; a test reads them all")
}
