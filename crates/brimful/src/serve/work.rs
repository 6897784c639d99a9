//! Long work: one row of jobs to be worked out whole, with progress, and cancelled as soon as nobody
//! wants it. Who asks for what is being done already joins in. The newest edit wins: work on an older
//! text of the same job is dropped.

use super::door::random_number;
use super::planning::Units;
use super::refusal::Refusal;
use brimful_tank::watch::Watch;
use serde::Deserialize;
use serde_json::{Value, json};
use std::collections::BTreeMap;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::time::Duration;
use tokio::sync::watch;

/// Work that is remembered; the oldest that is over goes.
const REMEMBERED: usize = 40;

/// How long work goes on while nobody follows it: time to read a page anew, or for a phone to find its
/// network again.
pub(super) const GRACE: Duration = Duration::from_secs(8);

/// What is asked for.
#[derive(Clone, Copy, Debug, Deserialize, PartialEq, Eq)]
#[serde(deny_unknown_fields)]
pub(crate) struct Wanted {
    pub(crate) what: What,
    #[serde(default)]
    pub(crate) options: Options,
}

#[derive(Clone, Copy, Debug, Deserialize, PartialEq, Eq)]
#[serde(rename_all = "snake_case")]
pub(crate) enum What {
    Whole,
    Remedies,
    Pack,
    Fit,
}

#[derive(Clone, Copy, Debug, Default, Deserialize, PartialEq, Eq)]
#[serde(deny_unknown_fields)]
pub(crate) struct Options {
    /// `letter` for Letter, else A4.
    #[serde(default)]
    pub(crate) paper: Option<Paper>,
    /// What sentences of the answer speak in; papers keep to the job's own.
    #[serde(default)]
    pub(crate) units: Option<Units>,
}

#[derive(Clone, Copy, Debug, Deserialize, PartialEq, Eq)]
#[serde(rename_all = "snake_case")]
pub(crate) enum Paper {
    A4,
    Letter,
}

/// What is to be done, and to which text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Order {
    /// Name of the job.
    pub(crate) job: String,
    /// The text of it.
    pub(crate) etag: String,
    pub(crate) wanted: Wanted,
}

/// How far work has come.
#[derive(Clone, Debug)]
pub(crate) enum State {
    Waiting,
    Doing { done: usize, says: String },
    Done(Arc<Value>),
    Failed(Arc<Refusal>),
    Cancelled,
}

impl State {
    /// Whether nothing more will come.
    pub(crate) fn is_over(&self) -> bool {
        matches!(self, Self::Done(_) | Self::Failed(_) | Self::Cancelled)
    }

    /// Name and data of the event that tells it.
    pub(crate) fn event(&self, id: u64) -> (&'static str, Value) {
        match self {
            Self::Waiting => (
                "progress",
                json!({ "done": 0, "total": null, "says": "waiting" }),
            ),
            Self::Doing { done, says } => (
                "progress",
                json!({ "done": done, "total": null, "says": says }),
            ),
            Self::Done(_) => (
                "done",
                json!({ "result": format!("/api/work/{id}/result") }),
            ),
            Self::Failed(why) => ("failed", why.body()),
            Self::Cancelled => ("cancelled", json!({})),
        }
    }
}

/// One piece of work.
#[derive(Debug)]
pub(crate) struct Work {
    order: Order,
    /// Those who asked for it and have not left.
    holders: AtomicUsize,
    /// Those who follow its events.
    followers: AtomicUsize,
    /// How often one of them has left: who comes and goes meanwhile has a grace of his own.
    leavings: AtomicUsize,
    /// How long it goes on without any.
    grace: Duration,
    cancelled: AtomicBool,
    steps: AtomicUsize,
    state: watch::Sender<State>,
}

impl Work {
    /// What it came to so far.
    pub(crate) fn state(&self) -> State {
        self.state.borrow().clone()
    }

    /// Shows that somebody wants it, who may follow it soon or look in again.
    pub(crate) fn look_in(self: &Arc<Self>) {
        drop(self.follow());
    }

