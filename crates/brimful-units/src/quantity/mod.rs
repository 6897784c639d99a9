//! Newtypes over one `f64` in SI, and the arithmetic that makes sense between them.
//!
//! Every unit is given as an exact ratio `multiplier / divisor` to SI, so that `from_mm(450.0)`
//! is the double nearest to 0.45 m. The ratios are definitions: BIPM, *The International System
//! of Units* (SI Brochure, 9th ed.), and NIST Special Publication 811 (2008), Appendix B.8
//! (inch 25.4 mm, pound 0.453 592 37 kg, US gallon 231 in3, imperial gallon 4.546 09 L, standard
//! gravity 9.806 65 m/s2), from memory.
//!
//! Constructors take any number; text is checked to be finite where it is read ([`crate::text`]).

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::Serialize;
use std::borrow::Cow;
use std::cmp::Ordering;
use std::iter::Sum;
use std::ops::{Add, AddAssign, Div, Mul, Neg, Sub, SubAssign};

/// Standard gravity in m/s2 (CGPM 1901; NIST SP 811 B.8), from memory.
pub const STANDARD_GRAVITY: f64 = 9.806_65;
/// Kelvin at 0 degC (SI Brochure 2.3.1), from memory.
const ICE_POINT_K: f64 = 273.15;
/// degF at absolute zero: 459.67 below zero (NIST SP 811 B.8), from memory.
const ABSOLUTE_ZERO_F: f64 = 459.67;
const POUND_KG: f64 = 0.453_592_37;
/// 231 cubic inches of exactly 25.4 mm.
const US_GALLON_M3: f64 = 3.785_411_784e-3;
const IMPERIAL_GALLON_M3: f64 = 4.546_09e-3;
const CUBIC_FOOT_M3: f64 = 0.028_316_846_592;
/// Julian year of 365.25 days; good for creep times, where a day in a year is nothing.
const YEAR_S: f64 = 365.25 * 86_400.0;

mod macros;
use macros::{number_in_json, ordered, product, quantity, si_unit};

quantity! {
    /// A length, in metres inside.
    Length {
        /// Metres.
        from_m / m = 1.0, 1.0;
        /// Centimetres.
        from_cm / cm = 1.0, 100.0;
        /// Millimetres.
        from_mm / mm = 1.0, 1000.0;
        /// Inches of exactly 25.4 mm.
        from_inches / inches = 254.0, 10_000.0;
        /// Feet of twelve inches.
        from_feet / feet = 3048.0, 10_000.0;
    }
}

quantity! {
    /// An area, in square metres inside.
    Area {
        /// Square metres.
        from_m2 / m2 = 1.0, 1.0;
        /// Square centimetres.
        from_cm2 / cm2 = 1.0, 1e4;
        /// Square millimetres.
        from_mm2 / mm2 = 1.0, 1e6;
        /// Square inches.
        from_in2 / in2 = 64_516.0, 1e8;
        /// Square feet.
        from_ft2 / ft2 = 9_290_304.0, 1e8;
    }
}

quantity! {
    /// A volume, in cubic metres inside.
    Volume {
        /// Cubic metres.
        from_m3 / m3 = 1.0, 1.0;
        /// Litres.
        from_litres / litres = 1.0, 1e3;
        /// Millilitres.
        from_ml / ml = 1.0, 1e6;
        /// US gallons of 231 cubic inches.
        from_us_gal / us_gal = US_GALLON_M3, 1.0;
        /// Imperial gallons of 4.54609 litres.
        from_imp_gal / imp_gal = IMPERIAL_GALLON_M3, 1.0;
        /// Cubic inches.
        from_in3 / in3 = 16_387_064.0, 1e12;
        /// Cubic feet.
        from_ft3 / ft3 = CUBIC_FOOT_M3, 1.0;
    }
}

quantity! {
    /// A mass, in kilograms inside.
    Mass {
        /// Kilograms.
        from_kg / kg = 1.0, 1.0;
        /// Grams.
        from_g / g = 1.0, 1e3;
        /// Tonnes of 1000 kg.
        from_tonnes / tonnes = 1e3, 1.0;
        /// Pounds (avoirdupois).
        from_lb / lb = POUND_KG, 1.0;
        /// Ounces (avoirdupois), sixteen to the pound.
        from_oz / oz = POUND_KG, 16.0;
    }
}

quantity! {
    /// A density, in kilograms per cubic metre inside.
    Density {
        /// Kilograms per cubic metre.
        from_kg_m3 / kg_m3 = 1.0, 1.0;
        /// Grams per cubic centimetre.
        from_g_cm3 / g_cm3 = 1e3, 1.0;
        /// Pounds per US gallon.
        from_lb_us_gal / lb_us_gal = POUND_KG, US_GALLON_M3;
        /// Pounds per imperial gallon.
        from_lb_imp_gal / lb_imp_gal = POUND_KG, IMPERIAL_GALLON_M3;
        /// Pounds per cubic foot.
        from_lb_ft3 / lb_ft3 = POUND_KG, CUBIC_FOOT_M3;
    }
}

quantity! {
    /// A pressure or a stress, in pascals inside.
    Pressure {
        /// Pascals.
        from_pa / pa = 1.0, 1.0;
        /// Kilopascals.
        from_kpa / kpa = 1e3, 1.0;
        /// Megapascals (newtons per square millimetre).
        from_mpa / mpa = 1e6, 1.0;
        /// Bars.
        from_bar / bar = 1e5, 1.0;
        /// Pounds-force per square inch.
        from_psi / psi = (POUND_KG * STANDARD_GRAVITY * 1e8), 64_516.0;
    }
}

