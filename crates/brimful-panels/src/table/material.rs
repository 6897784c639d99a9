//! What sheet is made of: stiffness and strength by duration and temperature.
//!
//! The modulus is taken straight on a log-log plot of time and linear in temperature. A
//! duration shorter than the first row takes that row, since plastic only gets softer with time.
//! The resin of a sheet is rarely known, so HDPE takes the softer of its two classes.

use super::not_covered::NotCovered;
use super::row::rows;
use super::source::{Cited, Flag, PropertyValue, Source, Sourced, SourcedValue};
use brimful_units::{Density, Pressure, Temperature, Time};
use serde::Deserialize;
use std::sync::LazyLock;

pub(super) static CREEP_MODULUS: LazyLock<Vec<CreepRow>> =
    LazyLock::new(|| rows(include_str!("data/creep_modulus.csv")));
pub(super) static TEMPERATURE_FACTOR: LazyLock<Vec<TemperatureRow>> =
    LazyLock::new(|| rows(include_str!("data/temperature_factor.csv")));
pub(super) static PROPERTY: LazyLock<Vec<PropertyRow>> =
    LazyLock::new(|| rows(include_str!("data/property.csv")));

#[derive(Deserialize)]
pub(super) struct CreepRow {
    material: String,
    pub hours: f64,
    pub psi: f64,
    flag: Flag,
    pub source: String,
}

#[derive(Deserialize)]
pub(super) struct TemperatureRow {
    material: String,
    quantity: String,
    pub degf: f64,
    pub factor: f64,
    flag: Flag,
    pub source: String,
}

#[derive(Deserialize)]
pub(super) struct PropertyRow {
    material: String,
    property: String,
    pub value: f64,
    /// `1` for none.
    pub unit: String,
    flag: Flag,
    pub source: String,
}

/// The plastic of a sheet, as the tables know it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Material {
    /// High-density polyethylene, of the softer class PE3xxx.
    Hdpe,
    /// Polypropylene.
    Pp,
    /// Rigid polyvinyl chloride, not modified for impact.
    PvcU,
}

/// How long a load acts, for the properties that differ by nothing else.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Duration {
    /// Seconds.
    Short,
    /// Hours to years.
    Long,
}

impl Material {
    /// The material that the job's stock names.
    pub fn of(word: &str) -> Result<Self, NotCovered> {
        match word {
            "HDPE" => Ok(Self::Hdpe),
            "PP" => Ok(Self::Pp),
            "PVC-U" => Ok(Self::PvcU),
            _ => Err(NotCovered::Word {
                table: "materials",
                word: word.to_owned(),
            }),
        }
    }

