//! What is made ready before the first request: the folder, the records, the guard.

use super::error::ApiError;
use super::guard::RequestGuard;
use super::jobs::Jobs;
use super::plans::Plans;
use super::records::Records;
use super::state::AppState;
use super::work::{GRACE, WorkQueue};
use crate::fault::Failure;
use brimful_text::{Language, say};
use std::fs;
use std::net::SocketAddr;
use std::path::Path;
use std::sync::{Arc, RwLock};
use tokio::sync::{Semaphore, broadcast, watch};

/// What the terminal shows when the server starts.
pub(super) const WORDS: Language = Language::English;

/// How the server is started.
#[derive(Debug)]
pub(crate) struct Options {
    /// The port; 0 for any that is free.
    pub(crate) port: u16,
    /// Whether others on the workshop's network are let in by a code.
    pub(crate) share: bool,
}

/// What a refusal is for the command.
pub(super) fn refused(refusal: ApiError) -> Failure {
    Failure::own(refusal.into_fault())
}

/// What requests share, over a folder that is there.
pub(super) fn open(
    folder: &Path,
    address: SocketAddr,
    options: &Options,
    shutdown: watch::Receiver<bool>,
) -> Result<AppState, Failure> {
    let jobs = Jobs::new(folder.to_owned());
    fs::create_dir_all(jobs.hidden()).map_err(|fault| {
        Failure::call(
            say!(
                WORDS,
                "Nothing can be written into `{folder}`: {fault}.",
                folder = WORDS.given(&folder.display().to_string()),
                fault = WORDS.given(&fault.to_string())
            ),
            say!(WORDS, "Give a folder of your own."),
        )
    })?;
    jobs.sweep();
    Ok(AppState {
        records: Records::open(&jobs.hidden().join("records.sqlite")).map_err(refused)?,
        plans: Plans::new(folder.to_owned()),
        work: WorkQueue::new(GRACE).map_err(refused)?,
        papers: RwLock::new(()),
        work_slots: Semaphore::new(1),
        changes: broadcast::Sender::new(256),
        guard: Arc::new(RequestGuard::new(address, options.share).map_err(refused)?),
        shutdown,
        jobs,
    })
}
