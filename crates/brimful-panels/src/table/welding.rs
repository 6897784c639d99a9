//! Settings of the gun.

use super::material::Material;
use super::row::rows;
pub use super::setting::{SettingKind, SettingRange};
use super::source::{Cited, Flag, Source, SourcedValue};
use brimful_job::{Nozzle, Process, Shop};
use brimful_units::{Force, Length, Speed, Temperature};
use serde::Deserialize;
use std::sync::LazyLock;

#[derive(Deserialize)]
pub(super) struct Row {
    process: String,
    material: String,
    pub quantity: String,
    pub low: f64,
    pub high: f64,
    pub unit: String,
    flag: Flag,
    pub source: String,
}

pub(super) static SETTING: LazyLock<Vec<Row>> =
    LazyLock::new(|| rows(include_str!("data/setting.csv")));

impl Row {
    /// What is set, by its word.
    pub(super) fn kind(&self) -> Option<SettingKind> {
        Some(match self.quantity.as_str() {
            "gas temperature" => SettingKind::GasTemperature,
            "gas rate" => SettingKind::GasRate,
            "speed" => SettingKind::Speed,
            "melt temperature" => SettingKind::MeltTemperature,
            "preheat gas temperature" => SettingKind::PreheatTemperature,
            "melted depth of the faces" => SettingKind::MeltedDepth,
            "sheet thickness" => SettingKind::SheetThickness,
            force => {
                let rod = force.strip_prefix("force on ")?.strip_suffix(" mm rod")?;
                SettingKind::ForceOnRod(Length::from_mm(rod.parse().ok()?))
            }
        })
    }

    /// Its range, by its unit.
    pub(super) fn range(&self) -> Option<SettingRange> {
        let ends = [self.low, self.high];
        Some(match self.unit.as_str() {
            "degC" => SettingRange::Temperature(ends.map(Temperature::from_degc)),
            "NL/min" => SettingRange::GasRate(ends),
            "mm/min" => SettingRange::Speed(ends.map(Speed::from_mm_min)),
            "N" => SettingRange::Force(ends.map(Force::from_n)),
            "mm" => SettingRange::Length(ends.map(Length::from_mm)),
            _ => return None,
        })
    }
}

/// What runs are laid with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tool {
    /// Hot gas, the rod through the nozzle.
    SpeedNozzle,
    /// Hot gas, the rod in the other hand.
    RoundNozzle,
    /// A hand extruder.
    Extruder,
}

impl Tool {
    /// What a shop lays its long runs with.
    pub const fn of(shop: &Shop) -> Self {
        match (shop.process, shop.nozzle) {
            (Process::HotGas, Nozzle::Speed) => Self::SpeedNozzle,
            (Process::HotGas, Nozzle::Round) => Self::RoundNozzle,
            (Process::Extrusion, _) => Self::Extruder,
        }
    }

    /// A word for it that is the same in every language.
    pub const fn key(self) -> &'static str {
        match self {
            Self::SpeedNozzle => "speed nozzle",
            Self::RoundNozzle => "round nozzle",
            Self::Extruder => "extruder",
        }
    }
}

/// A published range of one setting.
#[derive(Clone, Debug, PartialEq)]
pub struct Setting {
    /// Of which tool.
    pub tool: Tool,
    /// What is set.
    pub quantity: SettingKind,
    /// From the least to the greatest.
    pub range: SettingRange,
    /// Where it comes from.
    pub source: Source,
}

/// Every published setting for a material and a tool.
pub fn settings(material: Material, tool: Tool) -> Vec<Setting> {
    let process = match tool {
        Tool::SpeedNozzle => "hot gas speed",
        Tool::RoundNozzle => "hot gas round",
        Tool::Extruder => "extrusion",
    };
    let material = match material {
        Material::Hdpe => "PE",
        Material::Pp => "PP",
        Material::PvcU => "PVC-U",
    };
    SETTING
        .iter()
        .filter(|row| row.process == process && row.material == material)
        .map(|row| {
            let kind = row.kind();
            let quantity = kind.expect("every compiled-in setting is known; a test reads them all");
            let range = row.range();
            let range = range.expect("every compiled-in unit is known; a test reads them all");
            Setting {
                tool,
                quantity,
                range,
                source: Source {
                    value: SourcedValue::Setting { quantity, range },
                    flag: row.flag,
                    cited: Cited::Row(&row.source),
                },
            }
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
        let of = |tool, wanted| {
            let all = settings(Material::Hdpe, tool);
            let found = all.into_iter().find(|setting| setting.quantity == wanted);
            found.expect("a row").range
        };
        let gas = [300.0, 340.0].map(Temperature::from_degc);
        assert_eq!(
            of(Tool::SpeedNozzle, SettingKind::GasTemperature),
            SettingRange::Temperature(gas)
        );
        let speed = |range: [f64; 2]| SettingRange::Speed(range.map(Speed::from_mm_min));
        assert_eq!(
            of(Tool::SpeedNozzle, SettingKind::Speed),
            speed([250.0, 350.0])
        );
        assert_eq!(
            of(Tool::RoundNozzle, SettingKind::Speed),
            speed([70.0, 90.0])
        );
        let sheet = [2.0, 10.0].map(Length::from_mm);
        assert_eq!(
            of(Tool::RoundNozzle, SettingKind::SheetThickness),
            SettingRange::Length(sheet)
        );
        assert!(!settings(Material::Pp, Tool::Extruder).is_empty());
    }
}