    /// What it comes to, as it changes, for as long as the guard is kept.
    pub(crate) fn follow(self: &Arc<Self>) -> (watch::Receiver<State>, Follower) {
        self.followers.fetch_add(1, Ordering::SeqCst);
        (self.state.subscribe(), Follower(Arc::clone(self)))
    }

    fn cancel(&self) {
        self.cancelled.store(true, Ordering::SeqCst);
        self.state.send_if_modified(|state| {
            let waited = !state.is_over();
            if waited {
                *state = State::Cancelled;
            }
            waited
        });
    }

    /// Says what came of it, unless it was cancelled meanwhile.
    pub(crate) fn finish(&self, result: Result<Value, Refusal>) {
        self.state.send_if_modified(|state| {
            let waited = !state.is_over();
            if waited {
                *state = match result {
                    Ok(answer) => State::Done(Arc::new(answer)),
                    Err(refusal) => State::Failed(Arc::new(refusal)),
                };
            }
            waited
        });
    }
}

/// Somebody who follows work. Work that nobody follows any more is given up after a while.
#[derive(Debug)]
pub(crate) struct Follower(Arc<Work>);

impl Drop for Follower {
    fn drop(&mut self) {
        let left = self.0.followers.fetch_sub(1, Ordering::SeqCst) - 1;
        if left > 0 || self.0.state.borrow().is_over() {
            return;
        }
        // Counted by the last alone: of two who leave at once one is that.
        let leaving = self.0.leavings.fetch_add(1, Ordering::SeqCst) + 1;
        let work = Arc::clone(&self.0);
        tokio::spawn(async move {
            tokio::time::sleep(work.grace).await;
            let is_last = work.leavings.load(Ordering::SeqCst) == leaving;
            if is_last && work.followers.load(Ordering::SeqCst) == 0 {
                work.cancel();
            }
        });
    }
}

impl Watch for Work {
    fn is_cancelled(&self) -> bool {
        self.cancelled.load(Ordering::SeqCst)
    }

    fn step(&self, doing: &str) {
        let done = self.steps.fetch_add(1, Ordering::SeqCst);
        self.state.send_if_modified(|state| {
            let waited = !state.is_over();
            if waited {
                let says = doing.to_owned();
                *state = State::Doing { done, says };
            }
            waited
        });
    }
}

/// All work of a server.
#[derive(Debug)]
pub(crate) struct Works {
    /// How long work goes on while nobody follows it.
    grace: Duration,
    /// The last number given, and the work by its number.
    works: Mutex<(u64, BTreeMap<u64, Arc<Work>>)>,
}

impl Works {
    /// None yet. Numbers begin anywhere: a page that outlives the server and asks for work of the one
    /// before must not be given somebody else's. Below 2^52, so that they stay exact in JavaScript.
    pub(crate) fn new(grace: Duration) -> Result<Self, Refusal> {
        let last = random_number()? >> 12;
        Ok(Self {
            grace,
            works: Mutex::new((last, BTreeMap::new())),
        })
    }

    /// Work on an order, and the work itself where it has to be begun: what is being done already is
    /// joined. Work of the same kind on an older text is no longer wanted. Whoever ordered has the
    /// grace to begin to follow.
    pub(crate) fn begin(&self, order: Order) -> (u64, Option<Arc<Work>>) {
        let mut works = self.lock();
        let (last, all) = &mut *works;
        let running = |work: &Work| !work.state.borrow().is_over();
        let same = all
            .iter()
            .find(|(_, work)| work.order == order && running(work));
        if let Some((id, work)) = same {
            work.holders.fetch_add(1, Ordering::SeqCst);
            work.look_in();
            return (*id, None);
        }
        let is_older = |work: &&Arc<Work>| {
            let other = &work.order;
            let same_kind = other.job == order.job && other.wanted.what == order.wanted.what;
            same_kind && other.etag != order.etag
        };
        all.values().filter(is_older).for_each(|work| work.cancel());
        let work = Arc::new(Work {
            order,
            holders: AtomicUsize::new(1),
            followers: AtomicUsize::new(0),
            leavings: AtomicUsize::new(0),
            grace: self.grace,
            cancelled: AtomicBool::new(false),
            steps: AtomicUsize::new(0),
            state: watch::Sender::new(State::Waiting),
        });
        *last += 1;
        all.insert(*last, Arc::clone(&work));
        while all.len() > REMEMBERED
            && let Some(oldest) = all.iter().find(|(_, work)| !running(work))
        {
            let oldest = *oldest.0;
            all.remove(&oldest);
        }
        work.look_in();
        (*last, Some(work))
    }

