//! A cache of plans, valid until their job's text changes: those of the few jobs that were asked for last.

use super::scans::Stamp;
use super::text::Text;
use brimful_tank::plan::Plan;
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

/// A plan, and what it was made from.
#[derive(Clone, Debug)]
pub(super) struct Cached {
    key: CacheKey,
    pub(super) plan: Arc<Plan>,
    /// Whether changes that would make it hold have been worked out.
    pub(super) remedied: bool,
}

/// A least recently used cache with one entry a job, the latest at the end.
#[derive(Debug, Default)]
pub(super) struct PlanCache(Mutex<Vec<Cached>>);

impl PlanCache {
    /// What is cached for just this key.
    pub(super) fn get(&self, key: &CacheKey) -> Option<Cached> {
        let mut all = self.lock();
        let at = all.iter().position(|cached| cached.key == *key)?;
        let cached = all.remove(at);
        all.push(cached.clone());
        Some(cached)
    }

    /// The latest plan of a job, whatever its text was.
    pub(super) fn latest(&self, job: &str) -> Option<Arc<Plan>> {
        let all = self.lock();
        let cached = all.iter().find(|cached| cached.key.job == job)?;
        Some(Arc::clone(&cached.plan))
    }

    /// Puts a plan in the place of any other of its job.
    pub(super) fn insert(&self, key: CacheKey, plan: Arc<Plan>, remedied: bool) {
        let mut all = self.lock();
        all.retain(|cached| cached.key.job != key.job);
        if all.len() >= CAPACITY {
            all.remove(0);
        }
        all.push(Cached {
            key,
            plan,
            remedied,
        });
    }

    fn lock(&self) -> MutexGuard<'_, Vec<Cached>> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a test may panic")]
mod tests {
    use super::*;
    use brimful_job::Job;
    use brimful_tank::plan::{Depth, plan};
    use std::sync::LazyLock;

    fn key(job: &str, text: &str) -> CacheKey {
        CacheKey::new(job, &Text::new(text.to_owned()), Stamp::default())
    }

    fn insert(cache: &PlanCache, key: CacheKey) {
        static PLAN: LazyLock<Arc<Plan>> = LazyLock::new(|| {
            let job = Job::parse(
                "[liquid]\nkind = \"water\"\n[body]\nbox = [\"1 m\", \"1 m\", \"1 m\"]\n",
            );
            Arc::new(plan(job.unwrap(), Depth::Quick).unwrap())
        });
        cache.insert(key, Arc::clone(&PLAN), false);
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
