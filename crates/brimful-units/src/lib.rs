//! Quantities in SI, and how the shop writes and reads them.
//!
//! [`quantity`] holds the newtypes (one SI number each) and the arithmetic that makes sense
//! between them; [`text`] reads shop text such as `4' 2-1/2"` or `100 US gal`; [`show`] prints
//! a quantity the way the shop wants to read it; [`spelling`] finds the word that was meant.
//!
//! The crate knows nothing of tanks.

pub mod quantity;
pub mod show;
pub mod spelling;
pub mod text;

pub use quantity::{
    Acceleration, Angle, Area, Density, FlowRate, Force, Frequency, Length, Mass, MassRate,
    Pressure, Speed, Temperature, Time, Volume,
};
pub use show::{InchFraction, LengthStyle, UnitSystem};
pub use text::{
    QuantityKind, Read, UnitError, UnitFault, angle_text, area_text, density_text, flow_rate_text,
    length_text, mass_rate_text, mass_text, pressure_text, speed_text, temperature_text, time_text,
    volume_text,
};