quantity! {
    /// An angle, in radians inside.
    Angle {
        /// Radians.
        from_rad / rad = 1.0, 1.0;
        /// Degrees.
        from_deg / deg = std::f64::consts::PI, 180.0;
    }
}

quantity! {
    /// A span of time, in seconds inside.
    Time {
        /// Seconds.
        from_s / s = 1.0, 1.0;
        /// Minutes.
        from_minutes / minutes = 60.0, 1.0;
        /// Hours.
        from_hours / hours = 3600.0, 1.0;
        /// Days of 24 hours.
        from_days / days = 86_400.0, 1.0;
        /// Months, twelve to the year of 365.25 days.
        from_months / months = YEAR_S, 12.0;
        /// Years of 365.25 days.
        from_years / years = YEAR_S, 1.0;
    }
}

quantity! {
    /// A speed (of welding), in metres per second inside.
    Speed {
        /// Metres per second.
        from_m_s / m_s = 1.0, 1.0;
        /// Metres per minute.
        from_m_min / m_min = 1.0, 60.0;
        /// Millimetres per minute.
        from_mm_min / mm_min = 1.0, 60_000.0;
        /// Inches per minute.
        from_in_min / in_min = 254.0, 600_000.0;
    }
}

quantity! {
    /// How much mass a machine gives in a time, in kilograms per second inside.
    MassRate {
        /// Kilograms per second.
        from_kg_s / kg_s = 1.0, 1.0;
        /// Kilograms per hour.
        from_kg_h / kg_h = 1.0, 3600.0;
        /// Pounds per hour.
        from_lb_h / lb_h = POUND_KG, 3600.0;
    }
}

quantity! {
    /// How much liquid runs in a time, in cubic metres per second inside.
    FlowRate {
        /// Cubic metres per second.
        from_m3_s / m3_s = 1.0, 1.0;
        /// Litres per minute.
        from_litres_min / litres_min = 1.0, 6e4;
        /// US gallons per minute.
        from_us_gal_min / us_gal_min = US_GALLON_M3, 60.0;
        /// Imperial gallons per minute.
        from_imp_gal_min / imp_gal_min = IMPERIAL_GALLON_M3, 60.0;
    }
}

quantity! {
    /// A force, in newtons inside.
    Force {
        /// Newtons.
        from_n / n = 1.0, 1.0;
        /// Kilonewtons.
        from_kn / kn = 1e3, 1.0;
        /// Pounds-force.
        from_lbf / lbf = (POUND_KG * STANDARD_GRAVITY), 1.0;
    }
}

quantity! {
    /// An acceleration, in metres per second squared inside.
    Acceleration {
        /// Metres per second squared.
        from_m_s2 / m_s2 = 1.0, 1.0;
        /// Multiples of standard gravity.
        from_g / g = STANDARD_GRAVITY, 1.0;
    }
}

product!(Length squared = Area);
product!(Area * Length = Volume);
product!(Volume * Density = Mass);
product!(Pressure * Area = Force);
product!(Mass * Acceleration = Force);
product!(Speed * Time = Length);
product!(MassRate * Time = Mass);
product!(FlowRate * Time = Volume);

impl Frequency {
    /// How long one swing takes, there and back.
    #[must_use]
    pub fn period(self) -> Time {
        Time::from_s(1.0 / self.0)
    }
}

impl Angle {
    /// The angle whose tangent is `rise_per_run` (0.02 for a 2 % slope).
    #[must_use]
    pub fn from_slope(rise_per_run: f64) -> Self {
        Self(rise_per_run.atan())
    }

    /// Rise per run: the tangent of the angle.
    #[must_use]
    pub fn slope(self) -> f64 {
        self.0.tan()
    }
}

quantity! {
    /// How often something swings, in hertz inside.
    Frequency {
        /// Hertz: times a second.
        from_hz / hz = 1.0, 1.0;
    }
}

/// A temperature, in kelvin inside. Two of them have a difference, but no sum.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Serialize)]
pub struct Temperature(f64);

ordered!(Temperature);
number_in_json!(Temperature, "k");

impl Temperature {
    /// From kelvin.
    #[must_use]
    pub const fn from_kelvin(kelvin: f64) -> Self {
        Self(kelvin)
    }

    /// Kelvin.
    #[must_use]
    pub const fn kelvin(self) -> f64 {
        self.0
    }

    /// From degrees Celsius.
    #[must_use]
    pub const fn from_degc(degc: f64) -> Self {
        Self(degc + ICE_POINT_K)
    }

    /// Degrees Celsius.
    #[must_use]
    pub const fn degc(self) -> f64 {
        self.0 - ICE_POINT_K
    }

    /// From degrees Fahrenheit.
    #[must_use]
    pub const fn from_degf(degf: f64) -> Self {
        Self((degf + ABSOLUTE_ZERO_F) * 5.0 / 9.0)
    }

    /// Degrees Fahrenheit.
    #[must_use]
    pub const fn degf(self) -> f64 {
        self.0 * 9.0 / 5.0 - ABSOLUTE_ZERO_F
    }
}

#[cfg(test)]
mod tests;