    pub(super) fn row_name(self) -> &'static str {
        match self {
            Self::Hdpe => "PE3xxx",
            Self::Pp => "PP",
            Self::PvcU => "PVC-U",
        }
    }

    /// The apparent modulus under a load that acts for `duration` at `temperature`.
    pub fn creep_modulus(
        self,
        duration: Time,
        temperature: Temperature,
    ) -> Result<Sourced<Pressure>, NotCovered> {
        let table = "creep moduli";
        let all: Vec<_> = CREEP_MODULUS
            .iter()
            .filter(|row| row.material == self.row_name())
            .collect();
        let points: Vec<(f64, f64)> = all
            .iter()
            .map(|row| (row.hours.ln(), row.psi.ln()))
            .collect();
        let (Some(first), Some(last)) = (points.first(), points.last()) else {
            return Err(NotCovered::Word {
                table,
                word: self.row_name().to_owned(),
            });
        };
        let hours = duration.hours();
        // The longest row may be asked for in a unit that rounds the other way.
        if hours.is_nan() || hours.ln() > last.0 + ROUNDING {
            return Err(NotCovered::Duration {
                table,
                asked: duration,
                longest: Time::from_hours(last.0.exp()),
            });
        }
        let at = hours.ln().clamp(first.0, last.0);
        let (log_psi, from, to) = between(&points, at);
        let at_room = Pressure::from_psi(log_psi.exp());
        let factor = self.temperature_factor("modulus", temperature)?;
        let surest = all[from].flag.max(all[to].flag);
        let mut sources = vec![Source {
            value: SourcedValue::CreepModulus {
                modulus: at_room,
                after: duration,
            },
            flag: surest,
            cited: Cited::Row(&all[to].source),
        }];
        sources.extend(factor.sources);
        Ok(Sourced {
            value: at_room * factor.value,
            sources,
        })
    }

    /// The modulus under a load of seconds.
    pub fn short_modulus(self, temperature: Temperature) -> Result<Sourced<Pressure>, NotCovered> {
        let modulus = self.property("short modulus")?;
        let factor = self.temperature_factor("modulus", temperature)?;
        Ok(scaled(modulus, factor))
    }

    /// The strength in a tensile test, before any factor but that of temperature.
    pub(super) fn tensile_strength(
        self,
        temperature: Temperature,
    ) -> Result<Sourced<Pressure>, NotCovered> {
        let strength = self.property("short strength")?;
        let factor = self.temperature_factor("strength", temperature)?;
        Ok(scaled(strength, factor))
    }

    /// Poisson's ratio.
    pub fn poisson(self, duration: Duration) -> Result<Sourced<f64>, NotCovered> {
        self.property(match duration {
            Duration::Short => "short Poisson ratio",
            Duration::Long => "long Poisson ratio",
        })
    }

    /// Density of sheet and rod.
    pub fn density(self) -> Result<Sourced<Density>, NotCovered> {
        let density = self.property("density")?;
        Ok(Sourced {
            value: Density::from_kg_m3(density.value),
            sources: density.sources,
        })
    }

    /// Growth in length for each kelvin, from the least to the greatest that is published.
    pub fn expansion(self) -> Result<Sourced<[f64; 2]>, NotCovered> {
        let (least, greatest) = (
            self.property("least expansion")?,
            self.property("greatest expansion")?,
        );
        let sources = [least.sources, greatest.sources].concat();
        Ok(Sourced {
            value: [least.value, greatest.value],
            sources,
        })
    }

    /// The strain that a lasting load may cause.
    pub fn design_strain(self) -> Result<Sourced<f64>, NotCovered> {
        self.property("design strain")
    }

    /// The reduction A1 for want of toughness. Of a material of which only one value is in the tables it is that of
    /// the cold.
    pub fn toughness_factor(self, temperature: Temperature) -> Result<Sourced<f64>, NotCovered> {
        let known = self.property("toughness factor")?;
        let has_rows = TEMPERATURE_FACTOR
            .iter()
            .any(|row| row.material == self.row_name() && row.quantity == "toughness");
        if !has_rows {
            return Ok(known);
        }
        let by_temperature = self.temperature_factor("toughness", temperature)?;
        if by_temperature.value == 1.0 {
            return Ok(known);
        }
        Ok(Sourced {
            value: known.value * by_temperature.value,
            sources: [known.sources, by_temperature.sources].concat(),
        })
    }

    fn property(self, wanted: &'static str) -> Result<Sourced<f64>, NotCovered> {
        let found = PROPERTY
            .iter()
            .find(|row| row.material == self.row_name() && row.property == wanted);
        let row = found.ok_or_else(|| NotCovered::Word {
            table: wanted,
            word: self.row_name().to_owned(),
        })?;
        Ok(Sourced {
            value: row.value,
            sources: vec![Source {
                value: SourcedValue::Property {
                    name: wanted,
                    value: property_value(row.value, &row.unit),
                },
                flag: row.flag,
                cited: Cited::Row(&row.source),
            }],
        })
    }

    fn temperature_factor(
        self,
        quantity: &'static str,
        temperature: Temperature,
    ) -> Result<Sourced<f64>, NotCovered> {
        let table = if quantity == "modulus" {
            "modulus by temperature"
        } else {
            "strength by temperature"
        };
        let all: Vec<_> = TEMPERATURE_FACTOR
            .iter()
            .filter(|row| row.material == self.row_name() && row.quantity == quantity)
            .collect();
        let points: Vec<(f64, f64)> = all.iter().map(|row| (row.degf, row.factor)).collect();
        let degf = temperature.degf();
        let (Some(first), Some(last)) = (points.first(), points.last()) else {
            return Err(NotCovered::Word {
                table,
                word: self.row_name().to_owned(),
            });
        };
        let inside = degf >= first.0 - ROUNDING && degf <= last.0 + ROUNDING;
        if !inside {
            let [coldest, warmest] = [first.0, last.0].map(Temperature::from_degf);
            return Err(NotCovered::Temperature {
                table,
                asked: temperature,
                coldest,
                warmest,
            });
        }
        let (value, from, to) = between(&points, degf.clamp(first.0, last.0));
        let surest = all[from].flag.max(all[to].flag);
        Ok(Sourced {
            value,
            sources: vec![Source {
                value: SourcedValue::TemperatureFactor {
                    of: quantity,
                    factor: value,
                    at: temperature,
                },
                flag: surest,
                cited: Cited::Row(&all[to].source),
            }],
        })
    }
}

fn property_value(value: f64, unit: &str) -> PropertyValue {
    match unit {
        "MPa" => PropertyValue::Stress(Pressure::from_mpa(value)),
        "kg/m3" => PropertyValue::Density(Density::from_kg_m3(value)),
        "1/K" => PropertyValue::PerKelvin(value),
        _ => PropertyValue::Number(value),
    }
}

/// Room for the last bits of a unit's conversion.
const ROUNDING: f64 = 1e-9;

fn scaled(in_mpa: Sourced<f64>, factor: Sourced<f64>) -> Sourced<Pressure> {
    let sources = [in_mpa.sources, factor.sources].concat();
    Sourced {
        value: Pressure::from_mpa(in_mpa.value) * factor.value,
        sources,
    }
}

