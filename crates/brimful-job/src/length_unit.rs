//! The unit of lengths that are written as bare numbers.

use brimful_units::{Length, UnitSystem};

/// The unit of a bare number.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LengthUnit {
    /// `mm`
    Millimetre,
    /// `cm`
    Centimetre,
    /// `m`
    Metre,
    /// `in`
    Inch,
    /// `ft`
    Foot,
}

impl LengthUnit {
    /// A bare number of this unit as a length.
    #[must_use]
    pub const fn length(self, number: f64) -> Length {
        match self {
            Self::Millimetre => Length::from_mm(number),
            Self::Centimetre => Length::from_cm(number),
            Self::Metre => Length::from_m(number),
            Self::Inch => Length::from_inches(number),
            Self::Foot => Length::from_feet(number),
        }
    }

    /// The system the unit belongs to.
    #[must_use]
    pub const fn system(self) -> UnitSystem {
        match self {
            Self::Millimetre | Self::Centimetre | Self::Metre => UnitSystem::Metric,
            Self::Inch | Self::Foot => UnitSystem::Inch,
        }
    }
}
