//! Plans that are kept until their job's text changes: those of the few jobs that were asked for last.

use super::jobs::Text;
use super::scans::Stamp;
use brimful_tank::plan::Plan;
use brimful_units::UnitSystem;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

/// Jobs whose plans are kept at once: a plan takes a few megabytes.
const MOST: usize = 4;

/// What a plan is of: it holds as long as nothing of this changes.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Source {
    /// Name of the job.
    job: String,
    etag: String,
    /// The scan that the job names, as it was.
    scan: Stamp,
}

impl Source {
    pub(super) fn new(job: &str, text: &Text, scan: Stamp) -> Self {
        Self {
            job: job.to_owned(),
            etag: text.etag.clone(),
            scan,
        }
    }
}

/// The plans of a text: one for each system of units that its sentences were wanted in.
#[derive(Clone, Debug)]
pub(super) struct Kept {
    source: Source,
    pub(super) plans: Vec<Arc<Plan>>,
    /// Whether changes that would make it hold have been worked out.
    pub(super) remedied: bool,
}

impl Kept {
    pub(super) fn said_in(&self, units: UnitSystem) -> Option<&Arc<Plan>> {
        let mut plans = self.plans.iter();
        plans.find(|plan| plan.job.about.units == units)
    }
}

/// One place a job, the one that was asked for last at the end.
#[derive(Debug, Default)]
pub(super) struct PlanCache(Mutex<Vec<Kept>>);

impl PlanCache {
    /// What is kept of just this source.
    pub(super) fn of(&self, source: &Source) -> Option<Kept> {
        let mut all = self.lock();
        let kept = taken(&mut all, source)?;
        all.push(kept.clone());
        Some(kept)
    }

    /// Keeps a plan beside those of the same source in other units; others of the job go.
    pub(super) fn keep(&self, source: Source, plan: &Arc<Plan>) {
        let mut all = self.lock();
        let mut kept = taken(&mut all, &source).unwrap_or(Kept {
            source,
            plans: Vec::new(),
            remedied: false,
        });
        if kept.said_in(plan.job.about.units).is_none() {
            kept.plans.push(Arc::clone(plan));
        }
        put(&mut all, kept);
    }

    /// Keeps a plan with its remedies, in place of all others of the job.
    pub(super) fn keep_remedied(&self, source: Source, plan: Arc<Plan>) {
        let kept = Kept {
            source,
            plans: vec![plan],
            remedied: true,
        };
        put(&mut self.lock(), kept);
    }

    fn lock(&self) -> MutexGuard<'_, Vec<Kept>> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

fn taken(all: &mut Vec<Kept>, source: &Source) -> Option<Kept> {
    let at = all.iter().position(|kept| kept.source == *source)?;
    Some(all.remove(at))
}

fn put(all: &mut Vec<Kept>, fresh: Kept) {
    all.retain(|kept| kept.source.job != fresh.source.job);
    if all.len() >= MOST {
        all.remove(0);
    }
    all.push(fresh);
}

#[cfg(test)]
mod tests {
    use super::*;

    fn source(job: &str, text: &str) -> Source {
        Source::new(job, &Text::new(text.to_owned()), Stamp::default())
    }

    fn shelve(cache: &PlanCache, source: Source) {
        let kept = Kept {
            source,
            plans: Vec::new(),
            remedied: false,
        };
        put(&mut cache.lock(), kept);
    }

    #[test]
    fn the_job_not_asked_for_longest_goes_first() {
        let cache = PlanCache::default();
        for job in ["d", "a", "c", "b"] {
            shelve(&cache, source(job, ""));
        }
        assert!(cache.of(&source("d", "")).is_some());
        shelve(&cache, source("e", ""));
        let is_kept = |job: &&str| cache.of(&source(job, "")).is_some();
        let left: Vec<_> = ["a", "b", "c", "d", "e"]
            .into_iter()
            .filter(is_kept)
            .collect();
        assert_eq!(left, ["b", "c", "d", "e"]);
    }

    #[test]
    fn another_text_of_a_job_takes_its_place() {
        let cache = PlanCache::default();
        shelve(&cache, source("a", "one"));
        assert!(cache.of(&source("a", "two")).is_none());
        shelve(&cache, source("a", "two"));
        assert!(cache.of(&source("a", "one")).is_none());
        assert!(cache.of(&source("a", "two")).is_some());
    }
}
