//! Quantities as the shop reads them: always with their unit, rounded to what a tape can show.

use crate::quantity::{
    Angle, Area, Density, FlowRate, Force, Length, Mass, MassRate, Pressure, Speed, Temperature,
    Time, Volume,
};
use std::ops::RangeInclusive;

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
        LengthStyle::Inch { fraction } => inch_text(length, fraction.parts()),
    }
}

/// A length too small for a tape's fractions, such as a throat or a gap: `5.6 mm` or `0.22 in`.
#[must_use]
pub fn small_length(length: Length, system: UnitSystem) -> String {
    match system {
        UnitSystem::Metric => format!("{} mm", figures(length.mm(), 1, 2..=2)),
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
        UnitSystem::Metric => format!("{} m2", figures(area.m2(), 3, 1..=4)),
        UnitSystem::Inch => format!("{} sq ft", figures(area.ft2(), 3, 1..=3)),
    }
}

/// A volume: `113.4 L` or `29.9 US gal`.
#[must_use]
pub fn volume(volume: Volume, system: UnitSystem) -> String {
    match system {
        UnitSystem::Metric => format!("{} L", figures(volume.litres(), 3, 1..=3)),
        UnitSystem::Inch => format!("{} US gal", figures(volume.us_gal(), 3, 1..=3)),
    }
}

