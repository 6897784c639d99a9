//! What puts things of a job into words.

use crate::text::{Language, Text};
use brimful_job::Job;
use brimful_panels::liquid::Compartment;
use brimful_panels::panel::Panel;
use brimful_units::{InchFraction, UnitSystem};

/// How to put things into words: in which language, in which units, and for which job.
#[derive(Clone, Copy, Debug)]
pub struct Words<'a> {
    pub(crate) language: Language,
    /// The units of what is shown.
    pub system: UnitSystem,
    /// The job that ids refer to: its events, trim and liquid.
    pub job: &'a Job,
    /// The panels that ids refer to; empty: a panel is called by its mark.
    pub(crate) panels: &'a [Panel],
    /// The compartments that ids refer to; empty: one is called by its number.
    pub(crate) compartments: &'a [Compartment],
}

impl<'a> Words<'a> {
    /// Words for a job, in its own units.
    pub fn new(job: &'a Job, language: Language) -> Self {
        Self {
            language,
            system: job.about.units,
            job,
            panels: &[],
            compartments: &[],
        }
    }

    /// The same in other units.
    #[must_use]
    pub fn in_units(self, system: UnitSystem) -> Self {
        Self { system, ..self }
    }

    /// The same for another job, such as one that a remedy has changed.
    #[must_use]
    pub fn for_job<'b>(self, job: &'b Job) -> Words<'b> {
        Words {
            language: self.language,
            system: self.system,
            job,
            panels: &[],
            compartments: &[],
        }
    }

    /// The smallest fraction of an inch that lengths are rounded to.
    pub fn fraction(&self) -> InchFraction {
        self.job.about.fraction
    }

    /// A template of this crate with its places filled in; called by [`say!`].
    pub fn compose(&self, template: &str, places: &[(&str, &Text)]) -> Text {
        self.language.compose(template, places)
    }

    /// A sentence of a data file, which is a template without places.
    pub fn data(&self, sentence: &str) -> Text {
        self.language.data(sentence)
    }

    /// What a person wrote: a name, a note. It is in no language of ours.
    pub fn given(&self, text: &str) -> Text {
        self.language.given(text)
    }
}
