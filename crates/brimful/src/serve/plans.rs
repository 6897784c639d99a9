//! Plans worked out on demand, and kept in a [`PlanCache`]. A plan has no words: which language and
//! units it is shown in is for whoever answers.

use super::error::ApiError;
use super::plan_cache::{CacheKey, PlanCache};
use super::scans::{Scans, Stamp};
use super::text::Text;
use crate::fault::Fault;
use crate::locale::Locale;
use brimful_job::Job;
use brimful_panels::progress::Progress;
use brimful_panels::site::Input;
use brimful_tank::fit::{Fit, fit_watched};
use brimful_tank::plan::{Depth, NoPlan, Plan, plan, plan_watched, with_remedies};
use brimful_text::Language;
use brimful_units::UnitSystem;
use schemars::JsonSchema;
use serde::Deserialize;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::PathBuf;
use std::sync::Arc;

/// The units that sentences are wanted in; the words of the job file.
#[derive(Clone, Copy, Debug, Deserialize, JsonSchema, PartialEq, Eq)]
#[serde(rename_all = "snake_case")]
pub(super) enum Units {
    Metric,
    Inch,
}

/// The language that sentences are wanted in.
#[derive(Clone, Copy, Debug, Deserialize, JsonSchema, PartialEq, Eq)]
pub(super) enum LanguageTag {
    #[serde(rename = "en")]
    English,
    /// English with every word marked, to see which words come from elsewhere.
    #[serde(rename = "en-XA")]
    Pseudo,
}

/// The language that a query asks for.
pub(super) fn language(tag: Option<LanguageTag>) -> Language {
    match tag {
        None | Some(LanguageTag::English) => Language::English,
        Some(LanguageTag::Pseudo) => Language::Pseudo,
    }
}

/// What a query asks for.
pub(super) fn locale(tag: Option<LanguageTag>, units: Option<Units>) -> Locale {
    Locale {
        language: language(tag),
        units: units.map(|units| match units {
            Units::Metric => UnitSystem::Metric,
            Units::Inch => UnitSystem::Inch,
        }),
    }
}

/// The last drafts and the last whole plans.
#[derive(Debug)]
pub(super) struct Plans {
    scans: Scans,
    drafts: PlanCache,
    whole: PlanCache,
}

impl Plans {
    /// Of the jobs in a folder.
    pub(super) fn new(folder: PathBuf) -> Self {
        Self {
            scans: Scans::new(folder),
            drafts: PlanCache::default(),
            whole: PlanCache::default(),
        }
    }

    /// The draft of a job's text, worked out now if it is not there.
    pub(super) fn draft(&self, name: &str, text: &Text) -> Result<Arc<Plan>, ApiError> {
        let (input, scan) = self.read(text)?;
        let key = CacheKey::new(name, text, scan);
        if let Some(cached) = self.drafts.get(&key) {
            return Ok(cached.plan);
        }
        let input = self.on_latest_site(name, input);
        let made = guarded(&input.job, || {
            plan(input.clone(), Depth::Quick).map_err(NoPlan::Faults)
        });
        let made = made.map(Arc::new)?;
        self.drafts.insert(key, Arc::clone(&made), false);
        Ok(made)
    }

    /// The whole plan of a job's text, for whoever waits for it.
    pub(super) fn whole(
        &self,
        name: &str,
        text: &Text,
        progress: &dyn Progress,
    ) -> Result<Arc<Plan>, ApiError> {
        let (input, scan) = self.read(text)?;
        let key = CacheKey::new(name, text, scan);
        if let Some(cached) = self.whole.get(&key) {
            return Ok(cached.plan);
        }
        let input = self.on_latest_site(name, input);
        let made = guarded(&input.job, || {
            plan_watched(input.clone(), Depth::Whole, progress)
        });
        let made = made.map(Arc::new)?;
        self.whole.insert(key, Arc::clone(&made), false);
        Ok(made)
    }

    /// The whole plan with changes that would make it hold, for whoever waits for it.
    pub(super) fn remedied(
        &self,
        name: &str,
        text: &Text,
        progress: &dyn Progress,
    ) -> Result<Arc<Plan>, ApiError> {
        let (_, scan) = self.read(text)?;
        let key = CacheKey::new(name, text, scan);
        if let Some(cached) = self.whole.get(&key).filter(|cached| cached.remedied) {
            return Ok(cached.plan);
        }
        let plan = self.whole(name, text, progress)?;
        let made = guarded(&plan.job, || with_remedies(&plan, progress)).map(Arc::new)?;
        self.whole.insert(key, Arc::clone(&made), true);
        Ok(made)
    }

    /// The whole plan of a job's text, if it has been worked out.
    pub(super) fn known(&self, name: &str, text: &Text) -> Result<Option<Arc<Plan>>, ApiError> {
        let (_, scan) = self.read(text)?;
        let cached = self.whole.get(&CacheKey::new(name, text, scan));
        Ok(cached.map(|cached| cached.plan))
    }

    /// The bodies that fit the space of a job's text, for whoever waits for it.
    pub(super) fn fitted(
        &self,
        name: &str,
        text: &Text,
        progress: &dyn Progress,
    ) -> Result<Fit, ApiError> {
        let (input, _) = self.read(text)?;
        let input = self.on_latest_site(name, input);
        guarded(&input.job, || fit_watched(input.clone(), progress))
    }

    /// A job on the site of its latest draft: most edits leave the space as it is.
    fn on_latest_site(&self, name: &str, input: Input) -> Input {
        Input {
            earlier: self.drafts.latest(name).and_then(|plan| plan.site.clone()),
            ..input
        }
    }

    /// The job of a text and its scan, and what that was made from.
    fn read(&self, text: &Text) -> Result<(Input, Stamp), ApiError> {
        let job = read(text)?;
        let (scan, stamp) = self.scans.read(&job).map_err(|refused| {
            ApiError::invalid_job([refused.into_fault(&Locale::default().words(&job))])
        })?;
        let input = Input {
            scan,
            ..Input::from(job)
        };
        Ok((input, stamp))
    }
}

/// The job of a text.
pub(super) fn read(text: &Text) -> Result<Job, ApiError> {
    Job::parse(&text.text).map_err(ApiError::invalid_job)
}

/// Works something out of a job; a panic is a failure of Brimful's own, and the server goes on.
fn guarded<T>(job: &Job, make: impl FnOnce() -> Result<T, NoPlan>) -> Result<T, ApiError> {
    match catch_unwind(AssertUnwindSafe(make)) {
        Ok(Ok(made)) => Ok(made),
        Ok(Err(NoPlan::Faults(faults))) => {
            let words = Locale::default().words(job);
            Err(ApiError::invalid_job(Fault::of_shapes(&faults, &words)))
        }
        Ok(Err(NoPlan::Cancelled)) => Err(ApiError::cancelled()),
        Err(_) => Err(failed()),
    }
}
fn failed() -> ApiError {
    ApiError::internal(
        "Brimful itself failed at this job.",
        "This is a fault of the program, not of the job: please report it with the job file.",
    )
}
