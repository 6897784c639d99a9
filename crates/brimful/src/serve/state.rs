//! What all requests share.

use super::guard::RequestGuard;
use super::jobs::Jobs;
use super::plans::Plans;
use super::records::Records;
use super::work::WorkQueue;
use std::sync::{Arc, RwLock};
use tokio::sync::{Semaphore, broadcast, watch};

/// A job's text has changed.
#[derive(Clone, Debug)]
pub(super) struct Change {
    pub(super) job: String,
    pub(super) etag: String,
    /// The window that changed it; empty for the disk.
    pub(super) by: String,
}

/// Everything that requests share.
#[derive(Debug)]
pub(super) struct AppState {
    pub(super) jobs: Jobs,
    pub(super) records: Records,
    pub(super) plans: Plans,
    pub(super) work: WorkQueue,
    /// Held while a pack is put in its place, and shared by those who read one.
    pub(super) papers: RwLock<()>,
    /// Long work at once.
    pub(super) work_slots: Semaphore,
    pub(super) changes: broadcast::Sender<Change>,
    pub(super) guard: Arc<RequestGuard>,
    /// Turns true when the server shuts down.
    pub(super) shutdown: watch::Receiver<bool>,
}

impl AppState {
    /// Notifies open windows that a job has changed.
    pub(super) fn notify(&self, job: &str, etag: &str, by: &str) {
        // Sending fails where no window is open.
        let _ = self.changes.send(Change {
            job: job.to_owned(),
            etag: etag.to_owned(),
            by: by.to_owned(),
        });
    }
}
