//! What a check says, as a value: which part it is about, what was found with its quantities, by
//! which rule, and where in the job file. Nothing here is a sentence; `brimful-text` makes those.

pub mod cause;
pub mod kind;
mod subject;

pub use kind::Kind;
pub use subject::{Part, Subject};

use crate::table::Source;
use brimful_job::Place;
use brimful_units::{Angle, Area, Force, Length, Mass, Pressure, Speed, Temperature, Volume};
use schemars::JsonSchema;
use serde::Serialize;

/// How much a finding weighs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Grade {
    /// The tank must not be built like this, or nobody has shown that it may.
    Stop,
    /// It can be built, but something should be mended first.
    Mend,
    /// Good to know.
    Note,
}

/// A number with its kind, so that each reader sees it in units of their own.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Quantity {
    /// A length.
    Length(Length),
    /// Of sheet: nearer than a tape shows, since 12 mm sheet is not half an inch.
    Thickness(Length),
    /// An area.
    Area(Area),
    /// A volume.
    Volume(Volume),
    /// A mass.
    Mass(Mass),
    /// The pressure of a liquid or a gas.
    Pressure(Pressure),
    /// A stress in sheet or weld.
    Stress(Pressure),
    /// A force.
    Force(Force),
    /// A temperature.
    Temperature(Temperature),
    /// A speed along a seam.
    Speed(Speed),
    /// An angle.
    Angle(Angle),
    /// A plain ratio.
    Ratio(f64),
    /// So many.
    Count(usize),
}

impl Quantity {
    /// The number in SI units.
    pub fn value(self) -> f64 {
        match self {
            Self::Length(length) | Self::Thickness(length) => length.m(),
            Self::Area(area) => area.m2(),
            Self::Volume(volume) => volume.m3(),
            Self::Mass(mass) => mass.kg(),
            Self::Pressure(pressure) | Self::Stress(pressure) => pressure.pa(),
            Self::Force(force) => force.n(),
            Self::Temperature(temperature) => temperature.kelvin(),
            Self::Speed(speed) => speed.m_s(),
            Self::Angle(angle) => angle.rad(),
            Self::Ratio(ratio) => ratio,
            Self::Count(count) => count as f64,
        }
    }

    /// The unit of [`Self::value`], as JSON writes it.
    pub fn unit(self) -> &'static str {
        match self {
            Self::Length(_) | Self::Thickness(_) => "m",
            Self::Area(_) => "m2",
            Self::Volume(_) => "m3",
            Self::Mass(_) => "kg",
            Self::Pressure(_) | Self::Stress(_) => "pa",
            Self::Force(_) => "n",
            Self::Temperature(_) => "k",
            Self::Speed(_) => "m_s",
            Self::Angle(_) => "rad",
            Self::Ratio(_) => "ratio",
            Self::Count(_) => "count",
        }
    }
}

/// What was computed, and what it is held against.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Figures {
    /// What was computed.
    pub figure: Quantity,
    /// Its limit.
    pub limit: Quantity,
}

/// Where a limit comes from, where it does not follow from the kind of the finding alone.
#[derive(Clone, Debug, PartialEq)]
pub enum Origin {
    /// A row of a table.
    Table(Source),
    /// In words of its maker, such as the source that a job gives for an event.
    Given(String),
}

/// What a check says.
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    /// How much it weighs.
    pub grade: Grade,
    /// The part that it is about.
    pub subject: Subject,
    /// What is found.
    pub kind: Kind,
    /// What was computed against its limit, if that is a number.
    pub figures: Option<Figures>,
    /// Where the limit comes from, where that is data and not the rule of this kind.
    pub source: Option<Origin>,
    /// Where in the job file it comes from, if it comes from one place.
    pub place: Option<Place>,
}

impl Finding {
    /// A finding without figures, source or place.
    pub fn of(grade: Grade, subject: Subject, kind: impl Into<Kind>) -> Self {
        Self {
            grade,
            subject,
            kind: kind.into(),
            figures: None,
            source: None,
            place: None,
        }
    }

    /// With what was computed and what it is held against.
    #[must_use]
    pub fn figures(self, figure: Quantity, limit: Quantity) -> Self {
        Self {
            figures: Some(Figures { figure, limit }),
            ..self
        }
    }

    /// With the row of a table that its limit is from.
    #[must_use]
    pub fn table(self, source: Source) -> Self {
        Self {
            source: Some(Origin::Table(source)),
            ..self
        }
    }

    /// With a source in the words of whoever gave the limit.
    #[must_use]
    pub fn given(self, source: impl Into<String>) -> Self {
        Self {
            source: Some(Origin::Given(source.into())),
            ..self
        }
    }

    /// With its place in the job file.
    #[must_use]
    pub fn at(self, place: &Place) -> Self {
        Self {
            place: Some(place.clone()),
            ..self
        }
    }
}
