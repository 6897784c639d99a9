//! What is made ready before the first request: the folder, the records, the door.

use super::door::Door;
use super::jobs::Jobs;
use super::planning::Planned;
use super::records::Records;
use super::work::{GRACE, Works};
use super::{Options, Shop, refused};
use crate::fault::Failure;
use std::fs;
use std::net::SocketAddr;
use std::path::Path;
use std::sync::RwLock;
use tokio::sync::{Semaphore, broadcast, watch};

/// What requests share, over a folder that is there.
pub(super) fn open(
    folder: &Path,
    address: SocketAddr,
    options: &Options,
    ending: watch::Receiver<bool>,
) -> Result<Shop, Failure> {
    let jobs = Jobs::new(folder.to_owned());
    fs::create_dir_all(jobs.hidden()).map_err(|fault| {
        Failure::call(
            format!(
                "Nothing can be written into `{}`: {fault}.",
                folder.display()
            ),
            "Give a folder of your own.",
        )
    })?;
    jobs.sweep();
    Ok(Shop {
        records: Records::open(&jobs.hidden().join("records.sqlite")).map_err(refused)?,
        planned: Planned::new(folder.to_owned()),
        works: Works::new(GRACE).map_err(refused)?,
        papers: RwLock::new(()),
        heavy: Semaphore::new(1),
        changes: broadcast::Sender::new(256),
        door: Door::new(address, options.share).map_err(refused)?,
        ending,
        jobs,
    })
}
