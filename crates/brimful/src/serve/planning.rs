//! Plans that have been worked out, kept until their job's text changes.

use super::jobs::Text;
use super::refusal::Refusal;
use super::scans::{Scans, Stamp};
use crate::fault::Fault;
use brimful_tank::fit::{Fit, fit_watched};
use brimful_tank::job::Job;
use brimful_tank::plan::{Depth, NoPlan, Plan, plan, plan_watched, reworded, with_remedies};
use brimful_tank::watch::Watch;
use brimful_units::UnitSystem;
use serde::Deserialize;
use std::collections::BTreeMap;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::PathBuf;
use std::sync::{Arc, Mutex, PoisonError};

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

/// The plans of a text: one for each system of units that its sentences were wanted in.
#[derive(Clone, Debug)]
struct Kept {
    etag: String,
    /// The scan that the job names, as it was.
    scan: Stamp,
    plans: Vec<Arc<Plan>>,
    /// Whether changes that would make it hold have been worked out.
    remedied: bool,
}

impl Kept {
    fn said_in(&self, units: UnitSystem) -> Option<&Arc<Plan>> {
        let mut plans = self.plans.iter();
        plans.find(|plan| plan.job.about.units == units)
    }
}

/// The last draft and the last whole plan of each job.
#[derive(Debug)]
pub(super) struct Planned {
    scans: Scans,
    drafts: Mutex<BTreeMap<String, Kept>>,
    whole: Mutex<BTreeMap<String, Kept>>,
}

impl Planned {
    /// Of the jobs in a folder.
    pub(super) fn new(folder: PathBuf) -> Self {
        Self {
            scans: Scans::new(folder),
            drafts: Mutex::default(),
            whole: Mutex::default(),
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
        let said = job.about.units;
        if let Some(plan) =
            kept(&self.drafts, name, text, &scan).and_then(|it| it.said_in(said).cloned())
        {
            return Ok(plan);
        }
        let made = guarded(|| plan(job, Depth::Quick).map_err(NoPlan::Faults)).map(Arc::new)?;
        keep(&self.drafts, name, text, scan, &made);
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
        if let Some(known) = self.known(name, text, units, watch)? {
            return Ok(known);
        }
        // Remedies are in round figures of the job's own units, whoever asks first.
        let (job, scan) = self.read_in(text, None)?;
        let made = guarded(|| plan_watched(job, Depth::Whole, watch)).map(Arc::new)?;
        keep(&self.whole, name, text, scan, &made);
        let known = self.known(name, text, units, watch)?;
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
        let is_done = kept(&self.whole, name, text, &scan).is_some_and(|kept| kept.remedied);
        if !is_done {
            let plan = self.whole(name, text, None, watch)?;
            let made = guarded(|| with_remedies(&plan, watch)).map(Arc::new)?;
            let fresh = Kept {
                etag: text.etag.clone(),
                scan,
                plans: vec![made],
                remedied: true,
            };
            let mut plans = self.whole.lock().unwrap_or_else(PoisonError::into_inner);
            plans.insert(name.to_owned(), fresh);
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
    ) -> Result<Option<Arc<Plan>>, Refusal> {
        let (job, scan) = self.read_in(text, units)?;
        let Some(kept) = kept(&self.whole, name, text, &scan) else {
            return Ok(None);
        };
        let said = job.about.units;
        match (kept.said_in(said), kept.plans.first()) {
            (Some(plan), _) => Ok(Some(Arc::clone(plan))),
            (None, None) => Ok(None),
            (None, Some(other)) => {
                let made = guarded(|| reworded(other, said, watch)).map(Arc::new)?;
                keep(&self.whole, name, text, scan, &made);
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
        let scan = scan.map_err(|fault| Refusal::faulty(&[Fault::from(fault)]))?;
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
        guarded(|| fit_watched(job, watch))
    }
}

/// The job of a text.
pub(super) fn read(text: &Text) -> Result<Job, Refusal> {
    Job::parse(&text.text).map_err(|faults| {
        let faults: Vec<Fault> = faults.into_iter().map(Fault::from).collect();
        Refusal::faulty(&faults)
    })
}

/// Works something out; a panic is a failure of Brimful's own, and the server goes on.
fn guarded<T>(make: impl FnOnce() -> Result<T, NoPlan>) -> Result<T, Refusal> {
    match catch_unwind(AssertUnwindSafe(make)) {
        Ok(Ok(made)) => Ok(made),
        Ok(Err(NoPlan::Faults(faults))) => {
            let faults: Vec<Fault> = faults.into_iter().map(Fault::from).collect();
            Err(Refusal::faulty(&faults))
        }
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

fn kept(
    plans: &Mutex<BTreeMap<String, Kept>>,
    name: &str,
    text: &Text,
    scan: &Stamp,
) -> Option<Kept> {
    let plans = plans.lock().unwrap_or_else(PoisonError::into_inner);
    let kept = plans.get(name)?;
    (kept.etag == text.etag && kept.scan == *scan).then(|| kept.clone())
}

/// Jobs whose plans are kept at once: a plan takes a few megabytes.
const MOST: usize = 4;

fn keep(
    plans: &Mutex<BTreeMap<String, Kept>>,
    name: &str,
    text: &Text,
    scan: Stamp,
    plan: &Arc<Plan>,
) {
    let mut plans = plans.lock().unwrap_or_else(PoisonError::into_inner);
    if plans.len() >= MOST && !plans.contains_key(name) {
        plans.pop_first();
    }
    let fresh = Kept {
        etag: text.etag.clone(),
        scan,
        plans: Vec::new(),
        remedied: false,
    };
    let kept = plans
        .entry(name.to_owned())
        .or_insert_with(|| fresh.clone());
    if kept.etag != fresh.etag || kept.scan != fresh.scan {
        *kept = fresh;
    }
    if kept.said_in(plan.job.about.units).is_none() {
        kept.plans.push(Arc::clone(plan));
    }
}
