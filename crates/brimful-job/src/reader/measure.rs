//! The quantities that a job file writes as text, each with its reader.

use super::super::default::DefaultValue;
use brimful_units::{
    Angle, Density, FlowRate, Mass, MassRate, Pressure, QuantityKind, Speed, Temperature, Time,
    UnitError, Volume, angle_text, density_text, flow_rate_text, mass_rate_text, mass_text,
    pressure_text, speed_text, temperature_text, time_text, volume_text,
};

/// A quantity that is always written with its unit.
pub(crate) trait Measure: Copy + PartialOrd {
    /// What it is.
    const KIND: QuantityKind;

    /// Reads it.
    fn read(text: &str) -> Result<Self, UnitError>;

    /// As the value of a default.
    fn as_default(self) -> DefaultValue;
}

macro_rules! measures {
    ($($quantity:ident by $read:ident,)+) => { $(
        impl Measure for $quantity {
            const KIND: QuantityKind = QuantityKind::$quantity;

            fn read(text: &str) -> Result<Self, UnitError> {
                $read(text)
            }

            fn as_default(self) -> DefaultValue {
                DefaultValue::$quantity(self)
            }
        }
    )+ };
}

measures! {
    Angle by angle_text,
    Density by density_text,
    FlowRate by flow_rate_text,
    Mass by mass_text,
    MassRate by mass_rate_text,
    Pressure by pressure_text,
    Speed by speed_text,
    Temperature by temperature_text,
    Time by time_text,
    Volume by volume_text,
}
