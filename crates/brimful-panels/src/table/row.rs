//! Reading the rows of a table.

use serde::de::DeserializeOwned;

/// The rows of a compiled-in table, its columns named as the fields of a row.
pub(super) fn rows<T: DeserializeOwned>(text: &'static str) -> Vec<T> {
    csv::Reader::from_reader(text.as_bytes())
        .into_deserialize()
        .collect::<Result<_, _>>()
        .expect("every compiled-in row is whole; a test reads them all")
}
