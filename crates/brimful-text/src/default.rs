//! Defaults in words: the value of each in the units of the job, why it is taken, and its source.

use crate::text::{Language, Text};
use crate::words::Words;
use brimful_job::{DefaultReason, DefaultSource, DefaultUsed, DefaultValue};
use brimful_units::{LengthStyle, UnitSystem, show};

/// A default in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DefaultText {
    /// Its value.
    pub value: Text,
    /// Why this value.
    pub reason: Text,
    /// Where it comes from.
    pub source: Text,
}

impl Words<'_> {
    /// A default in words.
    pub fn default_used(&self, used: &DefaultUsed) -> DefaultText {
        DefaultText {
            value: self.default_value(&used.value),
            reason: self.language.default_reason(used.reason),
            source: self.language.default_source(used.source),
        }
    }

    /// The value of a default, in the units of the job.
    pub fn default_value(&self, value: &DefaultValue) -> Text {
        let style = LengthStyle::of(self.system, self.fraction());
        Values::new(self.language, self.system, style).value(value)
    }
}

impl Language {
    /// Why a default has its value.
    pub fn default_reason(self, reason: DefaultReason) -> Text {
        match reason {
            DefaultReason::Table(sentence) => self.data(sentence),
            DefaultReason::DensityOf(kind) => {
                say!(self, "The density of {kind}.", kind = self.data(kind))
            }
            DefaultReason::ThickestSheet => say!(self, "The thickest sheet of the stock."),
            DefaultReason::CheapestThatHolds => {
                say!(self, "The cheapest that holds in the whole-tank check.")
            }
        }
    }

    /// Where the value of a default comes from.
    pub fn default_source(self, source: DefaultSource) -> Text {
        match source {
            DefaultSource::Table(sentence) => self.data(sentence),
            DefaultSource::CommonPractice => say!(self, "common practice"),
            DefaultSource::Computed => say!(self, "computed"),
        }
    }
}

/// Values of keys in words, with or without a job.
#[derive(Clone, Copy)]
pub(crate) struct Values {
    language: Language,
    system: UnitSystem,
    style: LengthStyle,
}

impl Values {
    fn new(language: Language, system: UnitSystem, style: LengthStyle) -> Self {
        Self {
            language,
            system,
            style,
        }
    }

    /// In metric units, where there is no job.
    pub(crate) fn metric(language: Language) -> Self {
        Self::new(language, UnitSystem::Metric, LengthStyle::Millimetre)
    }

    pub(crate) fn value(self, value: &DefaultValue) -> Text {
        let system = self.system;
        Text::verbatim(match value {
            DefaultValue::Length(length) => show::length(*length, self.style),
            DefaultValue::Thickness(length) => show::small_length(*length, system),
            DefaultValue::Volume(volume) => show::volume(*volume, system),
            DefaultValue::Temperature(temperature) => show::temperature(*temperature, system),
            DefaultValue::Density(density) => show::density(*density, system),
            DefaultValue::Pressure(pressure) => show::pressure(*pressure, system),
            DefaultValue::Speed(speed) => show::speed(*speed, system),
            DefaultValue::MassRate(rate) => show::mass_rate(*rate, system),
            DefaultValue::FlowRate(rate) => show::flow_rate(*rate, system),
            DefaultValue::Mass(mass) => show::mass(*mass, system),
            DefaultValue::Time(time) => return self.language.data(&show::time(*time)),
            DefaultValue::Angle(angle) => show::angle(*angle),
            DefaultValue::Number(number) => show::decimal(*number, 3),
            DefaultValue::Flag(flag) => flag.to_string(),
            DefaultValue::Word(word) => word.clone(),
            DefaultValue::List(items) => {
                return Text::join(items.iter().map(|item| self.value(item)), ", ");
            }
            DefaultValue::Table(entries) => return self.table(entries),
            DefaultValue::EvenlySpaced(count) => {
                return say!(self.language, "{n} evenly spaced", n = *count);
            }
        })
    }

    /// A table as the job file would have it; one that has nothing but a name is its name.
    fn table(self, entries: &[(String, DefaultValue)]) -> Text {
        if let [(key, value)] = entries
            && key == "name"
        {
            return self.value(value);
        }
        let entry = |(key, value): &(String, DefaultValue)| {
            Text::join([self.language.given(key), self.value(value)], " ")
        };
        Text::join(entries.iter().map(entry), ", ")
    }
}
