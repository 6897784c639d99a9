//! `brimful serve`: the page and its server, over the same calls as the command.
//!
//! A folder of jobs is what is served: their files are the person's own ([`jobs`], with kept
//! [`versions`], changed key by key by [`edit`]), worked out on demand ([`planning`]), long work in
//! [`work`], records of builds in [`records`]. [`door`] looks at every request before the routes do.
//! Beside the jobs a hidden folder `.brimful` holds versions, records and papers.

mod answer;
mod choices;
mod code;
mod connections;
mod disk;
mod door;
pub(crate) mod edit;
mod ending;
mod jobs;
mod openapi;
mod opening;
mod page;
mod planning;
mod records;
mod refusal;
mod routes;
mod scans;
mod share;
mod shelf;
mod versions;
mod work;

use crate::fault::{Failure, Fault};
use crate::output;
use connections::Connections;
use door::Door;
use jobs::Jobs;
use planning::Planned;
use records::Records;
pub(crate) use refusal::Refusal;
use std::fs;
use std::net::{IpAddr, Ipv4Addr, SocketAddr};
use std::path::Path;
use std::sync::{Arc, RwLock};
use std::time::Duration;
use tokio::net::TcpListener;
use tokio::sync::{Semaphore, broadcast, watch};
use work::Works;

/// How long open streams are waited for at the end.
const LAST_WAIT: Duration = Duration::from_secs(2);

/// How the server is started.
#[derive(Debug)]
pub(crate) struct Options {
    /// The port; 0 for any that is free.
    pub(crate) port: u16,
    /// Whether others on the workshop's network are let in by a code.
    pub(crate) share: bool,
}

/// A job's text has changed.
#[derive(Clone, Debug)]
struct Change {
    job: String,
    etag: String,
    /// The window that changed it; empty for the disk.
    by: String,
}

/// Everything that requests share.
#[derive(Debug)]
struct Shop {
    jobs: Jobs,
    records: Records,
    planned: Planned,
    works: Works,
    /// Held while a pack is put in its place, and shared by those who read one.
    papers: RwLock<()>,
    /// Heavy work at once.
    heavy: Semaphore,
    changes: broadcast::Sender<Change>,
    door: Door,
    /// Turns true when the server is to end.
    ending: watch::Receiver<bool>,
}

/// Serves a folder of jobs until it is told to end.
pub(crate) fn serve(folder: &Path, options: &Options) -> Result<(), Failure> {
    let about = fs::metadata(folder).map_err(|fault| {
        Failure::call(
            format!(
                "The folder `{}` cannot be looked into: {fault}.",
                folder.display()
            ),
            "Give a folder of jobs, or make one first.",
        )
    })?;
    if !about.is_dir() {
        return Err(Failure::call(
            format!("`{}` is a file, not a folder of jobs.", folder.display()),
            "Give the folder it is in.",
        ));
    }
    let runtime = tokio::runtime::Builder::new_multi_thread()
        .worker_threads(2)
        .enable_all()
        .build()
        .map_err(|fault| own("The server cannot start", &fault))?;
    let done = runtime.block_on(serving(folder, options));
    // Work that was cancelled may still be on its way to the next place where it looks.
    runtime.shutdown_timeout(LAST_WAIT);
    done
}

async fn serving(folder: &Path, options: &Options) -> Result<(), Failure> {
    let host = if options.share {
        share::own_address()
    } else {
        IpAddr::V4(Ipv4Addr::LOCALHOST)
    };
    // Shared, it listens on all, so that the machine itself still comes in by loopback.
    let bound = if options.share {
        IpAddr::V4(Ipv4Addr::UNSPECIFIED)
    } else {
        host
    };
    let listener = TcpListener::bind((bound, options.port))
        .await
        .map_err(|fault| {
            Failure::call(
                format!("Port {} cannot be had: {fault}.", options.port),
                "Give another with `--port`, or end what holds it.",
            )
        })?;
    let port = listener
        .local_addr()
        .map_err(|fault| own("The server has no address", &fault))?
        .port();
    let address = SocketAddr::new(host, port);
    let (end, ending) = watch::channel(false);
    let shop = Arc::new(opening::open(folder, address, options, ending)?);
    output::text(&share::greeting(
        address,
        shop.door.code().as_deref(),
        page::is_built(),
        &shop.jobs.left_out().map_err(refused)?,
    ))?;
    tokio::spawn(disk::look_at_the_disk(Arc::clone(&shop)));
    let connections = Connections::new();
    tokio::select! {
        () = connections.accept(listener, routes::router(&shop)) => {}
        () = ending::asked_to_end() => {}
    }
    // Streams end on this; whoever holds on regardless is left behind.
    let _ = end.send(true);
    shop.works.cancel_all();
    let _ = tokio::time::timeout(LAST_WAIT, connections.all_gone()).await;
    Ok(())
}

fn refused(refusal: Refusal) -> Failure {
    Failure::own(refusal.into_fault())
}

fn own(what: &str, fault: &dyn std::fmt::Display) -> Failure {
    Failure::own(Fault::new(format!("{what}: {fault}."), "Start it again."))
}

impl Shop {
    /// Tells open windows that a job has changed.
    fn tell(&self, job: &str, etag: &str, by: &str) {
        // Where no window is open nobody needs to know.
        let _ = self.changes.send(Change {
            job: job.to_owned(),
            etag: etag.to_owned(),
            by: by.to_owned(),
        });
    }
}
