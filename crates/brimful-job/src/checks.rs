//! `[checks]`: what the tank is held to.

use super::fault::OutOfRange;
use super::reader::{Bound, Field, Reading, Section};
use brimful_units::{Length, Mass, Pressure};
use std::sync::LazyLock;
use toml::de::DeTable;

/// What the tank is held to, where the job asks for more than the rules do.
#[derive(Clone, Debug, PartialEq)]
pub struct Checks {
    /// The safety factor on strength, at least 1; none: the rules'.
    pub safety_factor: Option<f64>,
    /// The most a wall may bulge; none: the rules'.
    pub bulge: Option<Length>,
    /// How high liquid can stand above the lid while the tank is filled.
    pub filling_head: Length,
    /// How hard a shut vent lets the tank be sucked at.
    pub suction: Pressure,
    /// How full the tank is taken to be.
    pub filled_to: FilledTo,
    /// What may stand or kneel on the lid, in one place; none: nothing may.
    pub lid_load: Option<Mass>,
}

/// How full the tank is taken to be when its strength is checked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FilledTo {
    /// To the inside of its highest lid.
    Brim,
    /// To the air space below that and never higher, but for the leak test, which is brim-full.
    Rated,
}

pub(super) const FILLED_TO: [(&str, FilledTo); 2] =
    [("brim", FilledTo::Brim), ("rated", FilledTo::Rated)];

impl Checks {
    /// Reads `[checks]`.
    pub(super) fn read(section: &Section<'_>) -> Option<Self> {
        let safety_factor = section.optional("safety_factor", read_safety_factor);
        let bulge = section.optional("bulge", |field| field.length(Bound::AboveZero));
        let filling_head =
            section.defaulted("filling_head", |field| field.length(Bound::NotNegative));
        let suction = section.defaulted("suction", |field| field.quantity_above_zero());
        let filled_to = section.defaulted("filled_to", |field| field.choice(&FILLED_TO));
        let lid_load = section.optional("lid_load", |field| field.quantity_above_zero());
        section.refuse_unknown_keys();
        Some(Self {
            safety_factor: safety_factor?,
            bulge: bulge?,
            filling_head: filling_head?,
            suction: suction?,
            filled_to: filled_to?,
            lid_load: lid_load?,
        })
    }
}

/// What a job is held to that says nothing of it.
static STANDARD: LazyLock<Checks> = LazyLock::new(|| {
    let (tree, _) = DeTable::parse_recoverable("");
    let reading = Reading::new("");
    let root = reading.root(tree.get_ref());
    Checks::read(&root.section("checks")).expect("the compiled-in defaults are whole")
});

impl Checks {
    /// What a job is held to that says nothing of it.
    pub fn standard() -> &'static Self {
        &STANDARD
    }
}

fn read_safety_factor(field: &Field<'_>) -> Option<f64> {
    let (least, most) = (1.0, 20.0);
    field.number_within(least..=most, OutOfRange::Number { least, most })
}
