//! `[job]`: what the job is called, and how it is written and printed.

use brimful_units::{InchFraction, Length, UnitSystem};

/// What the job is called, and how it is written and printed.
#[derive(Clone, Debug, PartialEq)]
pub struct About {
    /// The name of the job.
    pub name: String,
    /// The unit of lengths written as bare numbers; none: a bare number is a fault.
    pub lengths: Option<LengthUnit>,
    /// The units of what is printed.
    pub units: UnitSystem,
    /// The smallest fraction of an inch printed.
    pub fraction: InchFraction,
    /// What the tank does all day.
    pub duty: Duty,
    /// Who it is for.
    pub customer: Option<String>,
    /// Anything the shop wants to remember.
    pub notes: Option<String>,
}

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
}

/// What the tank does all day.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Duty {
    /// Stands still.
    Standing,
    /// Rides on a road vehicle.
    Road,
    /// Rides in a boat.
    Afloat,
}
