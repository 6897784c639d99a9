//! The queue of long work, with progress and cancellation. A request for work that is already queued joins
//! it. Work that nobody follows is cancelled after a while, as is work on an older text of the same job.

use super::error::{ApiError, ErrorBody};
use super::plans::{LanguageTag, Units};
use super::random;
use brimful_panels::progress::{self, Step};
use brimful_text::Words;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use serde_json::Value;
use std::collections::BTreeMap;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::time::Duration;
use tokio::sync::watch;

/// Work that is remembered; the oldest that is finished is forgotten.
const MAX_REMEMBERED: usize = 40;

/// How long work goes on while nobody follows it: time to reload a page, or for a phone to find its
/// network again.
pub(super) const GRACE: Duration = Duration::from_secs(8);

/// What is asked for.
#[derive(Clone, Copy, Debug, Deserialize, JsonSchema, PartialEq, Eq)]
#[serde(deny_unknown_fields)]
pub(crate) struct WorkRequest {
    pub(crate) what: WorkKind,
    #[serde(default)]
    pub(crate) options: WorkOptions,
}

#[derive(Clone, Copy, Debug, Deserialize, JsonSchema, PartialEq, Eq)]
#[serde(rename_all = "snake_case")]
pub(crate) enum WorkKind {
    Whole,
    Remedies,
    Pack,
    Fit,
}

#[derive(Clone, Copy, Debug, Default, Deserialize, JsonSchema, PartialEq, Eq)]
#[serde(deny_unknown_fields)]
pub(crate) struct WorkOptions {
    /// `letter` for Letter, else A4.
    pub(crate) paper: Option<Paper>,
    /// The units of sentences in the answer; papers keep to the job's own.
    pub(crate) units: Option<Units>,
    /// The language of sentences in the answer.
    pub(crate) language: Option<LanguageTag>,
}

#[derive(Clone, Copy, Debug, Deserialize, JsonSchema, PartialEq, Eq)]
#[serde(rename_all = "snake_case")]
#[schemars(rename = "PaperSize")]
pub(crate) enum Paper {
    A4,
    Letter,
}

/// What identifies work: what is done to which text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct WorkKey {
    /// Name of the job.
    pub(crate) job: String,
    /// The text of it.
    pub(crate) etag: String,
    pub(crate) request: WorkRequest,
}

/// How far work has come.
#[derive(Clone, Debug)]
pub(crate) enum WorkState {
    Waiting,
    Doing { done: usize, says: String },
    Done(Arc<Value>),
    Failed(Arc<ApiError>),
    Cancelled,
}

impl WorkState {
    /// Whether it is final.
    pub(crate) fn is_finished(&self) -> bool {
        matches!(self, Self::Done(_) | Self::Failed(_) | Self::Cancelled)
    }

    /// Name and data of its event.
    pub(crate) fn event(&self, id: u64) -> (&'static str, WorkEvent) {
        let progress = |done, says: &str| {
            let (total, says) = (None, says.to_owned());
            WorkEvent::Progress(Progress { done, total, says })
        };
        match self {
            Self::Waiting => ("progress", progress(0, "waiting")),
            Self::Doing { done, says } => ("progress", progress(*done, says)),
            Self::Done(_) => {
                let result = format!("/api/work/{id}/result");
                ("done", WorkEvent::Done { result })
            }
            Self::Failed(why) => ("failed", WorkEvent::Failed(why.body().clone())),
            Self::Cancelled => ("cancelled", WorkEvent::Cancelled {}),
        }
    }
}

/// The data of an event of work.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[serde(untagged)]
pub(crate) enum WorkEvent {
    Progress(Progress),
    Done {
        /// Where the result is fetched.
        result: String,
    },
    Failed(ErrorBody),
    Cancelled {},
}

/// How far work has come.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub(crate) struct Progress {
    /// Steps that are done.
    done: usize,
    /// Steps in all; null, since it is not known before.
    total: Option<usize>,
    /// The step in hand.
    says: String,
}

/// One piece of work.
#[derive(Debug)]
pub(crate) struct Work {
    key: WorkKey,
    /// Requests for it that have not been taken back.
    requesters: AtomicUsize,
    /// Clients that follow its events.
    followers: AtomicUsize,
    /// How often one of them has left: each departure starts a grace period of its own.
    departures: AtomicUsize,
    /// How long it goes on without any.
    grace: Duration,
    cancelled: AtomicBool,
    steps: AtomicUsize,
    state: watch::Sender<WorkState>,
}

impl Work {
    /// What it came to so far.
    pub(crate) fn state(&self) -> WorkState {
        self.state.borrow().clone()
    }

