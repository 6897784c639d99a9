//! Shop text read as a quantity: `17 3/4 in`, `4' 2-1/2"`, `100 L`, `11.06 lb/US gal`.
//!
//! A number may have a decimal point or a decimal comma, or be a fraction (`3/4`) or a whole with
//! a fraction (`17 3/4`, `17-3/4`, `17¾`). `1,200` is refused, since one shop reads 1.2 and the next
//! 1200. `gal` alone is refused, since two gallons differ by a fifth.

mod error;
mod scan;
mod tables;

pub use error::{QuantityKind, UnitError, UnitFault};

use crate::quantity::{
    Angle, Area, Density, FlowRate, Length, Mass, MassRate, Pressure, Speed, Temperature, Time,
    Volume,
};
use scan::Scanner;
use tables::{GALLON_SPELLINGS, Spelled, UnitTable};

/// What was read: a quantity, or a number without a unit, whose meaning is the caller's to know.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Read<Q> {
    /// A number with a unit.
    Quantity(Q),
    /// A number alone.
    Bare(f64),
}

/// Reads a length: `450 mm`, `1,5 m`, `17 3/4 in`, `17.75"`, `4 ft 2 1/2 in`, `4' 2-1/2"`.
///
/// # Errors
/// A [`UnitError`] with the place in `text` when it is not a finite number with a length unit.
pub fn length_text(text: &str) -> Result<Read<Length>, UnitError> {
    let table = &tables::LENGTH;
    let mut scanner = Scanner::new(text, table);
    let number = scanner.number()?;
    if scanner.at_end() {
        return Ok(Read::Bare(number));
    }
    let unit = scanner.unit_word()?;
    let unit_found = find(&scanner, table, unit)?;
    let first = (unit_found.make)(number);
    if scanner.at_end() {
        return finite(first, &scanner).map(Read::Quantity);
    }
    if unit_found.word != "ft" {
        return Err(scanner.error_here(UnitFault::LeftOver));
    }
    let inches = inches_after_feet(&mut scanner)?;
    // The sign stands before the feet and covers the inches too.
    let sum = if number.is_sign_negative() {
        first - inches
    } else {
        first + inches
    };
    finite(sum, &scanner).map(Read::Quantity)
}

fn inches_after_feet(scanner: &mut Scanner<'_>) -> Result<Length, UnitError> {
    scanner.skip_dash();
    let start = scanner.offset();
    let number = scanner.number()?;
    if scanner.at_end() {
        return Err(scanner.error_here(UnitFault::MissingUnit));
    }
    let unit = scanner.unit_word()?;
    let found = find(scanner, &tables::LENGTH, unit)?;
    if found.word != "in" || !scanner.at_end() {
        return Err(scanner.error_here(UnitFault::LeftOver));
    }
    if !(0.0..12.0).contains(&number) {
        return Err(scanner.error_from(start, UnitFault::InchesOverTwelve));
    }
    Ok((found.make)(number))
}

