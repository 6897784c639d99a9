//! The table of defaults, from a data file: key, value, reason and source of each.

use super::path::without_items;
use std::collections::BTreeMap;
use std::sync::LazyLock;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

const TEXT: &str = include_str!("data/defaults.toml");

/// One default.
pub(super) struct Row {
    /// The value, read as if the job had written it.
    pub(super) value: &'static DeValue<'static>,
    /// Why this value.
    pub(super) reason: String,
    /// Where it comes from.
    pub(super) source: String,
}

/// The default of a key; all items of a list share theirs, `a[2].b` with `a[1].b`.
///
/// `choice` names the case where a default has several, as the kerf of saw and router.
pub(super) fn row(key: &str, choice: &str) -> &'static Row {
    static ROWS: LazyLock<BTreeMap<(String, String), Row>> = LazyLock::new(read_rows);
    ROWS.get(&(without_items(key), choice.to_owned()))
        .expect("every key read with a default has a row; a test reads them all")
}

fn read_rows() -> BTreeMap<(String, String), Row> {
    static TREE: LazyLock<Spanned<DeTable<'static>>> =
        LazyLock::new(|| DeTable::parse(TEXT).expect("the compiled-in table of defaults is TOML"));
    let rows = match TREE.get_ref().get("default").map(Spanned::get_ref) {
        Some(DeValue::Array(rows)) => rows.iter(),
        _ => [].iter(),
    };
    rows.filter_map(|row| match row.get_ref() {
        DeValue::Table(table) => Some(read_row(table)),
        _ => None,
    })
    .collect()
}

fn read_row(table: &'static DeTable<'static>) -> ((String, String), Row) {
    let text = |key: &str| match table.get(key).map(Spanned::get_ref) {
        Some(DeValue::String(text)) => text.to_string(),
        _ => String::new(),
    };
    let value = table
        .get("value")
        .expect("every default has a value; a test reads them all")
        .get_ref();
    let row = Row {
        value,
        reason: text("reason"),
        source: text("source"),
    };
    ((text("key"), text("choice")), row)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_default_has_a_reason_and_a_source() {
        let rows = read_rows();
        assert!(rows.len() > 20);
        for ((key, choice), row) in rows {
            assert!(!key.is_empty(), "a default without a key");
            assert!(!row.reason.is_empty(), "{key} {choice} has no reason");
            assert!(!row.source.is_empty(), "{key} {choice} has no source");
        }
    }
}