/// The value at `x` on the line through the points, and the two rows it lies between. `x` is
/// within the first and last point.
fn between(points: &[(f64, f64)], x: f64) -> (f64, usize, usize) {
    if let Some(exact) = points
        .iter()
        .position(|point| (point.0 - x).abs() < ROUNDING)
    {
        return (points[exact].1, exact, exact);
    }
    let above = points
        .iter()
        .position(|point| x <= point.0)
        .unwrap_or(points.len() - 1)
        .max(1);
    let (a, b) = (points[above - 1], points[above]);
    (
        a.1 + (b.1 - a.1) * (x - a.0) / (b.0 - a.0),
        above - 1,
        above,
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    fn near(found: f64, wanted: f64, tolerance: f64) {
        assert!(
            (found / wanted - 1.0).abs() < tolerance,
            "found {found}, wanted {wanted}"
        );
    }

    const ROOM: Temperature = Temperature::from_degf(73.4);

    /// PPI Handbook of PE Pipe, Table B.1.1: the metric columns beside the psi ones (0.5 h, 2 h,
    /// 12 h, 100 h, 1 and 50 years seen), to their last digit.
    #[test]
    fn creep_moduli_are_those_of_the_metric_column() {
        let years = |n: f64| Time::from_hours(8766.0 * n);
        let rows = [
            (Time::from_hours(0.5), 538.0),
            (Time::from_hours(2.0), 490.0),
            (Time::from_hours(12.0), 414.0),
            (Time::from_hours(100.0), 359.0),
            (years(1.0), 262.0),
            (years(50.0), 193.0),
        ];
        for (duration, wanted) in rows {
            let found = Material::Hdpe.creep_modulus(duration, ROOM);
            let found = found.expect("in the table").value.mpa();
            assert!(
                (found - wanted).abs() < 0.51,
                "found {found}, wanted {wanted}"
            );
        }
    }

    /// 28,000 psi x 0.73 = 20,440 psi = 141 MPa: PE3xxx after 50 years at 100 degF.
    #[test]
    fn worked_example_by_duration_and_temperature() {
        let found = Material::Hdpe
            .creep_modulus(Time::from_years(50.0), Temperature::from_degf(100.0))
            .expect("in the table");
        near(found.value.psi(), 20_440.0, 1e-6);
        near(found.value.mpa(), 140.9, 1e-3);
        let flags: Vec<Flag> = found.sources.iter().map(|source| source.flag).collect();
        assert_eq!(flags, [Flag::Seen, Flag::FromMemory]);
    }

    /// Above-ground HDPE pipe, Technical Note 12 (seen): PE3408 at 140 degF has a long-time
    /// modulus of 12,000 psi.
    #[test]
    fn a_pipe_makers_modulus_at_140_degf_agrees() {
        let hot = Temperature::from_degf(140.0);
        let found = Material::Hdpe
            .creep_modulus(Time::from_years(50.0), hot)
            .expect("in the table");
        near(found.value.psi(), 12_000.0, 0.01);
    }

    #[test]
    fn between_rows_time_is_logarithmic_and_temperature_linear() {
        let middle = (24.0_f64 * 100.0).sqrt();
        let found = Material::Hdpe
            .creep_modulus(Time::from_hours(middle), ROOM)
            .expect("in the table");
        near(found.value.psi(), (57_000.0_f64 * 52_000.0).sqrt(), 1e-9);
        let warm = Material::Hdpe
            .creep_modulus(Time::from_hours(24.0), Temperature::from_degf(85.0))
            .expect("in the table");
        near(warm.value.psi(), 57_000.0 * 0.875, 1e-9);
    }

    #[test]
    fn outside_the_tables_nothing_is_said() {
        let ages = Material::Hdpe.creep_modulus(Time::from_years(101.0), ROOM);
        assert!(matches!(ages, Err(NotCovered::Duration { .. })));
        let boiling = Material::Hdpe.short_modulus(Temperature::from_degc(95.0));
        assert!(matches!(boiling, Err(NotCovered::Temperature { .. })));
        let warm_pp =
            Material::Pp.creep_modulus(Time::from_years(1.0), Temperature::from_degc(65.0));
        assert!(matches!(warm_pp, Err(NotCovered::Temperature { .. })));
        assert!(
            Material::Pp
                .creep_modulus(Time::from_years(10.0), Temperature::from_degc(20.0))
                .is_ok()
        );
        assert!(Material::of("glass").is_err());
        assert!(
            Material::Hdpe
                .creep_modulus(Time::from_s(f64::NAN), ROOM)
                .is_err()
        );
        assert!(
            Material::Hdpe
                .short_modulus(Temperature::from_kelvin(f64::NAN))
                .is_err()
        );
    }

    #[test]
    fn a_moment_is_as_stiff_as_the_first_row() {
        let moment = Material::Hdpe
            .creep_modulus(Time::from_s(1.0), ROOM)
            .expect("in the table");
        near(moment.value.psi(), 78_000.0, 1e-9);
    }
}
