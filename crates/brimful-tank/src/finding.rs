//! What a check says.

use brimful_job::{About, Place};
use brimful_units::show::{self, LengthStyle, decimal};
use brimful_units::{Angle, Area, Force, Length, Mass, Pressure, Speed, Temperature, Volume};

/// How much a finding weighs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
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
    /// A pressure or stress.
    Pressure(Pressure),
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
    /// The number with its unit, as the job's reader wants it.
    pub fn text(&self, about: &About) -> String {
        let system = about.units;
        match *self {
            Self::Length(length) => show::length(length, LengthStyle::of(system, about.fraction)),
            Self::Thickness(length) => show::small_length(length, system),
            Self::Area(area) => show::area(area, system),
            Self::Volume(volume) => show::volume(volume, system),
            Self::Mass(mass) => show::mass(mass, system),
            Self::Pressure(pressure) => show::pressure(pressure, system),
            Self::Force(force) => show::force(force, system),
            Self::Temperature(temperature) => show::temperature(temperature, system),
            Self::Speed(speed) => show::speed(speed, system),
            Self::Angle(angle) => show::angle(angle),
            Self::Ratio(ratio) => decimal(ratio, 2),
            Self::Count(count) => count.to_string(),
        }
    }
}

/// What a check says: about what, the figure against the limit, by which source, and the cure.
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    /// How much it weighs.
    pub grade: Grade,
    /// The panel, seam, opening or part of the job that it is about.
    pub about: String,
    /// What is found, in a sentence.
    pub says: String,
    /// What was computed, if a number.
    pub figure: Option<Quantity>,
    /// What it is held against.
    pub limit: Option<Quantity>,
    /// Where the limit or the rule comes from.
    pub source: String,
    /// What would cure it; empty for a note that needs nothing. In words of the trade alone.
    pub cure: String,
    /// What the cure is called in the job file, for whoever writes in it; empty where it has no entry
    /// of its own.
    pub entry: &'static str,
    /// Where in the job file it comes from, if it comes from one place.
    pub place: Option<Place>,
}

impl Finding {
    /// A finding without figures.
    pub fn new(grade: Grade, about: impl Into<String>, says: impl Into<String>) -> Self {
        Self {
            grade,
            about: about.into(),
            says: says.into(),
            figure: None,
            limit: None,
            source: String::new(),
            cure: String::new(),
            entry: "",
            place: None,
        }
    }
    /// With what was computed and what it is held against.
    pub fn figures(self, figure: Quantity, limit: Quantity) -> Self {
        Self {
            figure: Some(figure),
            limit: Some(limit),
            ..self
        }
    }
    /// With the source of the rule.
    pub fn source(self, source: impl Into<String>) -> Self {
        Self {
            source: source.into(),
            ..self
        }
    }
    /// With what would cure it.
    pub fn cure(self, cure: impl Into<String>) -> Self {
        Self {
            cure: cure.into(),
            ..self
        }
    }
    /// With what the cure is called in the job file.
    pub fn entry(self, entry: &'static str) -> Self {
        Self { entry, ..self }
    }
    /// With its place in the job file.
    pub fn at(self, place: &Place) -> Self {
        Self {
            place: Some(place.clone()),
            ..self
        }
    }
}
