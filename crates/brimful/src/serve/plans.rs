//! Plans worked out on demand, and kept in a [`PlanCache`].

use super::error::ApiError;
use super::jobs::Text;
use super::plan_cache::{CacheKey, PlanCache};
use super::scans::{Scans, Stamp};
use brimful_tank::fit::{Fit, fit_watched};
use brimful_tank::job::Job;
use brimful_tank::plan::{Depth, NoPlan, Plan, plan, plan_watched, reworded, with_remedies};
use brimful_tank::watch::Watch;
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

impl From<Units> for UnitSystem {
    fn from(units: Units) -> Self {
        match units {
            Units::Metric => Self::Metric,
            Units::Inch => Self::Inch,
        }
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

    /// The draft of a job's text, worked out now if it is not there. Without `units` it speaks in those
    /// of the job; so everywhere here.
    pub(super) fn draft(
        &self,
        name: &str,
        text: &Text,
        units: Option<UnitSystem>,
    ) -> Result<Arc<Plan>, ApiError> {
        let (job, scan) = self.read_in(text, units)?;
        let key = CacheKey::new(name, text, scan);
        let kept = self.drafts.get(&key);
        if let Some(plan) = kept.and_then(|kept| kept.in_units(job.about.units).cloned()) {
            return Ok(plan);
        }
        let made =
            catching_panics(|| plan(job, Depth::Quick).map_err(NoPlan::Faults)).map(Arc::new)?;
        self.drafts.insert_plan(key, &made);
        Ok(made)
    }

    /// The whole plan of a job's text, watched by the caller.
    pub(super) fn whole(
        &self,
        name: &str,
        text: &Text,
        units: Option<UnitSystem>,
        watch: &dyn Watch,
    ) -> Result<Arc<Plan>, ApiError> {
        if let Some(known) = self.known(name, text, units, watch)? {
            return Ok(known);
        }
        // Remedies are in round figures of the job's own units, whichever units come first.
        let (job, scan) = self.read_in(text, None)?;
        let made = catching_panics(|| plan_watched(job, Depth::Whole, watch)).map(Arc::new)?;
        self.whole
            .insert_plan(CacheKey::new(name, text, scan), &made);
        let known = self.known(name, text, units, watch)?;
        Ok(known.unwrap_or(made))
    }

    /// The whole plan with changes that would make it hold, watched by the caller.
    pub(super) fn remedied(
        &self,
        name: &str,
        text: &Text,
        units: Option<UnitSystem>,
        watch: &dyn Watch,
    ) -> Result<Arc<Plan>, ApiError> {
        let (_, scan) = self.read_in(text, None)?;
        let key = CacheKey::new(name, text, scan);
        let is_done = self.whole.get(&key).is_some_and(|kept| kept.remedied);
        if !is_done {
            let plan = self.whole(name, text, None, watch)?;
            let made = catching_panics(|| with_remedies(&plan, watch)).map(Arc::new)?;
            self.whole.insert_remedied(key, made);
        }
        self.whole(name, text, units, watch)
    }

    /// The whole plan of a job's text, if it has been worked out.
    pub(super) fn known(
        &self,
        name: &str,
        text: &Text,
        units: Option<UnitSystem>,
        watch: &dyn Watch,
    ) -> Result<Option<Arc<Plan>>, ApiError> {
        let (job, scan) = self.read_in(text, units)?;
        let key = CacheKey::new(name, text, scan);
        let Some(kept) = self.whole.get(&key) else {
            return Ok(None);
        };
        let said = job.about.units;
        match (kept.in_units(said), kept.plans.first()) {
            (Some(plan), _) => Ok(Some(Arc::clone(plan))),
            (None, None) => Ok(None),
            (None, Some(other)) => {
                let made = catching_panics(|| reworded(other, said, watch)).map(Arc::new)?;
                self.whole.insert_plan(key, &made);
                Ok(Some(made))
            }
        }
    }

    /// The job of a text with its scan, its sentences in the units that are wanted.
    fn read_in(&self, text: &Text, units: Option<UnitSystem>) -> Result<(Job, Stamp), ApiError> {
        let mut job = read(text)?;
        if let Some(units) = units {
            job.about.units = units;
        }
        let scan = self.scans.read_into(&mut job);
        let scan = scan.map_err(|fault| ApiError::invalid_job([fault]))?;
        Ok((job, scan))
    }

    /// The bodies that fit the space of a job's text, watched by the caller.
    pub(super) fn fitted(
        &self,
        text: &Text,
        units: Option<UnitSystem>,
        watch: &dyn Watch,
    ) -> Result<Fit, ApiError> {
        let (job, _) = self.read_in(text, units)?;
        catching_panics(|| fit_watched(job, watch))
    }
}

/// The job of a text.
pub(super) fn read(text: &Text) -> Result<Job, ApiError> {
    Job::parse(&text.text).map_err(ApiError::invalid_job)
}

/// WorkQueue something out; a panic is a failure of Brimful's own, and the server goes on.
fn catching_panics<T>(make: impl FnOnce() -> Result<T, NoPlan>) -> Result<T, ApiError> {
    match catch_unwind(AssertUnwindSafe(make)) {
        Ok(Ok(made)) => Ok(made),
        Ok(Err(NoPlan::Faults(faults))) => Err(ApiError::invalid_job(faults)),
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
