//! Sizes of welding kit, and of the arm that holds it.

use super::row::rows;
use super::source::Flag;
use brimful_units::{Angle, Length};
use serde::Deserialize;
use std::sync::LazyLock;

#[derive(Deserialize)]
pub(super) struct Row {
    pub of: String,
    pub quantity: String,
    pub value: f64,
    pub unit: String,
    #[allow(dead_code, reason = "every row says how sure it is")]
    flag: Flag,
    #[cfg_attr(
        not(test),
        allow(dead_code, reason = "every row says where it is from")
    )]
    pub source: String,
}

pub(super) static KIT: LazyLock<Vec<Row>> = LazyLock::new(|| rows(include_str!("data/kit.csv")));

fn row(of: &str, quantity: &str, unit: &str) -> f64 {
    let mut rows = KIT.iter();
    let row = rows.find(|row| row.of == of && row.quantity == quantity && row.unit == unit);
    row.expect("a test makes a kit of every kind").value
}

/// A length of a piece of kit, by the words of its row.
pub fn length(of: &str, quantity: &str) -> Length {
    Length::from_mm(row(of, quantity, "mm"))
}

/// An angle at which a piece of kit is held, by the words of its row.
pub fn angle(of: &str, quantity: &str) -> Angle {
    Angle::from_deg(row(of, quantity, "deg"))
}