    /// Work by its number.
    pub(crate) fn of(&self, id: u64) -> Result<Arc<Work>, Refusal> {
        let found = self.lock().1.get(&id).cloned();
        found.ok_or_else(|| Refusal::not_found(format!("There is no work {id} any more.")))
    }

    /// Drops what is being done for a job.
    pub(crate) fn cancel_job(&self, job: &str) {
        self.cancel_where(|work| work.order.job == job);
    }

    /// One of those who asked for work wants it no longer; with the last of them it is dropped.
    pub(crate) fn leave(&self, id: u64) -> Result<(), Refusal> {
        let work = self.of(id)?;
        let less = |holders: usize| holders.checked_sub(1);
        let before = work
            .holders
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

    fn order(job: usize) -> Order {
        Order {
            job: format!("box {job}"),
            etag: "1".to_owned(),
            wanted: Wanted {
                what: What::Remedies,
                options: Options::default(),
            },
        }
    }

    fn in_time<T>(does: impl Future<Output = T>) -> T {
        let mut runtime = tokio::runtime::Builder::new_current_thread();
        runtime.enable_time().build().unwrap().block_on(does)
    }

    /// What the work is at after so many times its grace.
    fn after<T>(graces: u32, followed: impl FnOnce(&Arc<Work>) -> T) -> State {
        let grace = Duration::from_millis(40);
        in_time(async {
            let work = Works::new(grace).unwrap().begin(order(0)).1.unwrap();
            let _kept = followed(&work);
            let mut state = work.state.subscribe();
            // Long enough on a busy machine, and over at once where it is over.
            let _ = tokio::time::timeout(grace * graces, state.wait_for(State::is_over)).await;
            work.state()
        })
    }

    #[test]
    fn work_whose_last_follower_has_gone_is_dropped_after_a_while() {
        let state = after(100, |work| drop(work.follow()));
        assert!(matches!(state, State::Cancelled), "{state:?}");
    }

    #[test]
    fn work_that_nobody_ever_followed_is_dropped_after_a_while() {
        let state = after(100, |_| ());
        assert!(matches!(state, State::Cancelled), "{state:?}");
    }

    /// A page that is read anew, and one that still follows.
    #[test]
    fn work_that_somebody_follows_goes_on() {
        let state = after(5, |work| {
            drop(work.follow());
            work.follow()
        });
        assert!(matches!(state, State::Waiting), "{state:?}");
    }

    #[test]
    fn only_work_that_is_over_is_forgotten() {
        in_time(async {
            let works = Works::new(GRACE).unwrap();
            let (first, running) = works.begin(order(0));
            let (second, over) = works.begin(order(1));
            over.unwrap().cancel();
            for job in 2..2 + REMEMBERED {
                works.begin(order(job));
            }
            assert!(works.of(second).is_err());
            assert!(works.of(first).is_ok());
            let state = running.unwrap().state();
            assert!(matches!(state, State::Waiting), "{state:?}");
        });
    }

    #[test]
    fn no_two_servers_give_the_same_numbers() {
        in_time(async {
            let number = || Works::new(GRACE).unwrap().begin(order(0)).0;
            let (one, other) = (number(), number());
            assert_ne!(one, other);
            assert!(one.max(other) < 1 << 53, "exact in JavaScript");
        });
    }
}
