//! Where a value comes from, and how sure it is.

use super::motion_kind::Motion;
use super::setting::{SettingKind, SettingRange};
use crate::case::CaseId;
use brimful_units::{Density, Frequency, Pressure, Temperature, Time};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// How sure a value is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Flag {
    /// Read in the source named.
    Seen,
    /// Recalled from the source named, not read again.
    #[serde(rename = "from memory")]
    FromMemory,
    /// Worked out as the source says.
    Computed,
    /// What shops do, or judgement; no published figure.
    #[serde(rename = "common practice")]
    CommonPractice,
    /// Given in the job; its maker answers for it.
    #[serde(skip)]
    Given,
}

impl Flag {
    /// How far the value may be off, as a share of it: a judgement of ours. What was read may be off by
    /// its rounding and by the sheet at hand; what shops do is known to a tenth.
    pub fn width(self) -> f64 {
        match self {
            Self::Seen => 0.03,
            Self::FromMemory | Self::Computed => 0.05,
            Self::CommonPractice => 0.10,
            Self::Given => 0.0,
        }
    }

    /// The word for it on paper.
    pub fn word(self) -> &'static str {
        match self {
            Self::Seen => "seen",
            Self::FromMemory => "from memory",
            Self::Computed => "computed",
            Self::CommonPractice => "common practice",
            Self::Given => "given in the job",
        }
    }
}

/// Where one value comes from.
#[derive(Clone, Debug, PartialEq)]
pub struct Source {
    /// What the value is, with the value.
    pub value: SourcedValue,
    /// How sure it is.
    pub flag: Flag,
    /// Author, title, table.
    pub cited: Cited,
}

/// Author, title and table of a source.
#[derive(Clone, Debug, PartialEq)]
pub enum Cited {
    /// As a row of a table has it.
    Row(&'static str),
    /// The job itself.
    Job,
    /// What a load says of itself.
    Load(LoadOrigin),
}

/// A value that has a source.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum SourcedValue {
    /// The apparent modulus at room temperature after some time under load.
    CreepModulus {
        /// The modulus.
        #[serde(rename = "modulus_pa")]
        modulus: Pressure,
        /// The time.
        #[serde(rename = "after_s")]
        after: Time,
    },
    /// What is left of modulus or strength at a temperature.
    TemperatureFactor {
        /// Of what: a word of the table.
        of: &'static str,
        /// The share that is left.
        factor: f64,
        /// The temperature.
        #[serde(rename = "at_k")]
        at: Temperature,
    },
    /// A property of the sheet.
    Property {
        /// Its name: a word of the table.
        name: &'static str,
        /// Its value.
        value: PropertyValue,
    },
    /// A factor on strength.
    Factor {
        /// Its name: a word of the table.
        name: &'static str,
        /// Its value.
        value: f64,
        /// What it is for: a word of the table.
        of: &'static str,
    },
    /// The strength of the sheet under a load of some time, all together.
    Strength {
        /// The strength.
        #[serde(rename = "strength_pa")]
        strength: Pressure,
        /// The time.
        #[serde(rename = "after_s")]
        after: Time,
    },
    /// For how long the strength of the sheet is known.
    LongestService {
        /// At its temperature.
        #[serde(rename = "longest_s")]
        longest: Time,
    },
    /// The strength of a weld over that of the sheet under a load of some time, all together.
    WeldFactor {
        /// The factor.
        factor: f64,
        /// The time.
        #[serde(rename = "after_s")]
        after: Time,
    },
    /// What is left of strength where a load comes again and again.
    RepeatFactor {
        /// Of what: `sheet` or `weld`.
        of: &'static str,
        /// The factor.
        factor: f64,
        /// How often it comes in all.
        times: f64,
    },
    /// How often a load comes, and how long each time.
    LoadTime {
        /// Each time.
        #[serde(rename = "each_s")]
        each: Time,
        /// How often.
        times_a_year: f64,
    },
    /// The swings of liquid that a motion of the vehicle feeds.
    MotionBand {
        /// The motion.
        motion: Motion,
        /// From the slowest to the fastest.
        #[serde(rename = "band_hz")]
        band: [Frequency; 2],
    },
    /// The safety factor of the job.
    SafetyFactor(f64),
    /// Coefficients of plates.
    PlateCoefficients,
    /// A load case.
    Load(CaseId),
    /// What sheet or gun is to heat.
    Heat {
        /// Its name: a word of the table.
        name: &'static str,
        /// From the least to the greatest, in the unit of the row.
        range: [f64; 2],
        /// The unit.
        unit: &'static str,
    },
    /// A setting of the welding gun.
    Setting {
        /// What is set.
        quantity: SettingKind,
        /// From the least to the greatest.
        range: SettingRange,
    },
}

/// The value of a property, by the unit of its row.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum PropertyValue {
    /// A plain number.
    Number(f64),
    /// Growth for each kelvin.
    PerKelvin(f64),
    /// A stress or a modulus.
    #[serde(rename = "stress_pa")]
    Stress(Pressure),
    /// A density.
    #[serde(rename = "density_kg_m3")]
    Density(Density),
}

/// Where a load comes from.
#[derive(Clone, Debug, PartialEq)]
pub enum LoadOrigin {
    /// The job's years of service and its warmest liquid, all the time.
    Service,
    /// A day brim-full, as tests go.
    LeakTest,
    /// The filling head of the job, for an hour.
    FillingHead,
    /// The suction of the job, for an hour.
    Suction,
    /// The coldest and warmest liquid of the job, for a season.
    Season,
    /// What the job lets stand on the lid, for an hour.
    LidLoad,
    /// The source that goes with an event.
    Event(String),
}

impl From<brimful_mech::plate::Flag> for Flag {
    fn from(flag: brimful_mech::plate::Flag) -> Self {
        match flag {
            brimful_mech::plate::Flag::Seen => Self::Seen,
            brimful_mech::plate::Flag::FromMemory => Self::FromMemory,
            brimful_mech::plate::Flag::Computed => Self::Computed,
        }
    }
}

/// A value with the sources of everything that went into it.
#[derive(Clone, Debug, PartialEq)]
pub struct Sourced<T> {
    /// The value.
    pub value: T,
    /// Where it and its factors come from.
    pub sources: Vec<Source>,
}

impl<T> Sourced<T> {
    /// How far the value may be off, as a share of it, by its own row, which comes first.
    pub fn width(&self) -> f64 {
        self.sources.first().map_or(0.0, |own| own.flag.width())
    }

    /// How far it may be off by all rows that it is the product of, which do not know of one another.
    pub fn width_of_all(&self) -> f64 {
        let widths = self.sources.iter().map(|source| source.flag.width());
        widths.fold(0.0, f64::hypot)
    }
}
