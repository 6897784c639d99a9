//! Settings of the gun.

use super::material::Material;
use super::{Cited, Flag, Source, SourcedValue, rows};
use brimful_job::{Nozzle, Process};
use brimful_units::{Force, Length, Speed, Temperature, UnitSystem};
use serde::Deserialize;
use std::sync::LazyLock;

#[derive(Deserialize)]
pub(super) struct Row {
    process: String,
    material: String,
    quantity: String,
    pub low: f64,
    pub high: f64,
    unit: String,
    flag: Flag,
    pub source: String,
}

pub(super) static SETTING: LazyLock<Vec<Row>> =
    LazyLock::new(|| rows(include_str!("data/setting.csv")));

/// A published range of one setting, in the unit of the trade that it is dialled in.
#[derive(Clone, Debug, PartialEq)]
pub struct Setting {
    /// What is set: gas temperature, speed, force on 4 mm rod, ...
    pub quantity: &'static str,
    /// The least.
    pub low: f64,
    /// The greatest.
    pub high: f64,
    /// degC, NL/min, mm/min, N, mm; degF, in/min, lbf, in where it is shown in inches.
    pub unit: &'static str,
    /// Where it comes from.
    pub source: Source,
}

impl Setting {
    /// The same as it is dialled in a shop of these units. The flow of the gas stays in litres, as flow
    /// meters of welding kit have it.
    #[must_use]
    pub fn shown_in(&self, system: UnitSystem) -> Self {
        type To = fn(f64) -> f64;
        let (unit, to): (_, To) = match (system, self.unit) {
            (UnitSystem::Inch, "degC") => ("degF", |n| Temperature::from_degc(n).degf()),
            (UnitSystem::Inch, "mm/min") => ("in/min", |n| Speed::from_mm_min(n).in_min()),
            (UnitSystem::Inch, "mm") => ("in", |n| Length::from_mm(n).inches()),
            (UnitSystem::Inch, "N") => ("lbf", |n| Force::from_n(n).lbf()),
            (_, unit) => (unit, |n| n),
        };
        Self {
            low: to(self.low),
            high: to(self.high),
            unit,
            ..self.clone()
        }
    }
}

/// Every published setting for a material, process and nozzle.
pub fn settings(material: Material, process: Process, nozzle: Nozzle) -> Vec<Setting> {
    let process = match (process, nozzle) {
        (Process::HotGas, Nozzle::Speed) => "hot gas speed",
        (Process::HotGas, Nozzle::Round) => "hot gas round",
        (Process::Extrusion, _) => "extrusion",
    };
    let material = match material {
        Material::Hdpe => "PE",
        Material::Pp => "PP",
    };
    SETTING
        .iter()
        .filter(|row| row.process == process && row.material == material)
        .map(|row| Setting {
            quantity: &row.quantity,
            low: row.low,
            high: row.high,
            unit: &row.unit,
            source: Source {
                value: SourcedValue::Setting {
                    quantity: &row.quantity,
                    low: row.low,
                    high: row.high,
                    unit: &row.unit,
                },
                flag: row.flag,
                cited: Cited::Row(&row.source),
            },
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// DVS 2207-3 Supplement 1, draft of March 2013 (seen): PE-HD by the speed nozzle at 300 to
    /// 340 degC and 250 to 350 mm/min, by the round one at 70 to 90 mm/min.
    #[test]
    fn settings_of_hot_gas() {
        let of = |nozzle, wanted| {
            let all = settings(Material::Hdpe, Process::HotGas, nozzle);
            let found = all
                .into_iter()
                .find(|setting| setting.quantity == wanted)
                .expect("a row");
            (found.low, found.high)
        };
        assert_eq!(of(Nozzle::Speed, "gas temperature"), (300.0, 340.0));
        assert_eq!(of(Nozzle::Speed, "speed"), (250.0, 350.0));
        assert_eq!(of(Nozzle::Round, "speed"), (70.0, 90.0));
        assert_eq!(of(Nozzle::Round, "sheet thickness"), (2.0, 10.0));
        assert!(!settings(Material::Pp, Process::Extrusion, Nozzle::Speed).is_empty());
    }

    #[test]
    fn a_shop_of_inches_dials_fahrenheit() {
        let all = settings(Material::Hdpe, Process::HotGas, Nozzle::Speed);
        let gas = all.iter().find(|it| it.quantity == "gas temperature");
        let gas = gas.expect("a row").shown_in(UnitSystem::Inch);
        assert_eq!(
            (gas.low.round(), gas.high.round(), gas.unit),
            (572.0, 644.0, "degF")
        );
    }
}
