//! A cache of plans, valid until their job's text changes: those of the few jobs that were asked for last.

use super::jobs::Text;
use super::scans::Stamp;
use brimful_tank::plan::Plan;
use brimful_units::UnitSystem;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

/// Jobs whose plans are kept at once: a plan takes a few megabytes.
const CAPACITY: usize = 4;

/// What a plan was made from: it is valid as long as nothing of this changes.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct CacheKey {
    /// Name of the job.
    job: String,
    etag: String,
    /// The scan that the job names, as it was.
    scan: Stamp,
}

impl CacheKey {
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
pub(super) struct CachedPlans {
    key: CacheKey,
    pub(super) plans: Vec<Arc<Plan>>,
    /// Whether changes that would make it hold have been worked out.
    pub(super) remedied: bool,
}

impl CachedPlans {
    pub(super) fn in_units(&self, units: UnitSystem) -> Option<&Arc<Plan>> {
        let mut plans = self.plans.iter();
        plans.find(|plan| plan.job.about.units == units)
    }
}

/// A least recently used cache with one entry a job, the latest at the end.
#[derive(Debug, Default)]
pub(super) struct PlanCache(Mutex<Vec<CachedPlans>>);

impl PlanCache {
    /// What is cached for just this key.
    pub(super) fn get(&self, key: &CacheKey) -> Option<CachedPlans> {
        let mut all = self.lock();
        let kept = take(&mut all, key)?;
        all.push(kept.clone());
        Some(kept)
    }

    /// Adds a plan to those of the same key in other units; other plans of the job are dropped.
    pub(super) fn insert_plan(&self, key: CacheKey, plan: &Arc<Plan>) {
        let mut all = self.lock();
        let mut kept = take(&mut all, &key).unwrap_or(CachedPlans {
            key,
            plans: Vec::new(),
            remedied: false,
        });
        if kept.in_units(plan.job.about.units).is_none() {
            kept.plans.push(Arc::clone(plan));
        }
        put(&mut all, kept);
    }

    /// Replaces all plans of the job by one with its remedies.
    pub(super) fn insert_remedied(&self, key: CacheKey, plan: Arc<Plan>) {
        let kept = CachedPlans {
            key,
            plans: vec![plan],
            remedied: true,
        };
        put(&mut self.lock(), kept);
    }

    fn lock(&self) -> MutexGuard<'_, Vec<CachedPlans>> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

fn take(all: &mut Vec<CachedPlans>, key: &CacheKey) -> Option<CachedPlans> {
    let at = all.iter().position(|kept| kept.key == *key)?;
    Some(all.remove(at))
}

fn put(all: &mut Vec<CachedPlans>, fresh: CachedPlans) {
    all.retain(|kept| kept.key.job != fresh.key.job);
    if all.len() >= CAPACITY {
        all.remove(0);
    }
    all.push(fresh);
}

#[cfg(test)]
mod tests {
    use super::*;

    fn key(job: &str, text: &str) -> CacheKey {
        CacheKey::new(job, &Text::new(text.to_owned()), Stamp::default())
    }

    fn insert(cache: &PlanCache, key: CacheKey) {
        let kept = CachedPlans {
            key,
            plans: Vec::new(),
            remedied: false,
        };
        put(&mut cache.lock(), kept);
    }

    #[test]
    fn the_job_not_asked_for_longest_goes_first() {
        let cache = PlanCache::default();
        for job in ["d", "a", "c", "b"] {
            insert(&cache, key(job, ""));
        }
        assert!(cache.get(&key("d", "")).is_some());
        insert(&cache, key("e", ""));
        let is_kept = |job: &&str| cache.get(&key(job, "")).is_some();
        let left: Vec<_> = ["a", "b", "c", "d", "e"]
            .into_iter()
            .filter(is_kept)
            .collect();
        assert_eq!(left, ["b", "c", "d", "e"]);
    }

    #[test]
    fn another_text_of_a_job_takes_its_place() {
        let cache = PlanCache::default();
        insert(&cache, key("a", "one"));
        assert!(cache.get(&key("a", "two")).is_none());
        insert(&cache, key("a", "two"));
        assert!(cache.get(&key("a", "one")).is_none());
        assert!(cache.get(&key("a", "two")).is_some());
    }
}
