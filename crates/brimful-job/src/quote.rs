//! `[quote]`: the shop's own prices. None are invented.

use super::reader::{Bound, Field, Section};
use brimful_units::Time;

/// The shop's own prices, in its own currency.
#[derive(Clone, Debug, PartialEq)]
pub struct Quote {
    /// The currency, as the shop writes it.
    pub currency: Option<String>,
    /// Price of a square metre of sheet, for sheets without a price of their own.
    pub sheet: Option<f64>,
    /// Price of a kilogram of rod, for rods without a price of their own.
    pub rod: Option<f64>,
    /// Price of an hour's work.
    pub hour: Option<f64>,
    /// How long the quote holds.
    pub validity: Option<Time>,
}

impl Quote {
    /// Reads `[quote]`.
    pub(super) fn read(section: &Section<'_>) -> Option<Self> {
        let price = |field: &Field<'_>| field.number(Bound::NotNegative);
        let currency = section.optional("currency", |field| field.text());
        let sheet = section.optional("sheet", price);
        let rod = section.optional("rod", price);
        let hour = section.optional("hour", price);
        let validity = section.optional("validity", |field| field.quantity_above_zero());
        section.refuse_unknown_keys();
        Some(Self {
            currency: currency?,
            sheet: sheet?,
            rod: rod?,
            hour: hour?,
            validity: validity?,
        })
    }
}
