//! What a gun is set to, and by how much.

use brimful_units::{Force, Length, Speed, Temperature};

/// What is set before welding, or kept to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum SettingKind {
    /// Of the gas at the nozzle.
    GasTemperature,
    /// Of the gas through the gun.
    GasRate,
    /// Along the seam.
    Speed,
    /// On rod of a diameter.
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
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum SettingRange {
    /// Of temperatures.
    Temperature([Temperature; 2]),
    /// Of litres of gas a minute, at 0 degC and one atmosphere.
    GasRate([f64; 2]),
    /// Of speeds.
    Speed([Speed; 2]),
    /// Of forces.
    Force([Force; 2]),
    /// Of lengths.
    Length([Length; 2]),
}
