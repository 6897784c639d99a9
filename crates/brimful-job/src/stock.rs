//! `[stock]`: the sheets, offcuts and rod there are.

use super::place::Place;
use super::reader::{Bound, Section};
use brimful_units::{Length, Mass};
use std::ops::RangeInclusive;

/// The sheets, offcuts and rod there are.
#[derive(Clone, Debug, PartialEq)]
pub struct Stock {
    /// The plastic of sheet and rod: `HDPE`, `PP` or `PVC-U`.
    pub material: String,
    /// Its colour.
    pub colour: Option<String>,
    /// Sheets and offcuts; never empty.
    pub sheets: Vec<SheetStock>,
    /// Rods; never empty.
    pub rods: Vec<RodStock>,
}

/// One size of sheet or offcut.
#[derive(Clone, Debug, PartialEq)]
pub struct SheetStock {
    /// The two sides, as written.
    pub size: [Length; 2],
    /// The thickness.
    pub thickness: Length,
    /// How many there are; none: as many as are needed can be bought. An offcut is one unless
    /// it says otherwise.
    pub count: Option<u32>,
    /// Price of one, in the currency of the quote.
    pub price: Option<f64>,
    /// A piece left over from another job.
    pub offcut: bool,
    /// Where it is written.
    pub place: Place,
}

/// One size of rod.
#[derive(Clone, Debug, PartialEq)]
pub struct RodStock {
    /// The diameter (round), or the side (triangular).
    pub diameter: Length,
    /// The section.
    pub form: RodForm,
    /// How much there is by mass.
    pub mass: Option<Mass>,
    /// How much there is by length.
    pub length: Option<Length>,
    /// What one coil weighs; none: not said.
    pub coil: Option<Mass>,
    /// Its plastic; none: that of the sheet.
    pub material: Option<String>,
    /// Price of a kilogram, in the currency of the quote.
    pub price: Option<f64>,
    /// Where it is written.
    pub place: Place,
}

/// The section of a rod.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RodForm {
    /// Round.
    Round,
    /// Triangular.
    Triangular,
}

pub(super) const MATERIALS: [(&str, &str); 3] =
    [("HDPE", "HDPE"), ("PP", "PP"), ("PVC-U", "PVC-U")];
const ROD_FORMS: [(&str, RodForm); 2] = [
    ("round", RodForm::Round),
    ("triangular", RodForm::Triangular),
];
/// More sheets than any shop holds.
const MOST_SHEETS: u32 = 10_000;

impl Stock {
    /// Reads `[stock]`.
    pub(super) fn read(section: &Section<'_>) -> Option<Self> {
        let material = section.defaulted("material", |field| field.choice(&MATERIALS));
        let colour = section.optional("colour", |field| field.text());
        let sheets = section.defaulted("sheet", |field| {
            field.filled_list()?.each(|item, _| SheetStock::read(item))
        });
        let rods = section.defaulted("rod", |field| {
            field.filled_list()?.each(|item, _| RodStock::read(item))
        });
        section.refuse_unknown_keys();
        Some(Self {
            material: material?.to_owned(),
            colour: colour?,
            sheets: sheets?,
            rods: rods?,
        })
    }
}

impl SheetStock {
    fn read(section: &Section<'_>) -> Option<Self> {
        let size = section.needed("size", |field| field.lengths(Bound::AboveZero));
        let thickness = section.needed("thickness", |field| field.length(Bound::AboveZero));
        let count = section.optional("count", |field| field.whole(0..=MOST_SHEETS));
        let price = section.optional("price", |field| field.number(Bound::NotNegative));
        let offcut = section.optional("offcut", |field| field.flag());
        let offcut = offcut?.unwrap_or(false);
        // An offcut cannot be bought again.
        let count = count?.or(offcut.then_some(1));
        Some(Self {
            size: size?,
            thickness: thickness?,
            count,
            price: price?,
            offcut,
            place: section.place(),
        })
    }
}

/// Rods that are sold for hand guns and hand extruders, generously: thicker ones no hand melts.
const RODS: RangeInclusive<Length> = Length::from_mm(1.0)..=Length::from_mm(8.0);

impl RodStock {
    fn read(section: &Section<'_>) -> Option<Self> {
        let diameter = section.needed("diameter", |field| field.length_within(RODS));
        let form = section.optional("form", |field| field.choice(&ROD_FORMS));
        let mass = section.optional("mass", |field| field.quantity_above_zero());
        let length = section.optional("length", |field| field.length(Bound::AboveZero));
        let coil = section.optional("coil", |field| field.quantity_above_zero());
        let material = section.optional("material", |field| field.choice(&MATERIALS));
        let price = section.optional("price", |field| field.number(Bound::NotNegative));
        Some(Self {
            diameter: diameter?,
            form: form?.unwrap_or(RodForm::Round),
            mass: mass?,
            length: length?,
            coil: coil?,
            material: material?.map(str::to_owned),
            price: price?,
            place: section.place(),
        })
    }
}
