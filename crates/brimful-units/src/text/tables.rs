//! The units taken, each with its spellings. Case matters: `MPa` is not `mPa`.

use super::error::QuantityKind;
use crate::quantity::{
    Angle, Area, Density, FlowRate, Length, Mass, MassRate, Pressure, Speed, Temperature, Time,
    Volume,
};

/// One unit: how it is written and what it makes of a number.
pub(super) struct Spelled<Q> {
    /// The spelling offered in messages.
    pub(super) word: &'static str,
    /// Other spellings taken.
    pub(super) also: &'static [&'static str],
    pub(super) make: fn(f64) -> Q,
}

impl<Q> Spelled<Q> {
    /// Every spelling, each with the one that is offered for it.
    pub(super) fn spellings(&self) -> impl Iterator<Item = (&'static str, &'static str)> {
        let word = self.word;
        std::iter::once(word)
            .chain(self.also.iter().copied())
            .map(move |spelling| (spelling, word))
    }
}

/// All units of one quantity.
pub(super) struct UnitTable<Q: 'static> {
    pub(super) quantity: QuantityKind,
    pub(super) has_gallons: bool,
    pub(super) units: &'static [Spelled<Q>],
}

impl<Q> UnitTable<Q> {
    /// The spellings that are offered.
    pub(super) fn words(&self) -> Vec<&'static str> {
        self.units.iter().map(|unit| unit.word).collect()
    }
}

/// The gallons that say which they are.
pub(super) const GALLON_SPELLINGS: [&str; 2] = ["US gal", "imp gal"];

macro_rules! table {
    ($(#[$attribute:meta])* $name:ident: $quantity:ident, gallons $gallons:literal,
     $( $word:literal $(| $also:literal)* => $make:expr; )+) => {
        $(#[$attribute])*
        pub(super) const $name: UnitTable<$quantity> = UnitTable {
            quantity: QuantityKind::$quantity,
            has_gallons: $gallons,
            units: &[ $( Spelled { word: $word, also: &[$($also),*], make: $make } ),+ ],
        };
    };
}

table! { LENGTH: Length, gallons false,
    "mm" | "millimetre" | "millimetres" | "millimeter" | "millimeters" => Length::from_mm;
    "cm" | "centimetre" | "centimetres" => Length::from_cm;
    "m" | "metre" | "metres" | "meter" | "meters" => Length::from_m;
    "in" | "in." | "inch" | "inches" | "\"" | "''" | "\u{2033}" | "\u{201d}" => Length::from_inches;
    "ft" | "ft." | "foot" | "feet" | "'" | "\u{2032}" | "\u{2019}" => Length::from_feet;
}

table! { VOLUME: Volume, gallons true,
    "L" | "l" | "litre" | "litres" | "liter" | "liters" => Volume::from_litres;
    "ml" | "mL" => Volume::from_ml;
    "m3" | "m\u{b3}" | "m^3" => Volume::from_m3;
    "US gal" | "US gallon" | "US gallons" => Volume::from_us_gal;
    "imp gal" | "imp gallon" | "imp gallons" => Volume::from_imp_gal;
    "in3" | "in\u{b3}" | "cu in" => Volume::from_in3;
    "ft3" | "ft\u{b3}" | "cu ft" => Volume::from_ft3;
}

table! { AREA: Area, gallons false,
    "m2" | "m\u{b2}" | "m^2" => Area::from_m2;
    "cm2" | "cm\u{b2}" => Area::from_cm2;
    "mm2" | "mm\u{b2}" => Area::from_mm2;
    "in2" | "in\u{b2}" | "sq in" => Area::from_in2;
    "ft2" | "ft\u{b2}" | "sq ft" => Area::from_ft2;
}

table! { MASS: Mass, gallons false,
    "kg" => Mass::from_kg;
    "g" => Mass::from_g;
    "t" | "tonne" | "tonnes" => Mass::from_tonnes;
    "lb" | "lbs" | "pound" | "pounds" => Mass::from_lb;
    "oz" | "ounce" | "ounces" => Mass::from_oz;
}

table! { PRESSURE: Pressure, gallons false,
    "Pa" => Pressure::from_pa;
    "kPa" => Pressure::from_kpa;
    "MPa" | "N/mm2" | "N/mm\u{b2}" => Pressure::from_mpa;
    "bar" => Pressure::from_bar;
    "psi" | "lbf/in2" => Pressure::from_psi;
}

table! { TEMPERATURE: Temperature, gallons false,
    "degC" | "\u{b0}C" | "deg C" | "C" | "\u{2103}" => Temperature::from_degc;
    "degF" | "\u{b0}F" | "deg F" | "F" | "\u{2109}" => Temperature::from_degf;
    "K" => Temperature::from_kelvin;
}

table! { DENSITY: Density, gallons true,
    "kg/m3" | "kg/m\u{b3}" | "kg/m^3" | "g/L" | "g/l" => Density::from_kg_m3;
    "g/cm3" | "g/cm\u{b3}" | "g/cm^3" | "g/ml" | "kg/L" | "kg/l" => Density::from_g_cm3;
    "lb/US gal" => Density::from_lb_us_gal;
    "lb/imp gal" => Density::from_lb_imp_gal;
    "lb/ft3" | "lb/ft\u{b3}" | "lb/cu ft" => Density::from_lb_ft3;
}

table! { ANGLE: Angle, gallons false,
    "deg" | "\u{b0}" | "degree" | "degrees" => Angle::from_deg;
    "rad" => Angle::from_rad;
    "%" | "% slope" | "%slope" => |percent| Angle::from_slope(percent / 100.0);
    "mm/m" => |rise| Angle::from_slope(rise / 1000.0);
    "in/ft" => |rise| Angle::from_slope(rise / 12.0);
}

table! { TIME: Time, gallons false,
    "years" | "year" | "y" | "yr" | "yrs" => Time::from_years;
    "months" | "month" => Time::from_months;
    "days" | "day" | "d" => Time::from_days;
    "h" | "hour" | "hours" | "hr" | "hrs" => Time::from_hours;
    "min" | "minute" | "minutes" => Time::from_minutes;
    "s" | "second" | "seconds" | "sec" => Time::from_s;
}

table! { SPEED: Speed, gallons false,
    "mm/min" => Speed::from_mm_min;
    "m/min" => Speed::from_m_min;
    "m/s" => Speed::from_m_s;
    "in/min" => Speed::from_in_min;
}

table! { MASS_RATE: MassRate, gallons false,
    "kg/h" => MassRate::from_kg_h;
    "lb/h" => MassRate::from_lb_h;
}

table! { FLOW_RATE: FlowRate, gallons true,
    "L/min" | "l/min" => FlowRate::from_litres_min;
    "US gal/min" => FlowRate::from_us_gal_min;
    "imp gal/min" => FlowRate::from_imp_gal_min;
}

impl QuantityKind {
    /// The spellings of its units that are offered.
    #[must_use]
    pub fn units(self) -> Vec<&'static str> {
        match self {
            Self::Length => LENGTH.words(),
            Self::Volume => VOLUME.words(),
            Self::Area => AREA.words(),
            Self::Mass => MASS.words(),
            Self::Pressure => PRESSURE.words(),
            Self::Temperature => TEMPERATURE.words(),
            Self::Density => DENSITY.words(),
            Self::Angle => ANGLE.words(),
            Self::Time => TIME.words(),
            Self::Speed => SPEED.words(),
            Self::MassRate => MASS_RATE.words(),
            Self::FlowRate => FLOW_RATE.words(),
        }
    }
}
