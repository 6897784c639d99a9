//! Factors on strength: weld, by time under load; safety; medium.

use super::material::Material;
use super::not_covered::NotCovered;
use super::row::rows;
use super::source::{Cited, Flag, Source, Sourced, SourcedValue};
use brimful_job::{Liquid, Process};
use brimful_units::{Temperature, Time};
use serde::Deserialize;
use std::sync::LazyLock;

#[derive(Deserialize)]
pub(super) struct Row {
    kind: String,
    of: String,
    pub value: f64,
    flag: Flag,
    pub source: String,
}

#[derive(Deserialize)]
pub(super) struct EffectRow {
    liquid: String,
    material: String,
    factor: f64,
    warmest_degc: f64,
    flag: Flag,
    pub source: String,
}

#[derive(Deserialize)]
pub(super) struct ColdRow {
    material: String,
    degc: f64,
    surely_from_degc: f64,
}

pub(super) static LIQUID_EFFECT: LazyLock<Vec<EffectRow>> =
    LazyLock::new(|| rows(include_str!("data/liquid_effect.csv")));
pub(super) static COLDEST_USE: LazyLock<Vec<ColdRow>> =
    LazyLock::new(|| rows(include_str!("data/coldest_use.csv")));
pub(super) static FACTOR: LazyLock<Vec<Row>> =
    LazyLock::new(|| rows(include_str!("data/factor.csv")));

/// How much a failure would matter.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LoadClass {
    /// The load is constant and failure harms nobody.
    ConstantAndHarmless,
    /// The load changes, or failure would harm.
    ChangingOrHarmful,
}

/// A load of no more than this, all together, is short: the tensile test of EN 12814-2 that the short
/// factor is from.
const SHORT: Time = Time::from_hours(1.0);
/// A load of no less than this, all together, is long: the creep tests of EN 12814-3 that the long factor
/// is from run for about so long.
const LONG: Time = Time::from_hours(1000.0);

/// Whether a load of so long all together is a short one.
pub fn is_short(time: Time) -> bool {
    time <= SHORT
}

/// The strength of a weld over that of the sheet by time under load: the short factor up to an hour, the
/// long one from a thousand, straight on the logarithm of time between them. No table has the times
/// between; the notches of a weld are later to tell at room temperature than this has it.
#[derive(Clone, Debug, PartialEq)]
pub struct WeldFactor {
    short: Sourced<f64>,
    long: Sourced<f64>,
}

impl WeldFactor {
    /// The factor of a process.
    ///
    /// # Errors
    /// The material is not welded by it.
    pub fn of(material: Material, process: Process) -> Result<Self, NotCovered> {
        let of = match (material, process) {
            (Material::Hdpe | Material::Pp, Process::HotGas) => "hot gas",
            (Material::Hdpe | Material::Pp, Process::Extrusion) => "extrusion",
            (Material::PvcU, Process::HotGas) => "hot gas, PVC-U",
            (Material::PvcU, Process::Extrusion) => "extrusion, PVC-U",
        };
        Ok(Self {
            short: factor("short weld factor", of)?,
            long: factor("long weld factor", of)?,
        })
    }

    /// Under a load of `time` all together.
    pub fn at(&self, time: Time) -> f64 {
        let share = (time / SHORT).log10() / (LONG / SHORT).log10();
        let (short, long) = (self.short.value, self.long.value);
        short + (long - short) * share.clamp(0.0, 1.0)
    }

    /// The least that this one is of another, whatever the time: both run straight on one logarithm, so at one of its ends.
    pub fn least_of(&self, other: &Self) -> f64 {
        let ends = [(&self.short, &other.short), (&self.long, &other.long)];
        let shares = ends.map(|(own, other)| own.value / other.value);
        shares[0].min(shares[1])
    }

    /// The same with its source.
    pub fn sourced(&self, time: Time) -> Sourced<f64> {
        let factor = self.at(time);
        let row = if time <= SHORT {
            &self.short
        } else {
            &self.long
        };
        let between = time > SHORT && time < LONG;
        let sources = row.sources.iter().map(|source| Source {
            value: SourcedValue::WeldFactor {
                factor,
                after: time,
            },
            flag: if between { Flag::Computed } else { source.flag },
            cited: source.cited.clone(),
        });
        Sourced {
            value: factor,
            sources: sources.collect(),
        }
    }
}

/// The factor of safety.
pub fn safety_factor(class: LoadClass) -> Result<Sourced<f64>, NotCovered> {
    factor(
        "safety factor",
        match class {
            LoadClass::ConstantAndHarmless => "class I",
            LoadClass::ChangingOrHarmful => "class II",
        },
    )
}

/// The reduction A2 for the liquid and what is in it: that of the worst of them; or what the maker of the
/// sheet says.
///
/// # Errors
/// The sheet does not stand the liquid, or not so warm.
pub fn medium_factor(material: Material, liquid: &Liquid) -> Result<Sourced<f64>, NotCovered> {
    if let Some(value) = liquid.medium_factor {
        let source = Source {
            value: SourcedValue::Factor {
                name: "medium factor",
                value,
                of: "the sheet's maker",
            },
            flag: Flag::Given,
            cited: Cited::Job,
        };
        return Ok(Sourced {
            value,
            sources: vec![source],
        });
    }
    let mut worst = factor("medium factor", "nothing added")?;
    let kind = liquid.kind.as_deref();
    let of_kind = kind
        .map(|kind| effect(material, kind, liquid.warmest))
        .transpose()?;
    let additives = liquid.additives.iter();
    let of_additives = additives
        .map(|additive| factor("medium factor", additive))
        .collect::<Result<Vec<_>, _>>()?;
    for one in of_kind.into_iter().chain(of_additives) {
        if one.value >= worst.value {
            worst = one;
        }
    }
    Ok(worst)
}

