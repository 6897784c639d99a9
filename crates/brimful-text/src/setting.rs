//! Settings of the gun, as they are dialled in a shop.

use crate::text::Text;
use crate::words::Words;
use brimful_panels::table::welding::{SettingKind, SettingRange, Tool};
use brimful_units::UnitSystem;
use brimful_units::{Force, Length, Speed, Temperature};

impl Words<'_> {
    /// What runs are laid with.
    pub fn tool(&self, tool: Tool) -> Text {
        match tool {
            Tool::SpeedNozzle => say!(self, "hot gas, speed nozzle"),
            Tool::RoundNozzle => say!(self, "hot gas, round nozzle"),
            Tool::Extruder => say!(self, "extruder"),
        }
    }

    /// What is set. Rod is sold by the millimetre in either system, and the tables go by its size.
    pub fn setting(&self, kind: SettingKind) -> Text {
        match kind {
            SettingKind::GasTemperature => say!(self, "gas temperature"),
            SettingKind::GasRate => say!(self, "gas rate"),
            SettingKind::Speed => say!(self, "speed"),
            SettingKind::ForceOnRod(diameter) => {
                let rod = self.number(diameter.mm(), 3);
                say!(
                    self,
                    "force on {rod} rod",
                    rod = Text::verbatim(format!("{rod} mm"))
                )
            }
            SettingKind::MeltTemperature => say!(self, "melt temperature"),
            SettingKind::PreheatTemperature => say!(self, "preheat gas temperature"),
            SettingKind::MeltedDepth => say!(self, "melted depth of the faces"),
            SettingKind::SheetThickness => say!(self, "sheet thickness"),
        }
    }

    /// Its range: `300 to 340 degC`.
    pub fn setting_range(&self, range: SettingRange) -> Text {
        let (decimals, [low, high], unit) = self.dial(range);
        let [low, high] = [low, high].map(|end| self.number(end, decimals));
        let unit = Text::verbatim(unit);
        match low == high {
            true => Text::join([low, unit], " "),
            false => say!(
                self,
                "{low} to {high} {unit}",
                low = low,
                high = high,
                unit = unit
            ),
        }
    }

    /// The ends of a range as numbers of a unit.
    pub fn dialled(&self, range: SettingRange) -> ([f64; 2], &'static str) {
        let (_, ends, unit) = self.dial(range);
        (ends, unit)
    }

    /// With the decimals that are worth showing. The flow of the gas stays in litres, as flow meters of
    /// welding kit have it.
    fn dial(&self, range: SettingRange) -> (usize, [f64; 2], &'static str) {
        match (range, self.system) {
            (SettingRange::Temperature(ends), UnitSystem::Metric) => {
                (1, ends.map(Temperature::degc), "degC")
            }
            (SettingRange::Temperature(ends), UnitSystem::Inch) => {
                (0, ends.map(Temperature::degf), "degF")
            }
            (SettingRange::GasRate(ends), _) => (1, ends, "NL/min"),
            (SettingRange::Speed(ends), UnitSystem::Metric) => {
                (1, ends.map(Speed::mm_min), "mm/min")
            }
            (SettingRange::Speed(ends), UnitSystem::Inch) => (1, ends.map(Speed::in_min), "in/min"),
            (SettingRange::Force(ends), UnitSystem::Metric) => (1, ends.map(Force::n), "N"),
            (SettingRange::Force(ends), UnitSystem::Inch) => (1, ends.map(Force::lbf), "lbf"),
            (SettingRange::Length(ends), UnitSystem::Metric) => (1, ends.map(Length::mm), "mm"),
            (SettingRange::Length(ends), UnitSystem::Inch) => (2, ends.map(Length::inches), "in"),
        }
    }
}
