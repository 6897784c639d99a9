//! Plans worked out on demand, and kept on a [`Shelf`].

use super::jobs::Text;
use super::refusal::Refusal;
use super::scans::{Scans, Stamp};
use super::shelf::{Shelf, Source};
use crate::fault::Fault;
use brimful_job::Job;
use brimful_tank::fit::{Fit, fit_watched};
use brimful_tank::plan::{Depth, NoPlan, Plan, plan, plan_watched, with_remedies};
use brimful_tank::watch::Watch;
use brimful_units::UnitSystem;
use serde::Deserialize;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::PathBuf;
use std::sync::Arc;

/// The units that sentences are wanted in; the words of the job file.
#[derive(Clone, Copy, Debug, Deserialize, PartialEq, Eq)]
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
pub(super) struct Planned {
    scans: Scans,
    drafts: Shelf,
    whole: Shelf,
}

impl Planned {
    /// Of the jobs in a folder.
    pub(super) fn new(folder: PathBuf) -> Self {
        Self {
            scans: Scans::new(folder),
            drafts: Shelf::default(),
            whole: Shelf::default(),
        }
    }

    /// The draft of a job's text, worked out now if it is not there. Without `units` it speaks in those
    /// of the job; so everywhere here.
    pub(super) fn draft(
        &self,
        name: &str,
        text: &Text,
        units: Option<UnitSystem>,
    ) -> Result<Arc<Plan>, Refusal> {
        let (job, scan) = self.read_in(text, units)?;
        let source = Source::new(name, text, scan);
        let kept = self.drafts.of(&source);
        if let Some(plan) = kept.and_then(|kept| kept.said_in(job.about.units).cloned()) {
            return Ok(plan);
        }
        let made = guarded(&job, || {
            plan(job.clone(), Depth::Quick).map_err(NoPlan::Faults)
        })
        .map(Arc::new)?;
        self.drafts.keep(source, &made);
        Ok(made)
    }

    /// The whole plan of a job's text, for whoever waits for it.
    pub(super) fn whole(
        &self,
        name: &str,
        text: &Text,
        units: Option<UnitSystem>,
        watch: &dyn Watch,
    ) -> Result<Arc<Plan>, Refusal> {
        if let Some(known) = self.known(name, text, units)? {
            return Ok(known);
        }
        // Remedies are in round figures of the job's own units, whoever asks first.
        let (job, scan) = self.read_in(text, None)?;
        let made =
            guarded(&job, || plan_watched(job.clone(), Depth::Whole, watch)).map(Arc::new)?;
        self.whole.keep(Source::new(name, text, scan), &made);
        let known = self.known(name, text, units)?;
        Ok(known.unwrap_or(made))
    }

    /// The whole plan with changes that would make it hold, for whoever waits for it.
    pub(super) fn remedied(
        &self,
        name: &str,
        text: &Text,
        units: Option<UnitSystem>,
        watch: &dyn Watch,
    ) -> Result<Arc<Plan>, Refusal> {
        let (_, scan) = self.read_in(text, None)?;
        let source = Source::new(name, text, scan);
        let is_done = self.whole.of(&source).is_some_and(|kept| kept.remedied);
        if !is_done {
            let plan = self.whole(name, text, None, watch)?;
            let made = guarded(&plan.job, || with_remedies(&plan, watch)).map(Arc::new)?;
            self.whole.keep_remedied(source, made);
        }
        self.whole(name, text, units, watch)
    }

    /// The whole plan of a job's text, if it has been worked out.
    pub(super) fn known(
        &self,
        name: &str,
        text: &Text,
        units: Option<UnitSystem>,
    ) -> Result<Option<Arc<Plan>>, Refusal> {
        let (job, scan) = self.read_in(text, units)?;
        let source = Source::new(name, text, scan);
        let Some(kept) = self.whole.of(&source) else {
            return Ok(None);
        };
        let said = job.about.units;
        match (kept.said_in(said), kept.plans.first()) {
            (Some(plan), _) => Ok(Some(Arc::clone(plan))),
            (None, None) => Ok(None),
            (None, Some(other)) => {
                let mut plan = Plan::clone(other);
                plan.job.about.units = said;
                let made = Arc::new(plan);
                self.whole.keep(source, &made);
                Ok(Some(made))
            }
        }
    }

    /// The job of a text with its scan, its sentences in the units that are wanted.
    fn read_in(&self, text: &Text, units: Option<UnitSystem>) -> Result<(Job, Stamp), Refusal> {
        let mut job = read(text)?;
        if let Some(units) = units {
            job.about.units = units;
        }
        let scan = self.scans.read_into(&mut job);
        let scan = scan.map_err(|refused| Refusal::faulty(&[refused.into_fault(&job)]))?;
        Ok((job, scan))
    }

    /// The bodies that fit the space of a job's text, for whoever waits for it.
    pub(super) fn fitted(
        &self,
        text: &Text,
        units: Option<UnitSystem>,
        watch: &dyn Watch,
    ) -> Result<Fit, Refusal> {
        let (job, _) = self.read_in(text, units)?;
        guarded(&job, || fit_watched(job.clone(), watch))
    }
}

/// The job of a text.
pub(super) fn read(text: &Text) -> Result<Job, Refusal> {
    Job::parse(&text.text).map_err(|faults| {
        let faults: Vec<Fault> = faults.into_iter().map(Fault::from).collect();
        Refusal::faulty(&faults)
    })
}

/// Works something out of a job; a panic is a failure of Brimful's own, and the server goes on.
fn guarded<T>(job: &Job, make: impl FnOnce() -> Result<T, NoPlan>) -> Result<T, Refusal> {
    match catch_unwind(AssertUnwindSafe(make)) {
        Ok(Ok(made)) => Ok(made),
        Ok(Err(NoPlan::Faults(faults))) => Err(Refusal::faulty(&Fault::of_shapes(&faults, job))),
        Ok(Err(NoPlan::Cancelled)) => Err(Refusal::unwanted()),
        Err(_) => Err(failed()),
    }
}

fn failed() -> Refusal {
    Refusal::own(
        "Brimful itself failed at this job.",
        "This is a fault of the program, not of the job: please report it with the job file.",
    )
}
