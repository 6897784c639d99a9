//! `[liquid]`: what goes in, how much, how warm and for how long.

use brimful_units::{Density, Length, Temperature, Time, Volume};

/// What goes in, how much, how warm and for how long.
#[derive(Clone, Debug, PartialEq)]
pub struct Liquid {
    /// The kind as the table of liquids calls it; none: only a density was given.
    pub kind: Option<String>,
    /// The density to reckon with.
    pub density: Density,
    /// The capacity wanted.
    pub wanted: Option<Wanted>,
    /// Air left above the rated level, below the inside of the lid.
    pub air_space: Length,
    /// The coldest the liquid gets.
    pub coldest: Temperature,
    /// The warmest the liquid gets.
    pub warmest: Temperature,
    /// What is in it that may weaken the plastic, as the table of additives calls it.
    pub additives: Vec<String>,
    /// How long the tank must last.
    pub years: Time,
}

/// The capacity wanted, `100 L usable`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wanted {
    /// How much.
    pub volume: Volume,
    /// Which of the three capacities it is.
    pub of: Capacity,
}

/// The three capacities of a tank.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Capacity {
    /// To the inside of the lid.
    Brim,
    /// Below the air space.
    Rated,
    /// What the outlet can really reach.
    Usable,
}
