//! The table of sections and keys, from a data file: what each means, and how it is written.

use super::path::without_items;
use std::collections::BTreeMap;
use std::sync::LazyLock;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

const TEXT: &str = include_str!("data/keys.toml");

/// A section of the job file.
pub(super) struct SectionRow {
    /// As it stands in the file: `[[space.wall]]`.
    pub(super) heading: &'static str,
    /// What it is for, in a sentence.
    pub(super) meaning: &'static str,
    /// What has to stand before its own heading.
    pub(super) before: &'static str,
    /// What has to stand in it for any of its keys to be taken.
    pub(super) beside: &'static str,
}

impl SectionRow {
    /// Its path, as `space.wall`.
    pub(super) fn path(&self) -> &'static str {
        self.heading.trim_matches(['[', ']'])
    }
}

/// A key of a section.
pub(super) struct KeyRow {
    /// The paths of the sections that have it.
    pub(super) sections: Vec<&'static str>,
    /// The key.
    pub(super) key: &'static str,
    /// What it means, in a sentence.
    pub(super) meaning: &'static str,
    /// What to write where it is missing, in a sentence; empty where nothing needs it.
    pub(super) write: &'static str,
    /// How it may be written, an example for every form.
    pub(super) examples: Vec<&'static str>,
    /// What has to stand beside it, where that is not what has to stand beside all keys.
    pub(super) beside: Option<&'static str>,
}

impl KeyRow {
    /// The full paths of the key.
    pub(super) fn paths(&self) -> impl Iterator<Item = String> {
        self.sections
            .iter()
            .map(|section| format!("{section}.{}", self.key))
    }
}

/// The table.
pub(super) struct Table {
    /// The sections in the order of the file.
    pub(super) sections: Vec<SectionRow>,
    /// The keys in the order of their sections.
    pub(super) keys: Vec<KeyRow>,
    /// The rows of the keys by their paths.
    by_path: BTreeMap<String, usize>,
}

/// The table, read once.
pub(super) static TABLE: LazyLock<Table> = LazyLock::new(|| {
    static TREE: LazyLock<Spanned<DeTable<'static>>> =
        LazyLock::new(|| DeTable::parse(TEXT).expect("the compiled-in table of keys is TOML"));
    let tree = TREE.get_ref();
    let sections = rows(tree, "section").map(section_row).collect();
    let keys: Vec<KeyRow> = rows(tree, "key").map(key_row).collect();
    let paths = keys.iter().enumerate();
    let by_path = paths.flat_map(|(index, row)| row.paths().map(move |path| (path, index)));
    Table {
        sections,
        by_path: by_path.collect(),
        keys,
    }
});

/// How a key is written, in one line; `path` may name an item of its value.
pub(super) fn example(path: &str) -> Option<&'static str> {
    let row = row(path)?;
    row.examples.first()?.lines().next()
}

/// What to write where a key is missing.
pub(super) fn what_to_write(path: &str) -> &'static str {
    row(path).map_or("", |row| row.write)
}

fn row(path: &str) -> Option<&'static KeyRow> {
    let index = *TABLE.by_path.get(&without_items(path))?;
    TABLE.keys.get(index)
}

fn rows(
    tree: &'static DeTable<'static>,
    list: &str,
) -> impl Iterator<Item = &'static DeTable<'static>> {
    let rows = match tree.get(list).map(Spanned::get_ref) {
        Some(DeValue::Array(rows)) => rows.iter(),
        _ => [].iter(),
    };
    rows.filter_map(|row| match row.get_ref() {
        DeValue::Table(table) => Some(table),
        _ => None,
    })
}

fn section_row(row: &'static DeTable<'static>) -> SectionRow {
    let text = |key: &str| texts(row, key).first().copied().unwrap_or_default();
    SectionRow {
        heading: text("heading"),
        meaning: text("meaning"),
        before: text("before"),
        beside: text("beside"),
    }
}

fn key_row(row: &'static DeTable<'static>) -> KeyRow {
    let text = |key: &str| texts(row, key).first().copied();
    KeyRow {
        sections: texts(row, "of"),
        key: text("key").unwrap_or_default(),
        meaning: text("meaning").unwrap_or_default(),
        write: text("write").unwrap_or_default(),
        examples: texts(row, "example"),
        beside: text("beside"),
    }
}

/// A text, or the texts of a list.
fn texts(row: &'static DeTable<'static>, key: &str) -> Vec<&'static str> {
    match row.get(key).map(Spanned::get_ref) {
        Some(DeValue::String(text)) => vec![text.trim_end()],
        Some(DeValue::Array(items)) => items
            .iter()
            .filter_map(|item| match item.get_ref() {
                DeValue::String(text) => Some(text.trim_end()),
                _ => None,
            })
            .collect(),
        _ => Vec::new(),
    }
}
