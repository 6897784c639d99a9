//! `[job]`: what the job is called, and how it is written and printed.

use super::length_unit::LengthUnit;
use super::reader::{BareLengths, Section};
use brimful_units::{InchFraction, UnitSystem};

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

const LENGTH_UNITS: [(&str, LengthUnit); 5] = [
    ("mm", LengthUnit::Millimetre),
    ("cm", LengthUnit::Centimetre),
    ("m", LengthUnit::Metre),
    ("in", LengthUnit::Inch),
    ("ft", LengthUnit::Foot),
];
const UNIT_SYSTEMS: [(&str, UnitSystem); 2] =
    [("metric", UnitSystem::Metric), ("inch", UnitSystem::Inch)];
const FRACTIONS: [(&str, InchFraction); 2] = [
    ("1/16", InchFraction::Sixteenth),
    ("1/32", InchFraction::ThirtySecond),
];
const DUTIES: [(&str, Duty); 3] = [
    ("standing", Duty::Standing),
    ("road", Duty::Road),
    ("afloat", Duty::Afloat),
];

impl About {
    /// Reads `[job]`; from here on bare lengths have a unit, if it names one.
    pub(super) fn read(section: &Section<'_>) -> Option<Self> {
        let lengths = section.optional("lengths", |field| field.choice(&LENGTH_UNITS));
        section.reading().lengths.set(match lengths {
            Some(Some(unit)) => BareLengths::In(unit),
            Some(None) => BareLengths::Refused,
            None => BareLengths::Unknown,
        });
        let name = section.defaulted("name", |field| field.text());
        let units = match lengths.flatten() {
            Some(unit) if !section.has("units") => {
                section.optional("units", |_| None::<UnitSystem>);
                Some(unit.system())
            }
            _ => section.defaulted("units", |field| field.choice(&UNIT_SYSTEMS)),
        };
        let fraction = section.defaulted("fraction", |field| field.choice(&FRACTIONS));
        let duty = section.defaulted("duty", |field| field.choice(&DUTIES));
        let customer = section.optional("customer", |field| field.text());
        let notes = section.optional("notes", |field| field.text());
        section.refuse_unknown_keys();
        Some(Self {
            name: name?,
            lengths: lengths?,
            units: units?,
            fraction: fraction?,
            duty: duty?,
            customer: customer?,
            notes: notes?,
        })
    }
}
