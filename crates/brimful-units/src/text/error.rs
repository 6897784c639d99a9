//! What can be wrong with a quantity as written.

use std::fmt;
use std::ops::Range;

/// A quantity that cannot be read: where, why, and what would be taken.
#[derive(Clone, Debug, PartialEq)]
pub struct UnitError {
    /// What is wrong.
    pub fault: UnitFault,
    /// The bytes of the text it is about (empty at the end of the text).
    pub span: Range<usize>,
    /// What was to be read.
    pub quantity: QuantityKind,
    /// The spellings of the units taken.
    pub allowed: Vec<&'static str>,
    /// The unit that was probably meant.
    pub nearest: Option<&'static str>,
}

/// The kinds of quantity that are read from text.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum QuantityKind {
    /// `450 mm`
    Length,
    /// `100 L`
    Volume,
    /// `1.66 m2`
    Area,
    /// `13.5 kg`
    Mass,
    /// `6.3 kPa`
    Pressure,
    /// `35 degC`
    Temperature,
    /// `1090 kg/m3`
    Density,
    /// `5 deg`
    Angle,
    /// `10 years`
    Time,
    /// `300 mm/min`
    Speed,
    /// `2.3 kg/h`
    MassRate,
    /// `20 L/min`
    FlowRate,
}

impl QuantityKind {
    /// What it is called.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Length => "length",
            Self::Volume => "volume",
            Self::Area => "area",
            Self::Mass => "mass",
            Self::Pressure => "pressure",
            Self::Temperature => "temperature",
            Self::Density => "density",
            Self::Angle => "angle",
            Self::Time => "time",
            Self::Speed => "speed",
            Self::MassRate => "mass rate",
            Self::FlowRate => "flow rate",
        }
    }
}

/// The kinds of fault in a quantity as written.
#[derive(Clone, Debug, PartialEq)]
pub enum UnitFault {
    /// There is no text.
    Empty,
    /// A number was expected and something else stands there.
    NotANumber,
    /// The number is too large to work with.
    NotFinite,
    /// A fraction over zero.
    ZeroDenominator,
    /// `1,200`: 1.2 or 1200?
    ThousandsOrDecimal,
    /// A number alone where a unit is needed.
    MissingUnit,
    /// A unit that is not known for this quantity.
    UnknownUnit {
        /// The unit as written.
        found: String,
    },
    /// `gal` alone.
    PlainGallon {
        /// The spellings that are taken.
        taken: [&'static str; 2],
    },
    /// Twelve inches or more (or fewer than none) after the feet.
    InchesOverTwelve,
    /// The text goes on after the quantity has ended.
    LeftOver,
    /// Colder than 0 K.
    BelowAbsoluteZero,
}

impl fmt::Display for UnitError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let quantity = self.quantity.word();
        match &self.fault {
            UnitFault::Empty => write!(out, "a {quantity} is missing here"),
            UnitFault::NotANumber => write!(out, "a {quantity} begins with a number"),
            UnitFault::NotFinite => write!(out, "this {quantity} is too large to work with"),
            UnitFault::ZeroDenominator => write!(out, "a fraction over 0 has no value"),
            UnitFault::ThousandsOrDecimal => write!(
                out,
                "a comma before three digits may mean thousands or decimals; write `1200` or `1.2`"
            ),
            UnitFault::MissingUnit => write!(out, "this {quantity} has no unit"),
            UnitFault::UnknownUnit { found } => {
                write!(out, "`{found}` is not a unit of {quantity} known here")
            }
            UnitFault::PlainGallon { taken } => write!(
                out,
                "`gal` alone may be either of two gallons; write `{}` or `{}`",
                taken[0], taken[1]
            ),
            UnitFault::InchesOverTwelve => {
                write!(out, "the inches after the feet must be from 0 to under 12")
            }
            UnitFault::LeftOver => write!(out, "the {quantity} has ended before this"),
            UnitFault::BelowAbsoluteZero => write!(out, "this is colder than absolute zero"),
        }
    }
}

impl std::error::Error for UnitError {}
