//! Quantities that cannot be read, in words.

use super::said::Said;
use crate::text::{Language, Text};
use brimful_units::{QuantityKind, UnitFault};

pub(super) fn said(words: Language, quantity: QuantityKind, fault: &UnitFault) -> Said {
    (says(words, quantity, fault), remedy(words, fault))
}

fn says(words: Language, quantity: QuantityKind, fault: &UnitFault) -> Text {
    let quantity = words.data(quantity.word());
    match fault {
        UnitFault::Empty => say!(
            words,
            "the {quantity} is missing here.",
            quantity = quantity
        ),
        UnitFault::NotANumber => say!(
            words,
            "the {quantity} must begin with a number.",
            quantity = quantity
        ),
        UnitFault::NotFinite => say!(
            words,
            "this {quantity} is too large to work with.",
            quantity = quantity
        ),
        UnitFault::ZeroDenominator => say!(words, "a fraction over 0 has no value."),
        UnitFault::ThousandsOrDecimal => say!(
            words,
            "a comma before three digits may mean thousands or decimals; write `1200` or `1.2`."
        ),
        UnitFault::MissingUnit => say!(words, "this {quantity} has no unit.", quantity = quantity),
        UnitFault::UnknownUnit { found } => say!(
            words,
            "`{found}` is not a unit of {quantity} known here.",
            found = words.given(found),
            quantity = quantity
        ),
        UnitFault::PlainGallon { taken } => say!(
            words,
            "`gal` alone may be either of two gallons; write `{one}` or `{other}`.",
            one = words.given(taken[0]),
            other = words.given(taken[1])
        ),
        UnitFault::InchesOverTwelve => {
            say!(
                words,
                "the inches after the feet must be from 0 to under 12."
            )
        }
        UnitFault::LeftOver => say!(
            words,
            "the {quantity} has ended before this.",
            quantity = quantity
        ),
        UnitFault::BelowAbsoluteZero => say!(words, "this is colder than absolute zero."),
    }
}

fn remedy(words: Language, fault: &UnitFault) -> Text {
    match fault {
        UnitFault::Empty | UnitFault::NotANumber => {
            say!(words, "Write a number with one of the units taken.")
        }
        UnitFault::NotFinite | UnitFault::BelowAbsoluteZero => {
            say!(words, "Look whether number and unit are right.")
        }
        UnitFault::ZeroDenominator => say!(words, "Write it over another number."),
        UnitFault::ThousandsOrDecimal => {
            say!(words, "Write it without the comma, or with a point.")
        }
        UnitFault::MissingUnit => {
            say!(
                words,
                "Write the unit after the number, in quotation marks."
            )
        }
        UnitFault::UnknownUnit { .. } => say!(words, "Write one of the units taken."),
        UnitFault::PlainGallon { .. } => say!(words, "Write which gallon it is."),
        UnitFault::InchesOverTwelve => say!(words, "Write them as feet and the inches left."),
        UnitFault::LeftOver => say!(words, "Take out what follows the unit."),
    }
}
