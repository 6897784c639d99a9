//! Quantities as the shop reads them: always with their unit, rounded to what a tape can show.

use crate::quantity::{
    Angle, Area, Density, Force, Length, Mass, Pressure, Speed, Temperature, Time, Volume,
};

/// Metric or inch units in what is printed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum UnitSystem {
    /// Millimetres, litres, kilograms.
    #[default]
    Metric,
    /// Inches, US gallons, pounds.
    Inch,
}

/// The smallest fraction of an inch printed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum InchFraction {
    /// 1/16 in.
    #[default]
    Sixteenth,
    /// 1/32 in.
    ThirtySecond,
}

impl InchFraction {
    /// Parts to the inch: 16 or 32.
    #[must_use]
    pub const fn parts(self) -> u32 {
        match self {
            Self::Sixteenth => 16,
            Self::ThirtySecond => 32,
        }
    }
}

/// How lengths are printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LengthStyle {
    /// Millimetres to one decimal: `450 mm`, `17.5 mm`.
    Millimetre,
    /// Inches and reduced fractions: `17 3/4 in`.
    Inch {
        /// The smallest fraction printed; lengths are rounded to the nearest one.
        fraction: InchFraction,
    },
}

impl LengthStyle {
    /// The style of a unit system, with the inch fraction wanted.
    #[must_use]
    pub const fn of(system: UnitSystem, fraction: InchFraction) -> Self {
        match system {
            UnitSystem::Metric => Self::Millimetre,
            UnitSystem::Inch => Self::Inch { fraction },
        }
    }
}

/// A length in the style asked for.
#[must_use]
pub fn length(length: Length, style: LengthStyle) -> String {
    match style {
        LengthStyle::Millimetre => format!("{} mm", decimal(length.mm(), 1)),
        LengthStyle::Inch { fraction } => inch_text(length.inches(), fraction.parts()),
    }
}

/// A length too small for a tape's fractions, such as a throat or a gap: `5.6 mm` or `0.22 in`.
#[must_use]
pub fn small_length(length: Length, system: UnitSystem) -> String {
    match system {
        UnitSystem::Metric => format!("{} mm", decimal(length.mm(), 1)),
        UnitSystem::Inch => format!("{} in", decimal(length.inches(), 3)),
    }
}

/// A length along seams or of rod: `5.3 m` or `17.3 ft`.
#[must_use]
pub fn long_length(length: Length, system: UnitSystem) -> String {
    match system {
        UnitSystem::Metric => format!("{} m", decimal(length.m(), 1)),
        UnitSystem::Inch => format!("{} ft", decimal(length.feet(), 1)),
    }
}

/// An area: `1.66 m2` or `17.9 sq ft`.
#[must_use]
pub fn area(area: Area, system: UnitSystem) -> String {
    match system {
        UnitSystem::Metric => format!("{} m2", decimal(area.m2(), 3)),
        UnitSystem::Inch => format!("{} sq ft", decimal(area.ft2(), 1)),
    }
}

/// A volume: `113.4 L` or `29.9 US gal`.
#[must_use]
pub fn volume(volume: Volume, system: UnitSystem) -> String {
    match system {
        UnitSystem::Metric => format!("{} L", decimal(volume.litres(), 1)),
        UnitSystem::Inch => format!("{} US gal", decimal(volume.us_gal(), 1)),
    }
}

/// A mass: `13.5 kg` or `29.8 lb`.
#[must_use]
pub fn mass(mass: Mass, system: UnitSystem) -> String {
    match system {
        UnitSystem::Metric => format!("{} kg", decimal(mass.kg(), 1)),
        UnitSystem::Inch => format!("{} lb", decimal(mass.lb(), 1)),
    }
}

/// A density: `998.2 kg/m3` or `8.33 lb/US gal`.
#[must_use]
pub fn density(density: Density, system: UnitSystem) -> String {
    match system {
        UnitSystem::Metric => format!("{} kg/m3", decimal(density.kg_m3(), 1)),
        UnitSystem::Inch => format!("{} lb/US gal", decimal(density.lb_us_gal(), 2)),
    }
}

/// A liquid or gas pressure: `6.28 kPa` or `0.91 psi`.
#[must_use]
pub fn pressure(pressure: Pressure, system: UnitSystem) -> String {
    match system {
        UnitSystem::Metric => format!("{} kPa", decimal(pressure.kpa(), 2)),
        UnitSystem::Inch => format!("{} psi", decimal(pressure.psi(), 2)),
    }
}

/// A stress or modulus: `8.25 MPa` or `1197 psi`.
#[must_use]
pub fn stress(stress: Pressure, system: UnitSystem) -> String {
    match system {
        UnitSystem::Metric => format!("{} MPa", decimal(stress.mpa(), 2)),
        UnitSystem::Inch => format!("{} psi", decimal(stress.psi(), 0)),
    }
}

/// A temperature: `35 degC` or `95 degF`.
#[must_use]
pub fn temperature(temperature: Temperature, system: UnitSystem) -> String {
    match system {
        UnitSystem::Metric => format!("{} degC", decimal(temperature.degc(), 1)),
        UnitSystem::Inch => format!("{} degF", decimal(temperature.degf(), 1)),
    }
}

