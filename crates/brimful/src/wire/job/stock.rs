//! Stock and prices as JSON. Prices are in the currency of the quote.

use crate::words;
use brimful_units::{Length, Mass, Time};
use schemars::JsonSchema;
use serde::Serialize;

/// The sheets, offcuts and rod there are.
#[derive(Debug, Default, Serialize, JsonSchema)]
pub(super) struct Stock {
    /// The plastic of sheet and rod: `HDPE`, `PP` or `PVC-U`.
    material: String,
    colour: Option<String>,
    sheets: Vec<Sheet>,
    rods: Vec<Rod>,
}

/// One size of sheet or offcut.
#[derive(Debug, Serialize, JsonSchema)]
struct Sheet {
    size_m: [f64; 2],
    thickness_m: f64,
    /// Null where more can be bought.
    count: Option<u32>,
    price: Option<f64>,
    offcut: bool,
}

/// One size of rod.
#[derive(Debug, Serialize, JsonSchema)]
struct Rod {
    diameter_m: f64,
    /// `round` or `triangular`.
    form: &'static str,
    mass_kg: Option<f64>,
    length_m: Option<f64>,
    /// Mass of one coil.
    coil_kg: Option<f64>,
    /// Null for that of the sheet.
    material: Option<String>,
    /// Of a kilogram.
    price_per_kg: Option<f64>,
}

/// The shop's own prices.
#[derive(Debug, Default, Serialize, JsonSchema)]
pub(super) struct Quote {
    currency: Option<String>,
    sheet_price_per_m2: Option<f64>,
    rod_price_per_kg: Option<f64>,
    price_per_hour: Option<f64>,
    validity_s: Option<f64>,
}

pub(super) fn stock(stock: &brimful_job::Stock) -> Stock {
    let sheet = |sheet: &brimful_job::SheetStock| Sheet {
        size_m: sheet.size.map(Length::m),
        thickness_m: sheet.thickness.m(),
        count: sheet.count,
        price: sheet.price,
        offcut: sheet.offcut,
    };
    let rod = |rod: &brimful_job::RodStock| Rod {
        diameter_m: rod.diameter.m(),
        form: words::rod_form(rod.form),
        mass_kg: rod.mass.map(Mass::kg),
        length_m: rod.length.map(Length::m),
        coil_kg: rod.coil.map(Mass::kg),
        material: rod.material.clone(),
        price_per_kg: rod.price,
    };
    Stock {
        material: stock.material.clone(),
        colour: stock.colour.clone(),
        sheets: stock.sheets.iter().map(sheet).collect(),
        rods: stock.rods.iter().map(rod).collect(),
    }
}

pub(super) fn quote(quote: &brimful_job::Quote) -> Quote {
    Quote {
        currency: quote.currency.clone(),
        sheet_price_per_m2: quote.sheet,
        rod_price_per_kg: quote.rod,
        price_per_hour: quote.hour,
        validity_s: quote.validity.map(Time::s),
    }
}
