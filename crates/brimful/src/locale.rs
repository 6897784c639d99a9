//! In which language and in which units an answer is given.

use brimful_job::Job;
use brimful_tank::plan::Plan;
use brimful_text::{Language, Words};
use brimful_units::UnitSystem;

/// The language and the units of an answer.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct Locale {
    /// The language.
    pub language: Language,
    /// The units; none: those of the job.
    pub units: Option<UnitSystem>,
}

impl Locale {
    /// A language, in the units of the job.
    pub(crate) fn of(language: Language) -> Self {
        Self {
            language,
            units: None,
        }
    }

    /// What puts things of a job into words.
    pub(crate) fn words(self, job: &Job) -> Words<'_> {
        let words = Words::new(job, self.language);
        words.in_units(self.units.unwrap_or(words.system))
    }

    /// What puts a plan into words.
    pub(crate) fn words_of_plan(self, plan: &Plan) -> Words<'_> {
        let words = self.words(&plan.job).with_panels(&plan.panels);
        words.with_compartments(&plan.compartments)
    }
}
