//! Plans that have been worked out, kept until their job's text changes.

use super::jobs::Text;
use super::refusal::Refusal;
use crate::fault::Fault;
use brimful_tank::fit::{Fit, fit};
use brimful_tank::job::Job;
use brimful_tank::plan::{Depth, NoPlan, Plan, plan, plan_watched};
use brimful_tank::watch::Watch;
use std::collections::BTreeMap;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::{Arc, Mutex, PoisonError};

/// A plan and the text it is of.
#[derive(Clone, Debug)]
pub(super) struct Kept {
    pub(super) etag: String,
    pub(super) plan: Arc<Plan>,
}

/// The last draft and the last whole plan of each job.
#[derive(Debug, Default)]
pub(super) struct Planned {
    drafts: Mutex<BTreeMap<String, Kept>>,
    whole: Mutex<BTreeMap<String, Kept>>,
}

impl Planned {
    /// The draft of a job's text, worked out now if it is not there.
    pub(super) fn draft(&self, name: &str, text: &Text) -> Result<Arc<Plan>, Refusal> {
        if let Some(plan) = kept(&self.drafts, name, &text.etag) {
            return Ok(plan);
        }
        let job = read(text)?;
        let made = guarded(|| plan(job, Depth::Quick).map_err(NoPlan::Faults))?;
        keep(&self.drafts, name, text, &made);
        Ok(made)
    }

    /// The whole plan of a job's text, for whoever waits for it.
    pub(super) fn whole(
        &self,
        name: &str,
        text: &Text,
        watch: &dyn Watch,
    ) -> Result<Arc<Plan>, Refusal> {
        if let Some(plan) = self.known(name, text) {
            return Ok(plan);
        }
        let job = read(text)?;
        let made = guarded(|| plan_watched(job, Depth::Remedies, watch))?;
        keep(&self.whole, name, text, &made);
        Ok(made)
    }

    /// The whole plan of a job's text, if it has been worked out.
    pub(super) fn known(&self, name: &str, text: &Text) -> Option<Arc<Plan>> {
        kept(&self.whole, name, &text.etag)
    }
}

/// The bodies that fit the space of a job's text.
pub(super) fn fitted(text: &Text) -> Result<Fit, Refusal> {
    let job = read(text)?;
    match catch_unwind(AssertUnwindSafe(|| fit(job))) {
        Ok(Ok(fit)) => Ok(fit),
        Ok(Err(faults)) => {
            let faults: Vec<Fault> = faults.into_iter().map(Fault::from).collect();
            Err(Refusal::faulty(&faults))
        }
        Err(_) => Err(failed()),
    }
}

/// The job of a text.
pub(super) fn read(text: &Text) -> Result<Job, Refusal> {
    Job::parse(&text.text).map_err(|faults| {
        let faults: Vec<Fault> = faults.into_iter().map(Fault::from).collect();
        Refusal::faulty(&faults)
    })
}

/// Makes a plan; a panic is a failure of Brimful's own, and the server goes on.
fn guarded(make: impl FnOnce() -> Result<Plan, NoPlan>) -> Result<Arc<Plan>, Refusal> {
    match catch_unwind(AssertUnwindSafe(make)) {
        Ok(Ok(plan)) => Ok(Arc::new(plan)),
        Ok(Err(NoPlan::Faults(faults))) => {
            let faults: Vec<Fault> = faults.into_iter().map(Fault::from).collect();
            Err(Refusal::faulty(&faults))
        }
        Ok(Err(NoPlan::Cancelled)) => Err(Refusal::conflict(
            "It is no longer wanted.",
            "Ask for it again.",
        )),
        Err(_) => Err(failed()),
    }
}

fn failed() -> Refusal {
    Refusal::own(
        "Brimful itself failed at this job.",
        "This is a fault of the program, not of the job: please report it with the job file.",
    )
}

fn kept(plans: &Mutex<BTreeMap<String, Kept>>, name: &str, etag: &str) -> Option<Arc<Plan>> {
    let plans = plans.lock().unwrap_or_else(PoisonError::into_inner);
    let kept = plans.get(name).filter(|kept| kept.etag == etag)?;
    Some(Arc::clone(&kept.plan))
}

/// Jobs whose plans are kept at once: a plan takes a few megabytes.
const MOST: usize = 4;

fn keep(plans: &Mutex<BTreeMap<String, Kept>>, name: &str, text: &Text, plan: &Arc<Plan>) {
    let mut plans = plans.lock().unwrap_or_else(PoisonError::into_inner);
    if plans.len() >= MOST && !plans.contains_key(name) {
        plans.pop_first();
    }
    plans.insert(
        name.to_owned(),
        Kept {
            etag: text.etag.clone(),
            plan: Arc::clone(plan),
        },
    );
}
