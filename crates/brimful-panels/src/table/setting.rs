//! What a gun is set to, and by how much.

use brimful_units::{Force, Length, Speed, Temperature};
use schemars::JsonSchema;
use serde::Serialize;

/// What is set before welding, or kept to.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum SettingKind {
    /// Of the gas at the nozzle.
    GasTemperature,
    /// Of the gas through the gun.
    GasRate,
    /// Along the seam.
    Speed,
    /// On rod of a diameter.
    #[serde(rename = "force_on_rod_m")]
    ForceOnRod(Length),
    /// Of what comes out of the extruder.
    MeltTemperature,
    /// Of the gas that warms the groove before an extruder.
    PreheatTemperature,
    /// How deep the faces are melted.
    MeltedDepth,
    /// Of the sheet that the process is for.
    SheetThickness,
}

/// The least and the greatest of a setting.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum SettingRange {
    /// Of temperatures.
    #[serde(rename = "temperature_k")]
    Temperature([Temperature; 2]),
    /// Of litres of gas a minute, at 0 degC and one atmosphere.
    #[serde(rename = "gas_rate_l_min")]
    GasRate([f64; 2]),
    /// Of speeds.
    #[serde(rename = "speed_m_s")]
    Speed([Speed; 2]),
    /// Of forces.
    #[serde(rename = "force_n")]
    Force([Force; 2]),
    /// Of lengths.
    #[serde(rename = "length_m")]
    Length([Length; 2]),
}
