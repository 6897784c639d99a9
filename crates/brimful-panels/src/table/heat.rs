//! How sheet takes heat, and what warms a groove before a run.

use super::material::Material;
use super::row::rows;
use super::source::{Cited, Flag, Source, SourcedValue};
use brimful_job::{Nozzle, Process};
use brimful_mech::heat::{self, Phase};
use brimful_units::{Length, Temperature};
use serde::Deserialize;
use std::sync::LazyLock;

#[derive(Deserialize)]
pub(super) struct PropertyRow {
    material: String,
    quantity: String,
    pub value: f64,
    unit: String,
    flag: Flag,
    pub source: String,
}

#[derive(Deserialize)]
pub(super) struct HeatingRow {
    process: String,
    quantity: String,
    pub low: f64,
    pub value: f64,
    pub high: f64,
    unit: String,
    flag: Flag,
    pub source: String,
}

pub(super) static PROPERTY: LazyLock<Vec<PropertyRow>> =
    LazyLock::new(|| rows(include_str!("data/heat_property.csv")));
pub(super) static HEATING: LazyLock<Vec<HeatingRow>> =
    LazyLock::new(|| rows(include_str!("data/heating.csv")));

/// What is known of a sheet that melts, with where it is from.
#[derive(Clone, Debug, PartialEq)]
pub struct Melting {
    /// In degC.
    pub material: heat::Material,
    /// Where its properties are from.
    pub sources: Vec<Source>,
}

/// What a sheet is to heat; none for one that has no melting point (PVC-U softens).
pub fn melting(material: Material) -> Option<Melting> {
    let density = material.density().ok()?;
    let mut sources = density.sources;
    let mut value = |quantity: &str| {
        let mut rows = PROPERTY.iter();
        let row = rows.find(|it| it.material == material.row_name() && it.quantity == quantity)?;
        sources.push(source(
            &row.quantity,
            [row.value; 2],
            &row.unit,
            row.flag,
            &row.source,
        ));
        Some(row.value)
    };
    Some(Melting {
        material: heat::Material {
            density: density.value.kg_m3(),
            solid: Phase {
                conductivity: value("conductivity solid")?,
                heat_capacity: value("heat capacity solid")?,
            },
            melt: Phase {
                conductivity: value("conductivity melt")?,
                heat_capacity: value("heat capacity melt")?,
            },
            melting: [value("melting begins")?, value("melting ends")?],
            latent_heat: value("heat of fusion")? * 1e3,
        },
        sources,
    })
}

/// How a groove is warmed ahead of a run, and what has to come of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Heating {
    /// Film coefficient of the hot gas, W/(m2 K): the least, the likely and the greatest.
    pub film: [f64; 3],
    /// How much of the groove is warmed at a time: the least, the likely and the greatest.
    pub along: [Length; 3],
    /// Of the bead as it is laid: the least, the likely and the greatest; none of an extruder, whose melt has a setting.
    pub bead: Option<[Temperature; 3]>,
    /// How deep the faces have to melt.
    pub asked: Length,
    /// Where these are from.
    pub sources: Vec<Source>,
}

/// What warms a groove by a process.
pub fn heating(process: Process, nozzle: Nozzle) -> Heating {
    let process = match (process, nozzle) {
        (Process::HotGas, Nozzle::Speed) => "hot gas speed",
        (Process::HotGas, Nozzle::Round) => "hot gas round",
        (Process::Extrusion, _) => "extrusion",
    };
    let (film, along, asked) = (
        row(process, "film coefficient"),
        row(process, "heated length"),
        row(process, "melted depth"),
    );
    let bead = find(process, "bead temperature");
    Heating {
        film: film.values(),
        along: along.values().map(Length::from_mm),
        bead: bead.map(|row| row.values().map(Temperature::from_degc)),
        asked: Length::from_mm(asked.value),
        sources: [Some(film), Some(along), bead, Some(asked)]
            .into_iter()
            .flatten()
            .map(HeatingRow::cited)
            .collect(),
    }
}

/// How a seam cools.
#[derive(Clone, Debug, PartialEq)]
pub struct Cooling {
    /// Film coefficient of still air, W/(m2 K).
    pub still_air: f64,
    /// The next run, and the clamps, wait until the bead is no warmer.
    pub hand_warm: Temperature,
    /// Where these are from.
    pub sources: Vec<Source>,
}

/// How a seam cools in any shop.
pub fn cooling() -> Cooling {
    let (air, warm) = (row("any", "still air"), row("any", "hand-warm"));
    Cooling {
        still_air: air.value,
        hand_warm: Temperature::from_degc(warm.value),
        sources: [air, warm].map(HeatingRow::cited).into(),
    }
}

impl HeatingRow {
    fn values(&self) -> [f64; 3] {
        [self.low, self.value, self.high]
    }

    fn cited(&'static self) -> Source {
        let ends = [self.low, self.high];
        source(&self.quantity, ends, &self.unit, self.flag, &self.source)
    }
}

fn row(process: &str, quantity: &str) -> &'static HeatingRow {
    find(process, quantity).expect("a test reads a row of each")
}

fn find(process: &str, quantity: &str) -> Option<&'static HeatingRow> {
    let mut rows = HEATING.iter();
    rows.find(|it| it.process == process && it.quantity == quantity)
}

fn source(
    name: &'static str,
    range: [f64; 2],
    unit: &'static str,
    flag: Flag,
    cited: &'static str,
) -> Source {
    Source {
        value: SourcedValue::Heat { name, range, unit },
        flag,
        cited: Cited::Row(cited),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_process_and_every_sheet_that_melts_has_its_rows() {
        for process in [Process::HotGas, Process::Extrusion] {
            for nozzle in [Nozzle::Speed, Nozzle::Round] {
                let found = heating(process, nozzle);
                let [low, likely, high] = found.film;
                assert!(low < likely && likely < high && found.asked > Length::ZERO);
            }
        }
        assert!(cooling().still_air > 0.0);
        for material in [Material::Hdpe, Material::Pp] {
            let found = melting(material).unwrap();
            let [begins, ends] = found.material.melting;
            assert!(begins < ends);
        }
        assert_eq!(melting(Material::PvcU), None);
    }
}
