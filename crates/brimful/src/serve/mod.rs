//! `brimful serve`: the page and its server, over the same calls as the command.
//!
//! A folder of jobs is what is served: their files are the person's own ([`jobs`], with kept
//! [`versions`], changed key by key by [`edit`]), worked out on demand ([`planning`]), long work in
//! [`work`], records of builds in [`records`]. [`door`] looks at every request before the routes do.
//! Beside the jobs a hidden folder `.brimful` holds versions, records and papers.

mod answer;
mod choices;
mod door;
pub(crate) mod edit;
mod jobs;
mod openapi;
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
use door::Door;
use hyper_util::rt::{TokioExecutor, TokioIo, TokioTimer};
use hyper_util::server::conn::auto::Builder;
use jobs::Jobs;
use planning::Planned;
use records::Records;
pub(crate) use refusal::Refusal;
use std::collections::BTreeMap;
use std::fs;
use std::net::{IpAddr, Ipv4Addr, SocketAddr};
use std::path::Path;
use std::sync::{Arc, RwLock};
use std::time::Duration;
use tokio::net::{TcpListener, TcpStream};
use tokio::sync::{Semaphore, broadcast, watch};
use tower::ServiceExt;
use work::{GRACE, Works};

/// Connections at once: fifty phones with a stream and a request each, and some.
const MOST_CONNECTIONS: usize = 512;
/// How long a sender may take over the head of a request.
const HEAD_PATIENCE: Duration = Duration::from_secs(10);
/// How long open streams are waited for at the end.
const LAST_WAIT: Duration = Duration::from_secs(2);
/// How often the folder is looked at for changes from elsewhere.
const LOOK_EVERY: Duration = Duration::from_millis(700);

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
    let shop = Arc::new(open(folder, address, options, ending)?);
    output::text(&share::greeting(
        address,
        shop.door.code().as_deref(),
        page::is_built(),
        &shop.jobs.left_out().map_err(refused)?,
    ))?;
    tokio::spawn(look_at_the_disk(Arc::clone(&shop)));
    tokio::select! {
        () = accept(listener, Arc::clone(&shop)) => {}
        () = asked_to_end() => {}
    }
    // Streams end on this; whoever holds on regardless is left behind.
    let _ = end.send(true);
    shop.works.cancel_all();
    let all = u32::try_from(MOST_CONNECTIONS).unwrap_or(u32::MAX);
    let _ = tokio::time::timeout(LAST_WAIT, CONNECTIONS.acquire_many(all)).await;
    Ok(())
}

/// Places for connections; all are free when nobody is left.
static CONNECTIONS: Semaphore = Semaphore::const_new(MOST_CONNECTIONS);

fn open(
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

fn refused(refusal: Refusal) -> Failure {
    Failure::own(refusal.into_fault())
}

fn own(what: &str, fault: &dyn std::fmt::Display) -> Failure {
    Failure::own(Fault::new(format!("{what}: {fault}."), "Start it again."))
}

async fn accept(listener: TcpListener, shop: Arc<Shop>) {
    let router = routes::router(&shop);
    loop {
        let Ok((stream, from)) = listener.accept().await else {
            // Too many open files, or a connection that is gone again: others come.
            tokio::time::sleep(Duration::from_millis(20)).await;
            continue;
        };
        let Ok(place) = CONNECTIONS.try_acquire() else {
            continue;
        };
        let router = router.clone();
        tokio::spawn(async move {
            let _place = place;
            converse(stream, from, router).await;
        });
    }
}

/// Answers the requests of one connection.
async fn converse(stream: TcpStream, from: SocketAddr, router: axum::Router) {
    let service = hyper::service::service_fn(move |mut request: hyper::Request<_>| {
        request
            .extensions_mut()
            .insert(axum::extract::ConnectInfo(from));
        router.clone().oneshot(request)
    });
    let mut builder = Builder::new(TokioExecutor::new()).http1_only();
    builder
        .http1()
        .timer(TokioTimer::new())
        .header_read_timeout(HEAD_PATIENCE);
    // A connection that breaks off is the other side's affair.
    let _ = builder
        .serve_connection(TokioIo::new(stream), service)
        .await;
}

/// Tells open windows of jobs that were changed on the disk, taken away or put back.
async fn look_at_the_disk(shop: Arc<Shop>) {
    let mut seen: BTreeMap<String, (f64, String)> = BTreeMap::new();
    let mut is_first = true;
    let mut ending = shop.ending.clone();
    loop {
        let look = {
            let shop = Arc::clone(&shop);
            tokio::task::spawn_blocking(move || shop.jobs.list())
        };
        if let Ok(Ok(jobs)) = look.await {
            seen.retain(|name, _| {
                let is_there = jobs.iter().any(|job| job.name == *name);
                if !is_there {
                    shop.tell(name, "", "");
                }
                is_there
            });
            for job in jobs {
                let known = seen.get(&job.name);
                if known.is_some_and(|(changed, _)| *changed == job.changed_s) {
                    continue;
                }
                let Ok(text) = shop.jobs.read(&job.name) else {
                    continue;
                };
                if !is_first && known.is_none_or(|(_, etag)| *etag != text.etag) {
                    shop.tell(&job.name, &text.etag, "");
                }
                seen.insert(job.name, (job.changed_s, text.etag));
            }
            is_first = false;
        }
        tokio::select! {
            () = tokio::time::sleep(LOOK_EVERY) => {}
            _ = ending.wait_for(|end| *end) => return,
        }
    }
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

async fn asked_to_end() {
    let interrupt = tokio::signal::ctrl_c();
    #[cfg(unix)]
    {
        use tokio::signal::unix::{SignalKind, signal};
        if let Ok(mut terminate) = signal(SignalKind::terminate()) {
            tokio::select! {
                _ = interrupt => {}
                _ = terminate.recv() => {}
            }
            return;
        }
    }
    let _ = interrupt.await;
}
