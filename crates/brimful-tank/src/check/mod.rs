//! Checks of the tank as laid out: will it hold?

pub mod strength;