    /// Restarts the grace period, for a client that may follow it soon or poll again.
    pub(crate) fn touch(self: &Arc<Self>) {
        drop(self.follow());
    }

    /// What it comes to, as it changes, for as long as the guard is kept.
    pub(crate) fn follow(self: &Arc<Self>) -> (watch::Receiver<WorkState>, Follower) {
        self.followers.fetch_add(1, Ordering::SeqCst);
        (self.state.subscribe(), Follower(Arc::clone(self)))
    }

    /// Whether it is no longer wanted.
    pub(crate) fn is_cancelled(&self) -> bool {
        self.cancelled.load(Ordering::SeqCst)
    }

    /// Its progress, said in these words.
    pub(crate) fn progress<'a>(&'a self, words: Words<'a>) -> WorkProgress<'a> {
        WorkProgress { work: self, words }
    }

    fn cancel(&self) {
        self.cancelled.store(true, Ordering::SeqCst);
        self.state.send_if_modified(|state| {
            let is_open = !state.is_finished();
            if is_open {
                *state = WorkState::Cancelled;
            }
            is_open
        });
    }

    /// Sets the result, unless the work has been cancelled.
    pub(crate) fn finish(&self, result: Result<Value, ApiError>) {
        self.state.send_if_modified(|state| {
            let is_open = !state.is_finished();
            if is_open {
                *state = match result {
                    Ok(answer) => WorkState::Done(Arc::new(answer)),
                    Err(error) => WorkState::Failed(Arc::new(error)),
                };
            }
            is_open
        });
    }
}

/// A client that follows work. Work without followers is cancelled after the grace period.
#[derive(Debug)]
pub(crate) struct Follower(Arc<Work>);

impl Drop for Follower {
    fn drop(&mut self) {
        let left = self.0.followers.fetch_sub(1, Ordering::SeqCst) - 1;
        if left > 0 || self.0.state.borrow().is_finished() {
            return;
        }
        // Counted by the last alone: of two who leave at once one is that.
        let leaving = self.0.departures.fetch_add(1, Ordering::SeqCst) + 1;
        let work = Arc::clone(&self.0);
        tokio::spawn(async move {
            tokio::time::sleep(work.grace).await;
            let is_last = work.departures.load(Ordering::SeqCst) == leaving;
            if is_last && work.followers.load(Ordering::SeqCst) == 0 {
                work.cancel();
            }
        });
    }
}

/// The progress of work on a job, whose words it says the steps in.
pub(crate) struct WorkProgress<'a> {
    work: &'a Work,
    words: Words<'a>,
}

impl progress::Progress for WorkProgress<'_> {
    fn is_cancelled(&self) -> bool {
        self.work.is_cancelled()
    }

    fn step(&self, step: Step) {
        let done = self.work.steps.fetch_add(1, Ordering::SeqCst);
        self.work.state.send_if_modified(|state| {
            let is_open = !state.is_finished();
            if is_open {
                let says = self.words.progress(&step).into();
                *state = WorkState::Doing { done, says };
            }
            is_open
        });
    }
}

/// All work of a server.
#[derive(Debug)]
pub(crate) struct WorkQueue {
    /// How long work goes on while nobody follows it.
    grace: Duration,
    /// The last number given, and the work by its number.
    works: Mutex<(u64, BTreeMap<u64, Arc<Work>>)>,
}

impl WorkQueue {
    /// An empty queue. Numbers begin at a random one, so that a page that outlives the server is never given
    /// the work of another; below 2^52, so that they stay exact in JavaScript.
    pub(crate) fn new(grace: Duration) -> Result<Self, ApiError> {
        let last = random::number()? >> 12;
        Ok(Self {
            grace,
            works: Mutex::new((last, BTreeMap::new())),
        })
    }

    /// Work on a key, and the work itself where it has to be begun: what is being done already is
    /// joined. Work of the same kind on an older text is no longer wanted. Who asked has the
    /// grace to begin to follow.
    pub(crate) fn start(&self, key: WorkKey) -> (u64, Option<Arc<Work>>) {
        let mut works = self.lock();
        let (last, all) = &mut *works;
        let running = |work: &Work| !work.state.borrow().is_finished();
        let same = all
            .iter()
            .find(|(_, work)| work.key == key && running(work));
        if let Some((id, work)) = same {
            work.requesters.fetch_add(1, Ordering::SeqCst);
            work.touch();
            return (*id, None);
        }
        let is_older = |work: &&Arc<Work>| {
            let other = &work.key;
            let same_kind = other.job == key.job && other.request.what == key.request.what;
            same_kind && other.etag != key.etag
        };
        all.values().filter(is_older).for_each(|work| work.cancel());
        let work = Arc::new(Work {
            key,
            requesters: AtomicUsize::new(1),
            followers: AtomicUsize::new(0),
            departures: AtomicUsize::new(0),
            grace: self.grace,
            cancelled: AtomicBool::new(false),
            steps: AtomicUsize::new(0),
            state: watch::Sender::new(WorkState::Waiting),
        });
        *last += 1;
        all.insert(*last, Arc::clone(&work));
        while all.len() > MAX_REMEMBERED
            && let Some(oldest) = all.iter().find(|(_, work)| !running(work))
        {
            let oldest = *oldest.0;
            all.remove(&oldest);
        }
        work.touch();
        (*last, Some(work))
    }

