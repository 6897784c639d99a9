//! The defaults, from the data file beside this: key, value, reason and source of each.

use super::DefaultUsed;
use std::collections::BTreeMap;
use std::sync::LazyLock;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

const TEXT: &str = include_str!("data/defaults.toml");

/// One default.
pub(super) struct Row {
    /// The value, read as if the job had written it.
    pub(super) value: &'static DeValue<'static>,
    value_text: String,
    reason: String,
    source: String,
}

impl Row {
    /// The default as the pack lists it.
    pub(super) fn as_used(&self, key: &str) -> DefaultUsed {
        DefaultUsed {
            key: key.to_owned(),
            value_text: self.value_text.clone(),
            reason: self.reason.clone(),
            source: self.source.clone(),
        }
    }
}

/// The default of a key; all items of a list share theirs, `a[2].b` with `a[1].b`.
///
/// `choice` names the case where a default has several, as the kerf of saw and router.
pub(super) fn row(key: &str, choice: &str) -> &'static Row {
    static ROWS: LazyLock<BTreeMap<(String, String), Row>> = LazyLock::new(read_rows);
    ROWS.get(&(without_counts(key), choice.to_owned()))
        .expect("every key read with a default has a row; a test reads them all")
}

/// `inner[2].joint` as `inner.joint`.
fn without_counts(key: &str) -> String {
    let parts = key
        .split('.')
        .map(|part| part.split('[').next().unwrap_or(part));
    parts.collect::<Vec<&str>>().join(".")
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
        value_text: shown(value),
        reason: text("reason"),
        source: text("source"),
    };
    ((text("key"), text("choice")), row)
}

fn shown(value: &DeValue<'_>) -> String {
    match value {
        DeValue::String(text) => text.to_string(),
        DeValue::Integer(integer) => integer.to_string(),
        DeValue::Float(float) => float.to_string(),
        DeValue::Boolean(flag) => flag.to_string(),
        DeValue::Datetime(date) => date.to_string(),
        DeValue::Array(items) => {
            let items: Vec<String> = items.iter().map(|item| shown(item.get_ref())).collect();
            items.join(", ")
        }
        DeValue::Table(table) => {
            let entries: Vec<String> = table
                .iter()
                .map(|(key, value)| format!("{} {}", key.get_ref(), shown(value.get_ref())))
                .collect();
            entries.join(" ")
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_default_says_why_and_whence() {
        let rows = read_rows();
        assert!(rows.len() > 20);
        for ((key, choice), row) in rows {
            assert!(!key.is_empty(), "a default without a key");
            assert!(!row.reason.is_empty(), "{key} {choice} has no reason");
            assert!(!row.source.is_empty(), "{key} {choice} has no source");
            assert!(!row.value_text.is_empty(), "{key} {choice} has no value");
        }
    }
}
