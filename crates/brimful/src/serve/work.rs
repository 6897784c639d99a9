//! Long work: one row of jobs to be worked out whole, with progress, and cancelled as soon as nobody
//! wants it. The newest edit wins: work on an older text of the same job is dropped.

use super::refusal::Refusal;
use brimful_tank::watch::Watch;
use serde_json::{Value, json};
use std::collections::BTreeMap;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use tokio::sync::watch;

/// Finished work that is remembered; older goes.
const REMEMBERED: usize = 40;

/// How far work has come.
#[derive(Clone, Debug)]
pub(crate) enum State {
    Waiting,
    Doing { done: usize, says: String },
    Done(Arc<Value>),
    Failed(Arc<Value>),
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
            Self::Failed(why) => ("failed", (**why).clone()),
            Self::Cancelled => ("cancelled", json!({})),
        }
    }
}

/// One piece of work.
#[derive(Debug)]
pub(crate) struct Work {
    job: String,
    what: &'static str,
    cancelled: AtomicBool,
    steps: AtomicUsize,
    state: watch::Sender<State>,
}

impl Work {
    /// What it comes to, as it changes.
    pub(crate) fn follow(&self) -> watch::Receiver<State> {
        self.state.subscribe()
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
                    Err(refusal) => State::Failed(Arc::new(refusal.body())),
                };
            }
            waited
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
#[derive(Debug, Default)]
pub(crate) struct Works {
    works: Mutex<(u64, BTreeMap<u64, Arc<Work>>)>,
}

impl Works {
    /// A new piece of work; other work of the same kind on the same job is no longer wanted.
    pub(crate) fn begin(&self, job: &str, what: &'static str) -> (u64, Arc<Work>) {
        self.cancel_where(|work| work.job == job && work.what == what);
        let work = Arc::new(Work {
            job: job.to_owned(),
            what,
            cancelled: AtomicBool::new(false),
            steps: AtomicUsize::new(0),
            state: watch::Sender::new(State::Waiting),
        });
        let mut works = self.lock();
        let (last, all) = &mut *works;
        *last += 1;
        all.insert(*last, Arc::clone(&work));
        while all.len() > REMEMBERED {
            if let Some((_, old)) = all.pop_first() {
                old.cancel();
            }
        }
        (*last, work)
    }

    /// Work by its number.
    pub(crate) fn of(&self, id: u64) -> Result<Arc<Work>, Refusal> {
        let found = self.lock().1.get(&id).cloned();
        found.ok_or_else(|| Refusal::not_found(format!("There is no work {id} any more.")))
    }

    /// Drops what is being done for a job.
    pub(crate) fn cancel_job(&self, job: &str) {
        self.cancel_where(|work| work.job == job);
    }

    /// Drops one piece of work.
    pub(crate) fn cancel(&self, id: u64) -> Result<(), Refusal> {
        self.of(id).map(|work| work.cancel())
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