macro_rules! reader {
    ($(#[$doc:meta])* $name:ident -> $quantity:ident by $table:ident) => {
        $(#[$doc])*
        ///
        /// # Errors
        /// A [`UnitError`] with the place in `text` when it is not a finite number with one of
        /// the units taken. A bare number is an error too.
        pub fn $name(text: &str) -> Result<$quantity, UnitError> {
            number_and_unit(text, &tables::$table)
        }
    };
}

reader!(
    /// Reads a volume: `100 L`, `250 ml`, `0.1 m3`, `26 US gal`, `22 imp gal`.
    volume_text -> Volume by VOLUME
);
reader!(
    /// Reads an area: `1.66 m2`, `400 in2`, `52.8 sq ft`.
    area_text -> Area by AREA
);
reader!(
    /// Reads a mass: `13.5 kg`, `1.2 t`, `10 lb`.
    mass_text -> Mass by MASS
);
reader!(
    /// Reads a pressure or stress: `6.3 kPa`, `0.91 psi`, `200 MPa`.
    pressure_text -> Pressure by PRESSURE
);
reader!(
    /// Reads a density: `998.2 kg/m3`, `0.95 g/cm3`, `11.06 lb/US gal`.
    density_text -> Density by DENSITY
);
reader!(
    /// Reads an angle: `5 deg`, `0.1 rad`, `2 %` and `20 mm/m` of slope.
    angle_text -> Angle by ANGLE
);
reader!(
    /// Reads a span of time: `10 years`, `6 months`, `24 h`.
    time_text -> Time by TIME
);
reader!(
    /// Reads a speed: `300 mm/min`, `0.5 m/min`, `12 in/min`.
    speed_text -> Speed by SPEED
);
reader!(
    /// Reads how much mass a machine gives in a time: `2.3 kg/h`, `5 lb/h`.
    mass_rate_text -> MassRate by MASS_RATE
);
reader!(
    /// Reads how much liquid runs in a time: `20 L/min`, `5 US gal/min`.
    flow_rate_text -> FlowRate by FLOW_RATE
);

/// Reads a temperature: `35 degC`, `35 °C`, `110 degF`, `308 K`.
///
/// # Errors
/// As the other readers, and for a temperature below absolute zero.
pub fn temperature_text(text: &str) -> Result<Temperature, UnitError> {
    let temperature = number_and_unit(text, &tables::TEMPERATURE)?;
    if temperature.kelvin() < 0.0 {
        let scanner = Scanner::new(text, &tables::TEMPERATURE);
        return Err(scanner.error_from(0, UnitFault::BelowAbsoluteZero));
    }
    Ok(temperature)
}

fn number_and_unit<Q: Copy + StaysFinite>(
    text: &str,
    table: &UnitTable<Q>,
) -> Result<Q, UnitError> {
    let mut scanner = Scanner::new(text, table);
    let number = scanner.number()?;
    if scanner.at_end() {
        return Err(scanner.error_here(UnitFault::MissingUnit));
    }
    let unit = scanner.rest();
    let spelled = find(&scanner, table, unit)?;
    finite((spelled.make)(number), &scanner)
}

/// The table row for a unit as written; `unit` is the byte range just read.
fn find<'t, Q>(
    scanner: &Scanner<'_>,
    table: &'t UnitTable<Q>,
    unit: std::ops::Range<usize>,
) -> Result<&'t Spelled<Q>, UnitError> {
    let written = scanner.words(unit.clone());
    let matching = table
        .units
        .iter()
        .find(|spelled| spelled.word == written || spelled.also.contains(&written.as_str()));
    matching.ok_or_else(|| {
        let fault = if is_plain_gallon(&written) && table.has_gallons {
            UnitFault::PlainGallon {
                taken: GALLON_SPELLINGS,
            }
        } else {
            UnitFault::UnknownUnit {
                found: written.clone(),
            }
        };
        scanner.error_at(unit, fault)
    })
}

fn is_plain_gallon(written: &str) -> bool {
    let lower = written.to_lowercase();
    let last = lower.rsplit('/').next().unwrap_or_default();
    matches!(last.trim(), "gal" | "gal." | "gals" | "gallon" | "gallons")
}

/// Quantities that can be checked after a unit was applied (a huge number may overflow there).
trait StaysFinite {
    fn stays_finite(&self) -> bool;
}

macro_rules! stays_finite {
    ($($name:ident)+) => { $(
        impl StaysFinite for $name {
            fn stays_finite(&self) -> bool {
                self.is_finite()
            }
        }
    )+ };
}

stays_finite!(Length Volume Area Mass Pressure Density Angle Time Speed MassRate FlowRate Temperature);

fn finite<Q: Copy + StaysFinite>(quantity: Q, scanner: &Scanner<'_>) -> Result<Q, UnitError> {
    if quantity.stays_finite() {
        Ok(quantity)
    } else {
        Err(scanner.error_from(0, UnitFault::NotFinite))
    }
}

#[cfg(test)]
mod tests;
