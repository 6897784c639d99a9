//! Settings of the gun, and how the published tables lay rods into grooves.

use super::material::Material;
use super::{Cited, Source, SourcedValue, flag, number, rows};
use brimful_job::{Nozzle, Process};
use brimful_units::{Force, Length, Speed, Temperature, UnitSystem};

pub(super) const SETTING: &str = include_str!("data/setting.csv");
pub(super) const LAY_UP: &str = include_str!("data/lay_up.csv");

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

/// Rods that a published table lays into one groove, or into each side of a double one.
#[derive(Clone, Debug, PartialEq)]
pub struct LayUp {
    /// `single V` or `double V each side`.
    pub groove: &'static str,
    /// Sheet thickness, mm.
    pub thickness_mm: f64,
    /// Number times diameter in mm, in order.
    pub rods: Vec<(u32, f64)>,
}

/// Every published setting for a material, process and nozzle.
pub fn settings(material: Material, process: Process, nozzle: Nozzle) -> Vec<Setting> {
    let process = match (process, nozzle) {
        (Process::HotGas, Nozzle::Speed) => "hot gas speed",
        (Process::HotGas, Nozzle::Round) => "hot gas round",
        (Process::Extrusion, _) => "extrusion",
    };
    let material = match material {
        Material::Hdpe | Material::HdpePe4 => "PE",
        Material::Pp => "PP",
    };
    let of = rows::<8>(SETTING).filter(|[row_process, row_material, ..]| {
        *row_process == process && *row_material == material
    });
    of.map(
        |[_, _, quantity, low, high, unit, flagged, source]| Setting {
            quantity,
            low: number(low),
            high: number(high),
            unit,
            source: Source {
                value: SourcedValue::Setting {
                    quantity,
                    low: number(low),
                    high: number(high),
                    unit,
                },
                flag: flag(flagged),
                cited: Cited::Row(source),
            },
        },
    )
    .collect()
}

/// Every published rod lay-up.
pub fn lay_ups() -> Vec<LayUp> {
    rows(LAY_UP)
        .map(|[groove, thickness, rods, ..]: [&str; 5]| LayUp {
            groove,
            thickness_mm: number(thickness),
            rods: rods
                .split(" + ")
                .filter_map(|part| part.split_once(" x "))
                .map(|(n, d)| (number(n) as u32, number(d)))
                .collect(),
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

    #[test]
    fn lay_ups_are_read_whole() {
        let all = lay_ups();
        let four = all
            .iter()
            .find(|row| row.groove == "single V" && row.thickness_mm == 4.0)
            .expect("a row");
        assert_eq!(four.rods, [(1, 3.0), (2, 4.0)]);
        assert!(all.iter().all(|row| !row.rods.is_empty()));
    }
}
