//! The defaults, from the data file beside this: key, value, reason and source of each.

use super::{About, DefaultUsed};
use brimful_units::{
    Length, LengthStyle, Read, density_text, length_text, pressure_text, show, speed_text,
    temperature_text,
};
use std::collections::BTreeMap;
use std::sync::LazyLock;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

const TEXT: &str = include_str!("data/defaults.toml");

/// One default.
pub(super) struct Row {
    /// The value, read as if the job had written it.
    pub(super) value: &'static DeValue<'static>,
    pieces: Vec<String>,
    reason: String,
    source: String,
}

impl Row {
    /// The default as the pack lists it.
    pub(super) fn as_used(&self, key: &str) -> DefaultUsed {
        DefaultUsed {
            key: key.to_owned(),
            value_text: self.pieces.concat(),
            pieces: self.pieces.clone(),
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
        pieces: pieces(value),
        reason: text("reason"),
        source: text("source"),
    };
    ((text("key"), text("choice")), row)
}

/// A value as a job would write it: what can be a quantity by itself, and what stands between.
fn pieces(value: &DeValue<'_>) -> Vec<String> {
    match value {
        DeValue::String(text) => vec![text.to_string()],
        DeValue::Integer(integer) => vec![integer.to_string()],
        DeValue::Float(float) => vec![float.to_string()],
        DeValue::Boolean(flag) => vec![flag.to_string()],
        DeValue::Datetime(date) => vec![date.to_string()],
        DeValue::Array(items) => {
            let items = items.iter().map(|item| pieces(item.get_ref()));
            items.collect::<Vec<_>>().join(&", ".to_owned())
        }
        DeValue::Table(table) => {
            let entries = table.iter().map(|(key, value)| {
                let key = format!("{} ", key.get_ref());
                [vec![key], pieces(value.get_ref())].concat()
            });
            entries.collect::<Vec<_>>().join(&" ".to_owned())
        }
    }
}

impl DefaultUsed {
    /// A default that a later stage takes, its value in the units of the job.
    pub fn new(key: &str, value_text: String, reason: &str, source: &str) -> Self {
        Self {
            key: key.to_owned(),
            pieces: vec![value_text.clone()],
            value_text,
            reason: reason.to_owned(),
            source: source.to_owned(),
        }
    }

    /// The same with its value told in the units of a job.
    #[must_use]
    pub fn told(&self, about: &About) -> Self {
        let told = self.pieces.iter().map(|piece| in_units(piece, about));
        Self {
            value_text: told.collect(),
            ..self.clone()
        }
    }
}

/// A quantity as it would be written, in the units of a job; whatever is none as it stands.
fn in_units(text: &str, about: &About) -> String {
    let system = about.units;
    let length = |read: Read<Length>| match read {
        Read::Quantity(length) => Some(show::length(
            length,
            LengthStyle::of(system, about.fraction),
        )),
        Read::Bare(_) => None,
    };
    let told = [
        length_text(text).ok().and_then(length),
        speed_text(text).ok().map(|it| show::speed(it, system)),
        density_text(text).ok().map(|it| show::density(it, system)),
        pressure_text(text)
            .ok()
            .map(|it| show::pressure(it, system)),
        temperature_text(text)
            .ok()
            .map(|it| show::temperature(it, system)),
    ];
    told.into_iter()
        .flatten()
        .next()
        .unwrap_or_else(|| text.to_owned())
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
            assert!(
                !row.pieces.concat().is_empty(),
                "{key} {choice} has no value"
            );
        }
    }
}