/// What a known liquid does to a sheet.
fn effect(
    material: Material,
    kind: &str,
    warmest: Temperature,
) -> Result<Sourced<f64>, NotCovered> {
    let table = "liquids that the sheet stands";
    let found = LIQUID_EFFECT
        .iter()
        .find(|row| row.material == material.row_name() && row.liquid == kind);
    let row = found.ok_or_else(|| NotCovered::Word {
        table,
        word: kind.to_owned(),
    })?;
    let limit = Temperature::from_degc(row.warmest_degc);
    if warmest > limit {
        return Err(NotCovered::Temperature {
            table,
            asked: warmest,
            coldest: Temperature::from_degc(0.0),
            warmest: limit,
        });
    }
    Ok(Sourced {
        value: row.factor,
        sources: vec![Source {
            value: SourcedValue::Factor {
                name: "medium factor",
                value: row.factor,
                of: &row.liquid,
            },
            flag: row.flag,
            cited: Cited::Row(&row.source),
        }],
    })
}

/// The coldest at which a sheet may take a shock, and from where on it surely does: below the one it is brittle, between
/// them by its make.
pub fn coldest_use(material: Material) -> [Temperature; 2] {
    let row = COLDEST_USE
        .iter()
        .find(|row| row.material == material.row_name());
    let row = row.expect("a test reads a row of each");
    [row.degc, row.surely_from_degc].map(Temperature::from_degc)
}

fn factor(kind: &'static str, of: &str) -> Result<Sourced<f64>, NotCovered> {
    let found = FACTOR.iter().find(|row| row.kind == kind && row.of == of);
    let row = found.ok_or_else(|| NotCovered::Word {
        table: kind,
        word: of.to_owned(),
    })?;
    Ok(Sourced {
        value: row.value,
        sources: vec![Source {
            value: SourcedValue::Factor {
                name: kind,
                value: row.value,
                of: &row.of,
            },
            flag: row.flag,
            cited: Cited::Row(&row.source),
        }],
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// DVS 2205-1, from memory: short and long weld factors of PE and PP; a day between them on the
    /// logarithm of time, `0.8 - 0.4 lg 24 / 3`.
    #[test]
    fn weld_factors() {
        let value = |process, hours| {
            let factor = WeldFactor::of(Material::Hdpe, process).expect("a row");
            factor.at(Time::from_hours(hours))
        };
        assert_eq!(value(Process::HotGas, 100_000.0), 0.4);
        assert_eq!(value(Process::Extrusion, 1000.0), 0.6);
        assert_eq!(value(Process::HotGas, 0.001), 0.8);
        assert!((value(Process::HotGas, 24.0) - 0.616).abs() < 5e-4);
    }

    /// By hand: 0.4 of 0.6 in the long run and 0.8 of 0.8 at once.
    #[test]
    fn hot_gas_is_two_thirds_of_an_extruder_at_the_least() {
        let of = |process| WeldFactor::of(Material::Hdpe, process).expect("a row");
        let least = of(Process::HotGas).least_of(&of(Process::Extrusion));
        assert!((least - 2.0 / 3.0).abs() < 1e-12);
    }

    /// Sheet of PVC-U is welded by hot gas, and with an extruder not at all.
    #[test]
    fn pvc_is_not_covered_with_an_extruder() {
        let of = |process| WeldFactor::of(Material::PvcU, process);
        assert_eq!(
            of(Process::HotGas)
                .expect("a row")
                .at(Time::from_years(1.0)),
            0.4
        );
        assert!(matches!(
            of(Process::Extrusion),
            Err(NotCovered::Word { .. })
        ));
    }

    fn liquid(rest: &str) -> Liquid {
        let text = format!(
            "[job]\nlengths = \"mm\"\n[liquid]\n{rest}\n[body]\nbox = [500, 500, 500]\nthickness = 8\n"
        );
        brimful_job::Job::parse(&text).expect("a job").liquid
    }

    #[test]
    fn the_worst_of_liquid_and_additives_counts() {
        let of = |rest: &str| medium_factor(Material::Hdpe, &liquid(rest)).map(|it| it.value);
        assert_eq!(of("kind = \"water\""), Ok(1.0));
        assert_eq!(of("kind = \"water\"\nadditives = [\"salt\"]"), Ok(1.0));
        assert_eq!(
            of("kind = \"water\"\nadditives = [\"salt\", \"detergent\"]"),
            Ok(2.0)
        );
        assert_eq!(of("kind = \"grey water\""), Ok(1.2));
        assert_eq!(of("kind = \"grey water\"\nmedium_factor = 1.5"), Ok(1.5));
    }

    #[test]
    fn what_a_sheet_does_not_stand_has_no_factor() {
        let bleach = "kind = \"sodium hypochlorite 12.5 %\"\nwarmest = ";
        let warm = liquid(&format!("{bleach}\"40 degC\""));
        assert!(matches!(
            medium_factor(Material::Hdpe, &warm),
            Err(NotCovered::Temperature { .. })
        ));
        let cool = liquid(&format!("{bleach}\"25 degC\""));
        assert!(medium_factor(Material::Hdpe, &cool).is_ok_and(|it| it.value > 1.5));
        assert!(matches!(
            medium_factor(Material::Pp, &cool),
            Err(NotCovered::Word { .. })
        ));
    }

    /// Every additive that a job may name has a factor.
    #[test]
    fn every_additive_of_the_job_has_a_row() {
        for additive in [
            "surfactant",
            "detergent",
            "oxidiser",
            "disinfectant",
            "antifreeze",
            "fertiliser",
            "salt",
        ] {
            assert!(factor("medium factor", additive).is_ok(), "{additive}");
        }
    }
}
