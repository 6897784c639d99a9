//! Checks of the tank as laid out: will it hold?

pub(crate) mod foot;
pub mod strength;
