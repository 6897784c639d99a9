//! The words of a pack.

use brimful_tank::plan::Plan;
use brimful_text::Language;
use std::ops::Deref;

/// The words of a plan's papers.
#[derive(Clone, Copy)]
pub struct Words<'a> {
    /// All words and figures of the job.
    pub text: brimful_text::Words<'a>,
}

impl<'a> Words<'a> {
    /// The words of a plan, in a language.
    pub fn of(plan: &'a Plan, language: Language) -> Self {
        let text = brimful_text::Words::new(&plan.job, language);
        let text = text.with_panels(&plan.panels);
        Self {
            text: text.with_compartments(&plan.compartments),
        }
    }
}

impl<'a> Deref for Words<'a> {
    type Target = brimful_text::Words<'a>;

    fn deref(&self) -> &Self::Target {
        &self.text
    }
}
