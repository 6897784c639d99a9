//! A default that stands in for something the job does not say.

use brimful_units::{
    Angle, Density, FlowRate, Length, Mass, MassRate, Pressure, Speed, Temperature, Time, Volume,
};

/// A default that stands in for something the job does not say.
#[derive(Clone, Debug, PartialEq)]
pub struct DefaultUsed {
    /// The key it stands in for, as `shop.kerf`.
    pub key: String,
    /// Its value.
    pub value: DefaultValue,
    /// Why this value.
    pub reason: DefaultReason,
    /// Where it comes from.
    pub source: DefaultSource,
}

impl DefaultUsed {
    /// A default by its key.
    pub fn new(
        key: impl Into<String>,
        value: DefaultValue,
        reason: DefaultReason,
        source: DefaultSource,
    ) -> Self {
        Self {
            key: key.into(),
            value,
            reason,
            source,
        }
    }
}

/// The value of a default.
#[derive(Clone, Debug, PartialEq)]
pub enum DefaultValue {
    /// A length that a tape measures.
    Length(Length),
    /// The thickness of sheet.
    Thickness(Length),
    /// A volume.
    Volume(Volume),
    /// A temperature.
    Temperature(Temperature),
    /// A density.
    Density(Density),
    /// A pressure.
    Pressure(Pressure),
    /// A speed.
    Speed(Speed),
    /// How much mass a machine gives in a time.
    MassRate(MassRate),
    /// How much liquid runs in a time.
    FlowRate(FlowRate),
    /// A mass.
    Mass(Mass),
    /// A span of time.
    Time(Time),
    /// An angle.
    Angle(Angle),
    /// A plain number.
    Number(f64),
    /// Yes or no.
    Flag(bool),
    /// A word or name, as the job file would have it.
    Word(String),
    /// A list.
    List(Vec<Self>),
    /// A table: its keys and values.
    Table(Vec<(String, Self)>),
    /// So many things at even distances.
    EvenlySpaced(usize),
}

/// Why a default has its value.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DefaultReason {
    /// A sentence of the table of defaults.
    Table(&'static str),
    /// It is the density of this kind of liquid.
    DensityOf(&'static str),
    /// It is the thickest sheet of the stock.
    ThickestSheet,
    /// It is the cheapest that holds in the whole-tank check.
    CheapestThatHolds,
}

/// Where the value of a default comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DefaultSource {
    /// A line of a table.
    Table(&'static str),
    /// What shops do, without a published figure.
    CommonPractice,
    /// It was computed for this job.
    Computed,
}
