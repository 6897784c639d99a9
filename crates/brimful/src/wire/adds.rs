//! What a change adds, as JSON.

use schemars::JsonSchema;
use serde::Serialize;

/// What a change adds; less than zero where it saves.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct Adds {
    sheet_kg: f64,
    rod_m: f64,
    hours_s: f64,
    /// What it holds below its air space.
    rated_m3: f64,
    /// In the currency of the quote; null without prices.
    money: Option<f64>,
}

pub(super) fn adds(adds: &brimful_tank::remedy::Adds) -> Adds {
    Adds {
        sheet_kg: adds.sheet.kg(),
        rod_m: adds.rod.m(),
        hours_s: adds.hours.s(),
        rated_m3: adds.rated.m3(),
        money: adds.money,
    }
}