/// By how much a temperature changes: `33 K` or `59 degF`.
#[must_use]
pub fn warming(kelvin: f64, system: UnitSystem) -> String {
    match system {
        UnitSystem::Metric => format!("{} K", decimal(kelvin, 0)),
        UnitSystem::Inch => format!("{} degF", decimal(kelvin * 1.8, 0)),
    }
}

/// A force: `500 N` or `112.4 lbf`.
#[must_use]
pub fn force(force: Force, system: UnitSystem) -> String {
    match system {
        UnitSystem::Metric => format!("{} N", decimal(force.n(), 0)),
        UnitSystem::Inch => format!("{} lbf", decimal(force.lbf(), 1)),
    }
}

/// A welding speed: `300 mm/min` or `11.8 in/min`.
#[must_use]
pub fn speed(speed: Speed, system: UnitSystem) -> String {
    match system {
        UnitSystem::Metric => format!("{} mm/min", decimal(speed.mm_min(), 0)),
        UnitSystem::Inch => format!("{} in/min", decimal(speed.in_min(), 1)),
    }
}

/// An angle in degrees, the same in both systems: `12.5 deg`.
#[must_use]
pub fn angle(angle: Angle) -> String {
    format!("{} deg", decimal(angle.deg(), 1))
}

/// A span of time in the largest unit it fills: `10 years`, `2.5 h`, `40 min`, `12 s`.
#[must_use]
pub fn time(time: Time) -> String {
    let size = time.abs();
    if size >= Time::from_years(1.0) {
        format!("{} years", decimal(time.years(), 1))
    } else if size >= Time::from_days(2.0) {
        format!("{} days", decimal(time.days(), 1))
    } else if size >= Time::from_hours(1.0) {
        format!("{} h", decimal(time.hours(), 1))
    } else if size >= Time::from_minutes(1.0) {
        format!("{} min", decimal(time.minutes(), 1))
    } else {
        format!("{} s", decimal(time.s(), 1))
    }
}

/// A number to so many decimals, without trailing noughts and without a negative nought.
#[must_use]
pub fn decimal(number: f64, decimals: usize) -> String {
    let text = format!("{number:.decimals$}");
    let trimmed = if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.')
    } else {
        text.as_str()
    };
    if trimmed == "-0" { "0" } else { trimmed }.to_owned()
}

fn inch_text(inches: f64, parts: u32) -> String {
    let all_parts = (inches.abs() * f64::from(parts)).round();
    let whole = (all_parts / f64::from(parts)).floor();
    let mut over = all_parts - whole * f64::from(parts);
    let mut under = f64::from(parts);
    while over != 0.0 && over % 2.0 == 0.0 {
        over /= 2.0;
        under /= 2.0;
    }
    let sign = if inches < 0.0 && all_parts > 0.0 {
        "-"
    } else {
        ""
    };
    match (whole == 0.0, over == 0.0) {
        (_, true) => format!("{sign}{whole} in"),
        (true, false) => format!("{sign}{over}/{under} in"),
        (false, false) => format!("{sign}{whole} {over}/{under} in"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn inches_are_reduced_fractions() {
        let inch = |inches: f64, fraction| {
            length(Length::from_inches(inches), LengthStyle::Inch { fraction })
        };
        assert_eq!(inch(17.75, InchFraction::Sixteenth), "17 3/4 in");
        assert_eq!(inch(0.5, InchFraction::Sixteenth), "1/2 in");
        assert_eq!(inch(3.0, InchFraction::Sixteenth), "3 in");
        assert_eq!(inch(-1.5, InchFraction::Sixteenth), "-1 1/2 in");
        assert_eq!(inch(0.0, InchFraction::Sixteenth), "0 in");
        assert_eq!(inch(-0.001, InchFraction::Sixteenth), "0 in");
        assert_eq!(inch(15.99, InchFraction::Sixteenth), "16 in");
        assert_eq!(inch(1.0 / 32.0, InchFraction::ThirtySecond), "1/32 in");
    }

    #[test]
    fn every_number_has_its_unit() {
        let metric = UnitSystem::Metric;
        let imperial = UnitSystem::Inch;
        assert_eq!(
            length(Length::from_mm(450.0), LengthStyle::Millimetre),
            "450 mm"
        );
        assert_eq!(
            length(Length::from_mm(-0.01), LengthStyle::Millimetre),
            "0 mm"
        );
        assert_eq!(
            small_length(Length::from_mm(5.6), metric)
                + " "
                + &small_length(Length::from_mm(5.6), imperial),
            "5.6 mm 0.22 in"
        );
        assert_eq!(long_length(Length::from_m(5.27), imperial), "17.3 ft");
        assert_eq!(warming(33.0, imperial), "59 degF");
        assert_eq!(volume(Volume::from_litres(113.43), metric), "113.4 L");
        assert_eq!(volume(Volume::from_in3(231.0), imperial), "1 US gal");
        assert_eq!(mass(Mass::from_kg(13.5), imperial), "29.8 lb");
        assert_eq!(
            temperature(Temperature::from_degc(35.0), imperial),
            "95 degF"
        );
        assert_eq!(time(Time::from_years(10.0)), "10 years");
        assert_eq!(time(Time::from_minutes(90.0)), "1.5 h");
        assert_eq!(decimal(100.0, 0), "100");
    }
}
