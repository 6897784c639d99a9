//! Quantities that cannot be read, in words.

use super::Said;
use crate::{Language, say};
use brimful_units::{QuantityKind, UnitFault};

pub(super) fn said(words: Language, quantity: QuantityKind, fault: &UnitFault) -> Said {
    let name = words.data(quantity.word());
    let as_number = || say!(words, "Write a number with one of the units taken.");
    match fault {
        UnitFault::Empty => (
            say!(words, "the {quantity} is missing here.", quantity = name),
            as_number(),
        ),
        UnitFault::NotANumber => (
            say!(
                words,
                "the {quantity} must begin with a number.",
                quantity = name
            ),
            as_number(),
        ),
        UnitFault::NotFinite => (
            say!(
                words,
                "this {quantity} is too large to work with.",
                quantity = name
            ),
            say!(words, "Look whether number and unit are right."),
        ),
        UnitFault::ZeroDenominator => (
            say!(words, "a fraction over 0 has no value."),
            say!(words, "Write it over another number."),
        ),
        UnitFault::ThousandsOrDecimal => (
            say!(
                words,
                "a comma before three digits may mean thousands or decimals; write `1200` or `1.2`."
            ),
            say!(words, "Write it without the comma, or with a point."),
        ),
        UnitFault::MissingUnit => (
            say!(words, "this {quantity} has no unit.", quantity = name),
            say!(
                words,
                "Write the unit after the number, in quotation marks."
            ),
        ),
        UnitFault::UnknownUnit { found } => (
            say!(
                words,
                "`{found}` is not a unit of {quantity} known here.",
                found = words.given(found),
                quantity = name
            ),
            say!(words, "Write one of the units taken."),
        ),
        UnitFault::PlainGallon { taken } => (
            say!(
                words,
                "`gal` alone may be either of two gallons; write `{one}` or `{other}`.",
                one = words.given(taken[0]),
                other = words.given(taken[1])
            ),
            say!(words, "Write which gallon it is."),
        ),
        UnitFault::InchesOverTwelve => (
            say!(
                words,
                "the inches after the feet must be from 0 to under 12."
            ),
            say!(words, "Write them as feet and the inches left."),
        ),
        UnitFault::LeftOver => (
            say!(
                words,
                "the {quantity} has ended before this.",
                quantity = name
            ),
            say!(words, "Take out what follows the unit."),
        ),
        UnitFault::BelowAbsoluteZero => (
            say!(words, "this is colder than absolute zero."),
            say!(words, "Look whether number and unit are right."),
        ),
    }
}