    /// Work by its number.
    pub(crate) fn of(&self, id: u64) -> Result<Arc<Work>, ApiError> {
        let found = self.lock().1.get(&id).cloned();
        found.ok_or_else(|| ApiError::not_found(format!("There is no work {id} any more.")))
    }

    /// Drops what is being done for a job.
    pub(crate) fn cancel_job(&self, job: &str) {
        self.cancel_where(|work| work.key.job == job);
    }

    /// Takes back one request for work; with the last of them it is cancelled.
    pub(crate) fn leave(&self, id: u64) -> Result<(), ApiError> {
        let work = self.of(id)?;
        let less = |requesters: usize| requesters.checked_sub(1);
        let before = work
            .requesters
            .fetch_update(Ordering::SeqCst, Ordering::SeqCst, less);
        if before.unwrap_or(0) <= 1 {
            work.cancel();
        }
        Ok(())
    }

    /// Drops everything.
    pub(crate) fn cancel_all(&self) {
        self.cancel_where(|_| true);
    }

    fn cancel_where(&self, wanted: impl Fn(&Work) -> bool) {
        let works = self.lock();
        works
            .1
            .values()
            .filter(|work| wanted(work))
            .for_each(|work| work.cancel());
    }

    fn lock(&self) -> MutexGuard<'_, (u64, BTreeMap<u64, Arc<Work>>)> {
        self.works.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a test may panic")]
mod tests {
    use super::*;

    fn key(job: usize) -> WorkKey {
        WorkKey {
            job: format!("box {job}"),
            etag: "1".to_owned(),
            request: WorkRequest {
                what: WorkKind::Remedies,
                options: WorkOptions::default(),
            },
        }
    }

    fn in_time<T>(does: impl Future<Output = T>) -> T {
        let mut runtime = tokio::runtime::Builder::new_current_thread();
        runtime.enable_time().build().unwrap().block_on(does)
    }

    /// Work with the shortest grace.
    fn work() -> Arc<Work> {
        let queue = WorkQueue::new(Duration::from_millis(1)).unwrap();
        queue.start(key(0)).1.unwrap()
    }

    /// Waits until work is cancelled.
    async fn dropped(work: &Work) {
        let mut state = work.state.subscribe();
        let state = state.wait_for(WorkState::is_finished).await.unwrap();
        assert!(matches!(*state, WorkState::Cancelled), "{state:?}");
    }

    #[test]
    fn work_whose_last_follower_has_gone_is_dropped_after_a_while() {
        in_time(async {
            let work = work();
            drop(work.follow());
            dropped(&work).await;
        });
    }

    #[test]
    fn work_that_nobody_ever_followed_is_dropped_after_a_while() {
        in_time(async { dropped(&work()).await });
    }

    /// A page that is read again, and one that still follows.
    #[test]
    fn work_that_somebody_follows_goes_on() {
        in_time(async {
            let work = work();
            drop(work.follow());
            let _follower = work.follow();
            tokio::time::sleep(work.grace * 20).await;
            let state = work.state();
            assert!(matches!(state, WorkState::Waiting), "{state:?}");
        });
    }

    #[test]
    fn only_work_that_is_over_is_forgotten() {
        in_time(async {
            let works = WorkQueue::new(GRACE).unwrap();
            let (first, running) = works.start(key(0));
            let (second, over) = works.start(key(1));
            over.unwrap().cancel();
            for job in 2..2 + MAX_REMEMBERED {
                works.start(key(job));
            }
            assert!(works.of(second).is_err());
            assert!(works.of(first).is_ok());
            let state = running.unwrap().state();
            assert!(matches!(state, WorkState::Waiting), "{state:?}");
        });
    }

    #[test]
    fn no_two_servers_give_the_same_numbers() {
        in_time(async {
            let number = || WorkQueue::new(GRACE).unwrap().start(key(0)).0;
            let (one, other) = (number(), number());
            assert_ne!(one, other);
            assert!(one.max(other) < 1 << 53, "exact in JavaScript");
        });
    }
}
