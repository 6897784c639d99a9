//! The table of liquids, additives and refused words, from the data file beside this.

use super::fault::Items;
use super::reader::{Field, Reading, Section};
use brimful_units::{Density, Temperature};
use std::sync::LazyLock;
use toml::de::DeTable;

const TEXT: &str = include_str!("data/liquids.toml");

/// A liquid of known density.
pub(super) struct KnownLiquid {
    pub(super) kind: String,
    pub(super) density: Density,
    pub(super) attacks: Option<Attacks>,
    pub(super) freezes_at: Option<Temperature>,
    /// Whether people drink it.
    pub(super) potable: bool,
    pub(super) source: String,
}

/// What makes a liquid one that the maker of the sheet has to answer for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Attacks {
    /// It is an acid.
    Acid,
    /// It oxidises.
    Oxidiser,
}

const ATTACKS: [(&str, Attacks); 2] = [("acid", Attacks::Acid), ("oxidiser", Attacks::Oxidiser)];

/// Why no tank is made for a liquid.
pub(super) struct Refusal {
    /// Why, in a clause.
    pub(super) reason: String,
    /// What to do, in a sentence.
    pub(super) remedy: String,
}

struct Table {
    liquids: Vec<KnownLiquid>,
    refused: Vec<(Vec<String>, Refusal)>,
    additives: Vec<String>,
}

static TABLE: LazyLock<Table> =
    LazyLock::new(|| read_table().expect("the compiled-in table of liquids is whole"));

/// The liquid of a kind, in upper or lower case.
pub(super) fn of_kind(kind: &str) -> Option<&'static KnownLiquid> {
    TABLE
        .liquids
        .iter()
        .find(|liquid| liquid.kind.eq_ignore_ascii_case(kind))
}

/// All kinds, in the order of the table.
pub(super) fn kinds() -> impl Iterator<Item = &'static str> {
    TABLE.liquids.iter().map(|liquid| liquid.kind.as_str())
}

/// The refusal of a liquid, if it is refused.
pub(super) fn refusal(kind: &str) -> Option<&'static Refusal> {
    let lower = kind.to_lowercase();
    let found = TABLE
        .refused
        .iter()
        .find(|(words, _)| words.contains(&lower));
    found.map(|(_, refusal)| refusal)
}

/// All additives.
pub(super) fn additives() -> &'static [String] {
    &TABLE.additives
}

fn read_table() -> Option<Table> {
    let tree = DeTable::parse(TEXT).ok()?;
    let reading = Reading::new(TEXT);
    let root = reading.root(tree.get_ref());
    let liquids = root.each("liquid", |row, _| read_liquid(row));
    let refused = root.each("refused", |row, _| read_refusal(row));
    let additives = root.section("additive").needed("names", words_of);
    Some(Table {
        liquids: liquids?,
        refused: refused?,
        additives: additives?,
    })
}

fn read_liquid(row: &Section<'_>) -> Option<KnownLiquid> {
    Some(KnownLiquid {
        kind: row.needed("kind", |field| field.text())?,
        density: row.needed("density", |field| field.quantity_above_zero())?,
        attacks: row.optional("attacks", |field| field.choice(&ATTACKS))?,
        freezes_at: row.optional("freezes_at", |field| field.quantity())?,
        potable: row
            .optional("potable", |field| field.flag())?
            .unwrap_or(false),
        source: row.needed("source", |field| field.text())?,
    })
}

fn read_refusal(row: &Section<'_>) -> Option<(Vec<String>, Refusal)> {
    let refusal = Refusal {
        reason: row.needed("reason", |field| field.text())?,
        remedy: row.needed("remedy", |field| field.text())?,
    };
    Some((row.needed("words", words_of)?, refusal))
}

fn words_of(field: &Field<'_>) -> Option<Vec<String>> {
    const MOST_WORDS: usize = 100;
    field.all(0..=MOST_WORDS, Items::Words, Field::text)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_is_whole() {
        let table = read_table().expect("a whole table");
        assert!(table.liquids.len() > 10 && table.additives.len() > 3);
        assert!(of_kind("Drinking water").is_some());
        assert!(refusal("Diesel").is_some());
        for liquid in &table.liquids {
            assert!(refusal(&liquid.kind).is_none());
            assert!((700.0..2000.0).contains(&liquid.density.kg_m3()));
        }
    }
}