/// A mass: `13.5 kg` or `29.8 lb`.
#[must_use]
pub fn mass(mass: Mass, system: UnitSystem) -> String {
    match system {
        UnitSystem::Metric => format!("{} kg", figures(mass.kg(), 3, 1..=3)),
        UnitSystem::Inch => format!("{} lb", figures(mass.lb(), 3, 1..=3)),
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

/// A liquid or gas pressure: `6.28 kPa` or `0.911 psi`.
#[must_use]
pub fn pressure(pressure: Pressure, system: UnitSystem) -> String {
    match system {
        UnitSystem::Metric => format!("{} kPa", figures(pressure.kpa(), 3, 0..=3)),
        UnitSystem::Inch => format!("{} psi", figures(pressure.psi(), 3, 0..=4)),
    }
}

/// A stress or modulus, in one unit however small it is: `8.25 MPa`, or `1200 psi`.
#[must_use]
pub fn stress(stress: Pressure, system: UnitSystem) -> String {
    /// Stresses are estimates: no figure beyond the third, on either side of the point.
    const DECIMALS: RangeInclusive<i32> = -9..=4;
    match system {
        UnitSystem::Metric => format!("{} MPa", figures(stress.mpa(), 3, DECIMALS)),
        UnitSystem::Inch => format!("{} psi", figures(stress.psi(), 3, DECIMALS)),
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
        UnitSystem::Metric => format!("{} K", figures(kelvin, 2, 0..=1)),
        UnitSystem::Inch => format!("{} degF", figures(kelvin * 1.8, 2, 0..=1)),
    }
}

/// A force: `500 N` or `112 lbf`.
#[must_use]
pub fn force(force: Force, system: UnitSystem) -> String {
    match system {
        UnitSystem::Metric => format!("{} N", figures(force.n(), 3, 0..=3)),
        UnitSystem::Inch => format!("{} lbf", figures(force.lbf(), 3, 0..=3)),
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

/// How much mass a machine gives in a time: `2.3 kg/h` or `5.07 lb/h`.
#[must_use]
pub fn mass_rate(rate: MassRate, system: UnitSystem) -> String {
    match system {
        UnitSystem::Metric => format!("{} kg/h", figures(rate.kg_h(), 3, 1..=3)),
        UnitSystem::Inch => format!("{} lb/h", figures(rate.lb_h(), 3, 1..=3)),
    }
}

/// How much liquid runs in a time: `20 L/min` or `5.3 US gal/min`.
#[must_use]
pub fn flow_rate(rate: FlowRate, system: UnitSystem) -> String {
    match system {
        UnitSystem::Metric => format!("{} L/min", decimal(rate.litres_min(), 1)),
        UnitSystem::Inch => format!("{} US gal/min", decimal(rate.us_gal_min(), 1)),
    }
}

/// An angle in degrees, the same in both systems: `12.5 deg`.
#[must_use]
pub fn angle(angle: Angle) -> String {
    format!("{} deg", figures(angle.deg(), 1, 1..=2))
}

/// A span of time in the largest unit it fills: `10 years`, `2.5 h`, `40 min`, `12 s`.
#[must_use]
pub fn time(time: Time) -> String {
    // What rounds up to a whole larger unit is given in that one: 1 h, not 60 min.
    let fills = |size: f64, unit: f64| (size.abs() * 10.0).round() >= unit * 10.0;
    let (number, one, many) = if time.abs() >= Time::from_years(1.0) {
        (time.years(), "year", "years")
    } else if fills(time.hours(), 48.0) {
        (time.days(), "day", "days")
    } else if fills(time.minutes(), 60.0) {
        (time.hours(), "h", "h")
    } else if fills(time.s(), 60.0) {
        (time.minutes(), "min", "min")
    } else {
        (time.s(), "s", "s")
    };
    let number = decimal(number, 1);
    let unit = if number == "1" { one } else { many };
    format!("{number} {unit}")
}

/// Working time: hours, never days, of which a shop's have fewer: `49.6 h`.
#[must_use]
pub fn working_time(work: Time) -> String {
    match work.hours() >= 24.0 {
        true => format!("{} h", decimal(work.hours(), 1)),
        false => time(work),
    }
}

/// A number to so many decimals, without trailing zeros and without a negative zero.
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

/// A number to so many significant figures, but to no fewer and no more decimals than these; below
/// zero they count the places before the point that are rounded.
#[must_use]
pub fn figures(number: f64, significant: i32, decimals: RangeInclusive<i32>) -> String {
    if number == 0.0 || !number.is_finite() {
        return decimal(number, 0);
    }
    let leading = number.abs().log10().floor() as i32;
    let places = (significant - 1 - leading).clamp(*decimals.start(), *decimals.end());
    match usize::try_from(places) {
        Ok(places) => decimal(number, places),
        Err(_) => {
            let step = 10.0_f64.powi(-places);
            decimal((number / step).round() * step, 0)
        }
    }
}

/// Inches and the nearest fraction; what is less than one part has decimals, since a tape has no
/// mark for it and none is not the same as little.
fn inch_text(length: Length, parts: u32) -> String {
    /// Less than this is the rounding of other figures.
    const NOTHING: Length = Length::from_mm(0.001);
    let (inches, parts) = (length.inches(), f64::from(parts));
    if length.abs() < NOTHING {
        return "0 in".to_owned();
    }
    if inches.abs() * parts < 1.0 {
        return format!("{} in", figures(inches, 1, 2..=5));
    }
    let all_parts = (inches.abs() * parts).round();
    let whole = (all_parts / parts).floor();
    let mut over = all_parts - whole * parts;
    let mut under = parts;
    while over != 0.0 && over % 2.0 == 0.0 {
        over /= 2.0;
        under /= 2.0;
    }
    let sign = if inches < 0.0 { "-" } else { "" };
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
        assert_eq!(inch(-15.99, InchFraction::Sixteenth), "-16 in");
        assert_eq!(inch(15.99, InchFraction::Sixteenth), "16 in");
        assert_eq!(inch(1.0 / 32.0, InchFraction::ThirtySecond), "1/32 in");
    }

    #[test]
    fn less_than_a_mark_of_the_tape_has_decimals() {
        let inch = |mm: f64, fraction| length(Length::from_mm(mm), LengthStyle::Inch { fraction });
        let sixteenth = |mm: f64| inch(mm, InchFraction::Sixteenth);
        assert_eq!(sixteenth(1.0), "0.04 in");
        assert_eq!(sixteenth(-1.0), "-0.04 in");
        assert_eq!(sixteenth(0.1), "0.004 in");
        assert_eq!(sixteenth(0.002), "0.00008 in");
        assert_eq!(sixteenth(25.4 / 16.0), "1/16 in");
        assert_eq!(inch(1.0, InchFraction::ThirtySecond), "1/32 in");
        assert_eq!(inch(0.7, InchFraction::ThirtySecond), "0.03 in");
        for nothing in [0.0, -0.0, 1e-12, -1e-12] {
            assert_eq!(sixteenth(nothing), "0 in");
        }
    }

    /// Both systems of one quantity.
    fn both<Q: Copy>(show: fn(Q, UnitSystem) -> String, quantity: Q) -> [String; 2] {
        [UnitSystem::Metric, UnitSystem::Inch].map(|system| show(quantity, system))
    }

    #[test]
    fn lengths() {
        let mm = |mm: f64| length(Length::from_mm(mm), LengthStyle::Millimetre);
        assert_eq!(
            [mm(450.0), mm(17.46), mm(-0.01)],
            ["450 mm", "17.5 mm", "0 mm"]
        );
        let small = |mm| both(small_length, Length::from_mm(mm));
        assert_eq!(small(5.6), ["5.6 mm", "0.22 in"]);
        assert_eq!(small(0.04), ["0.04 mm", "0.002 in"]);
        assert_eq!(small(-1e-6), ["0 mm", "0 in"]);
        assert_eq!(
            both(long_length, Length::from_m(5.27)),
            ["5.3 m", "17.3 ft"]
        );
    }

    #[test]
    fn areas_volumes_and_masses() {
        assert_eq!(both(area, Area::from_m2(1.664)), ["1.66 m2", "17.9 sq ft"]);
        assert_eq!(
            both(area, Area::from_m2(0.0123)),
            ["0.0123 m2", "0.132 sq ft"]
        );
        assert_eq!(
            both(volume, Volume::from_litres(113.43)),
            ["113.4 L", "30 US gal"]
        );
        assert_eq!(
            both(volume, Volume::from_litres(0.25)),
            ["0.25 L", "0.066 US gal"]
        );
        assert_eq!(both(mass, Mass::from_kg(13.5)), ["13.5 kg", "29.8 lb"]);
        assert_eq!(both(mass, Mass::from_g(42.0)), ["0.042 kg", "0.093 lb"]);
        assert_eq!(both(mass, Mass::ZERO), ["0 kg", "0 lb"]);
        assert_eq!(both(mass, Mass::from_g(-0.1)), ["0 kg", "0 lb"]);
        assert_eq!(
            both(density, Density::from_kg_m3(998.2)),
            ["998.2 kg/m3", "8.33 lb/US gal"]
        );
    }

    #[test]
    fn pressures_stresses_and_forces() {
        assert_eq!(
            both(pressure, Pressure::from_kpa(6.284)),
            ["6.28 kPa", "0.911 psi"]
        );
        assert_eq!(
            both(pressure, Pressure::from_kpa(101.325)),
            ["101 kPa", "14.7 psi"]
        );
        assert_eq!(both(pressure, Pressure::from_pa(-0.01)), ["0 kPa", "0 psi"]);
        assert_eq!(
            both(stress, Pressure::from_mpa(8.254)),
            ["8.25 MPa", "1200 psi"]
        );
        assert_eq!(
            both(stress, Pressure::from_mpa(758.4)),
            ["758 MPa", "110000 psi"]
        );
        assert_eq!(
            both(stress, Pressure::from_mpa(0.1)),
            ["0.1 MPa", "14.5 psi"]
        );
        assert_eq!(
            both(stress, Pressure::from_kpa(42.71)),
            ["0.0427 MPa", "6.19 psi"]
        );
        assert_eq!(both(stress, Pressure::ZERO), ["0 MPa", "0 psi"]);
        assert_eq!(both(force, Force::from_n(500.0)), ["500 N", "112 lbf"]);
        assert_eq!(both(force, Force::from_n(1234.4)), ["1234 N", "278 lbf"]);
        assert_eq!(both(force, Force::from_n(0.5)), ["0.5 N", "0.112 lbf"]);
    }

    #[test]
    fn temperatures_speeds_and_angles() {
        assert_eq!(
            both(temperature, Temperature::from_degc(35.0)),
            ["35 degC", "95 degF"]
        );
        assert_eq!(
            both(temperature, Temperature::from_degc(-0.01)),
            ["0 degC", "32 degF"]
        );
        assert_eq!(both(warming, 33.0), ["33 K", "59 degF"]);
        assert_eq!(both(warming, 0.4), ["0.4 K", "0.7 degF"]);
        assert_eq!(both(warming, -0.01), ["0 K", "0 degF"]);
        assert_eq!(
            both(speed, Speed::from_mm_min(300.0)),
            ["300 mm/min", "11.8 in/min"]
        );
        assert_eq!(
            both(mass_rate, MassRate::from_kg_h(2.3)),
            ["2.3 kg/h", "5.07 lb/h"]
        );
        assert_eq!(
            both(flow_rate, FlowRate::from_litres_min(20.0)),
            ["20 L/min", "5.3 US gal/min"]
        );
        assert_eq!(angle(Angle::from_deg(12.54)), "12.5 deg");
        assert_eq!(angle(Angle::from_deg(0.04)), "0.04 deg");
        assert_eq!(angle(Angle::from_deg(-1e-9)), "0 deg");
    }

    #[test]
    fn times() {
        let years = [1.0, 1.04, 10.0].map(|n| time(Time::from_years(n)));
        assert_eq!(years, ["1 year", "1 year", "10 years"]);
        assert_eq!(time(Time::from_days(3.0)), "3 days");
        assert_eq!(time(Time::from_days(1.0)), "24 h");
        assert_eq!(time(Time::from_minutes(90.0)), "1.5 h");
        assert_eq!(time(Time::from_minutes(59.99)), "1 h");
        assert_eq!(time(Time::from_s(59.99)), "1 min");
        assert_eq!(time(Time::from_s(12.0)), "12 s");
        assert_eq!(time(Time::from_s(-0.01)), "0 s");
        let work = [50.0, 24.0, 1.5].map(|n| working_time(Time::from_hours(n)));
        assert_eq!(work, ["50 h", "24 h", "1.5 h"]);
    }

    #[test]
    fn numbers() {
        assert_eq!(decimal(100.0, 0), "100");
        assert_eq!(decimal(-0.04, 1), "0");
        assert_eq!(figures(1197.0, 3, -9..=0), "1200");
        assert_eq!(figures(-1197.0, 3, 0..=0), "-1197");
        assert_eq!(figures(0.999_96, 3, 0..=3), "1");
        assert_eq!(figures(f64::INFINITY, 3, 0..=3), "inf");
    }
}
