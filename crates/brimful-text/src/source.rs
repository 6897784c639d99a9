//! Where values come from.

use crate::text::Text;
use crate::words::Words;
use brimful_panels::table::{
    Cited, Flag, LoadOrigin, NotCovered, PropertyValue, Source, SourcedValue,
};
use brimful_units::UnitSystem;

impl Words<'_> {
    /// A value with where it is from and how sure it is.
    pub fn source(&self, source: &Source) -> Text {
        say!(
            self,
            "{value}: {cited} ({flag})",
            value = self.sourced_value(&source.value),
            cited = self.cited(&source.cited),
            flag = self.flag(source.flag),
        )
    }

    /// Author, title and table of a source.
    pub fn cited(&self, cited: &Cited) -> Text {
        match cited {
            Cited::Row(text) => self.given(text),
            Cited::Job => say!(self, "the job"),
            Cited::Load(origin) => self.load_origin(origin),
        }
    }

    /// How sure a value is.
    pub fn flag(&self, flag: Flag) -> Text {
        match flag {
            Flag::Seen => say!(self, "seen"),
            Flag::FromMemory => say!(self, "from memory"),
            Flag::Computed => say!(self, "computed"),
            Flag::CommonPractice => say!(self, "common practice"),
            Flag::Given => say!(self, "given in the job"),
        }
    }

    /// Where a load comes from.
    pub fn load_origin(&self, origin: &LoadOrigin) -> Text {
        match origin {
            LoadOrigin::Service => {
                say!(
                    self,
                    "The job's years of service and warmest liquid, all the time"
                )
            }
            LoadOrigin::LeakTest => say!(self, "A day brim-full: DVS 2206 and shop practice"),
            LoadOrigin::FillingHead => {
                say!(self, "The filling head of the job")
            }
            LoadOrigin::Suction => {
                say!(self, "The suction of the job, all its years of service")
            }
            LoadOrigin::Season => {
                say!(self, "The coldest and warmest liquid of the job")
            }
            LoadOrigin::LidLoad => {
                say!(self, "What the job lets stand on the lid")
            }
            LoadOrigin::Event(source) => self.given(source),
        }
    }

    /// A value that has a source, by its name.
    pub fn sourced_value(&self, value: &SourcedValue) -> Text {
        match value {
            SourcedValue::CreepModulus { modulus, after } => say!(
                self,
                "creep modulus {modulus} after {after}",
                modulus = self.stress(*modulus),
                after = self.time(*after),
            ),
            SourcedValue::TemperatureFactor { of, factor, at } => say!(
                self,
                "{of} x {factor} at {at}",
                of = self.data(of),
                factor = self.ratio(*factor),
                at = self.temperature(*at),
            ),
            SourcedValue::Property { name, value } => {
                let (name, value) = (self.data(name), self.property(*value));
                say!(self, "{name} {value}", name = name, value = value)
            }
            SourcedValue::Heat { name, range, unit } => {
                let [low, high] = range.map(|end| self.number(end, 2));
                let (name, unit) = (self.data(name), Text::verbatim(*unit));
                match range[0] == range[1] {
                    true => say!(
                        self,
                        "{name} {value} {unit}",
                        name = name,
                        value = low,
                        unit = unit
                    ),
                    false => say!(
                        self,
                        "{name} {low} to {high} {unit}",
                        name = name,
                        low = low,
                        high = high,
                        unit = unit
                    ),
                }
            }
            SourcedValue::Factor { name, value, of } => say!(
                self,
                "{name} {value} ({of})",
                name = self.data(name),
                value = self.ratio(*value),
                of = self.data(of),
            ),
            SourcedValue::Strength { strength, after } => say!(
                self,
                "strength {strength} over {after} in all",
                strength = self.stress(*strength),
                after = self.time(*after),
            ),
            SourcedValue::LongestService { longest } => say!(
                self,
                "strength known for {longest}",
                longest = self.time(*longest)
            ),
            SourcedValue::WeldFactor { factor, after } => say!(
                self,
                "weld factor {factor} over {after} in all",
                factor = self.ratio(*factor),
                after = self.time(*after),
            ),
            SourcedValue::RepeatFactor { of, factor, times } => say!(
                self,
                "{of} x {factor} when loaded {times} times",
                of = self.data(of),
                factor = self.ratio(*factor),
                times = self.number(*times, 0),
            ),
            SourcedValue::LoadTime { each, times_a_year } => say!(
                self,
                "{each} each time, {times} times a year",
                each = self.time(*each),
                times = self.number(*times_a_year, 0),
            ),
            SourcedValue::MotionBand { motion, band } => say!(
                self,
                "{motion} {band}",
                motion = self.motion(*motion),
                band = self.band(*band)
            ),
            SourcedValue::SafetyFactor(value) => {
                say!(self, "safety factor {value}", value = self.ratio(*value))
            }
            SourcedValue::PlateCoefficients => say!(self, "plate coefficients"),
            SourcedValue::Load(case) => say!(self, "load: {case}", case = self.case(*case)),
            SourcedValue::Setting { quantity, range } => say!(
                self,
                "{quantity} {range}",
                quantity = self.setting(*quantity),
                range = self.setting_range(*range),
            ),
        }
    }

    /// Why a table has no answer, in a clause.
    pub fn not_covered(&self, reason: &NotCovered) -> Text {
        match reason {
            NotCovered::Word { table, word } => say!(
                self,
                "the table of {table} has no row for `{word}`",
                table = self.data(table),
                word = self.given(word),
            ),
            NotCovered::Duration {
                table,
                asked,
                longest,
            } => say!(
                self,
                "the table of {table} goes to {longest}, and {asked} were asked for",
                table = self.data(table),
                longest = self.time(*longest),
                asked = self.time(*asked),
            ),
            NotCovered::Temperature {
                table,
                asked,
                coldest,
                warmest,
            } => say!(
                self,
                "the table of {table} goes from {coldest} to {warmest}, and {asked} was asked for",
                table = self.data(table),
                coldest = self.temperature(*coldest),
                warmest = self.temperature(*warmest),
                asked = self.temperature(*asked),
            ),
        }
    }

    /// What cures that a table has no answer.
    pub(crate) fn cure_of_not_covered(&self, reason: &NotCovered) -> Text {
        match reason {
            NotCovered::Word { .. } => {
                say!(self, "Another choice, or a value from the sheet's maker.")
            }
            NotCovered::Duration { .. } => {
                say!(
                    self,
                    "A shorter service, or a value from the sheet's maker."
                )
            }
            NotCovered::Temperature { asked, coldest, .. } if asked < coldest => {
                say!(self, "A warmer place, or a value from the sheet's maker.")
            }
            NotCovered::Temperature { .. } => {
                say!(self, "A cooler liquid, or a value from the sheet's maker.")
            }
        }
    }

    fn property(&self, value: PropertyValue) -> Text {
        match value {
            PropertyValue::Number(number) => self.number(number, 4),
            PropertyValue::PerKelvin(per_kelvin) => match self.system {
                UnitSystem::Metric => Text::verbatim(format!("{per_kelvin:e} 1/K")),
                UnitSystem::Inch => Text::verbatim(format!("{:.1e} 1/degF", per_kelvin / 1.8)),
            },
            PropertyValue::Stress(stress) => self.stress(stress),
            PropertyValue::Density(density) => self.density(density),
        }
    }
}
