//! `brimful serve`: the page and its server, over the same calls as the command.
//!
//! A folder of jobs is what is served: their files belong to the user ([`jobs`], with kept
//! [`versions`], changed key by key by [`crate::edit`]), worked out on demand ([`plans`]), long work in
//! [`work`], records of builds in [`records`]. [`guard`] checks every request before the routes do.
//! Beside the jobs a hidden folder `.brimful` holds versions, records and papers.

mod choices;
mod code;
mod connections;
mod describe;
mod error;
mod greeting;
mod guard;
mod job_answer;
mod jobs;
mod openapi;
mod page;
mod plan_cache;
mod plans;
mod random;
mod records;
mod routes;
mod scans;
mod shutdown;
mod startup;
mod state;
mod text;
mod versions;
mod watcher;
mod work;

use crate::fault::{Failure, Fault};
use crate::output;
use brimful_text::say;
use connections::Connections;
pub use openapi::openapi;
pub(crate) use startup::Options;
use startup::{WORDS, refused};
use std::fs;
use std::net::{IpAddr, Ipv4Addr, SocketAddr};
use std::path::Path;
use std::sync::Arc;
use std::time::Duration;
use tokio::net::TcpListener;
use tokio::sync::watch;

/// How long open connections are waited for at the end.
const SHUTDOWN_TIMEOUT: Duration = Duration::from_secs(2);

/// Serves a folder of jobs until it is asked to stop.
pub(crate) fn serve(folder: &Path, options: &Options) -> Result<(), Failure> {
    let shown = &WORDS.given(&folder.display().to_string());
    let about = fs::metadata(folder).map_err(|fault| {
        Failure::call(
            say!(
                WORDS,
                "The folder `{folder}` cannot be looked into: {fault}.",
                folder = shown,
                fault = WORDS.given(&fault.to_string())
            ),
            say!(WORDS, "Give a folder of jobs, or make one first."),
        )
    })?;
    if !about.is_dir() {
        return Err(Failure::call(
            say!(
                WORDS,
                "`{folder}` is a file, not a folder of jobs.",
                folder = shown
            ),
            say!(WORDS, "Give the folder it is in."),
        ));
    }
    let runtime = tokio::runtime::Builder::new_multi_thread()
        .worker_threads(2)
        .enable_all()
        .build()
        .map_err(|fault| own(say!(WORDS, "The server cannot start"), &fault))?;
    let done = runtime.block_on(serving(folder, options));
    // Cancelled work may not have polled its flag yet.
    runtime.shutdown_timeout(SHUTDOWN_TIMEOUT);
    done
}

async fn serving(folder: &Path, options: &Options) -> Result<(), Failure> {
    let host = if options.share {
        greeting::own_address()
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
                say!(
                    WORDS,
                    "Port {port} cannot be used: {fault}.",
                    port = usize::from(options.port),
                    fault = WORDS.given(&fault.to_string())
                ),
                say!(
                    WORDS,
                    "Give another with `{option}`, or stop the program that uses it.",
                    option = WORDS.given("--port")
                ),
            )
        })?;
    let port = listener
        .local_addr()
        .map_err(|fault| own(say!(WORDS, "The server has no address"), &fault))?
        .port();
    let address = SocketAddr::new(host, port);
    let (end, shutdown) = watch::channel(false);
    let app = Arc::new(startup::open(folder, address, options, shutdown)?);
    output::text(
        &greeting::greeting(
            address,
            app.guard.code().as_deref(),
            page::is_built(),
            &app.jobs.left_out().map_err(refused)?,
        ),
        WORDS,
    )?;
    tokio::spawn(watcher::watch(Arc::clone(&app)));
    let connections = Connections::new();
    tokio::select! {
        () = connections.accept(listener, routes::router(&app)) => {}
        () = shutdown::requested() => {}
    }
    // Event streams end on this; connections that stay open are dropped.
    let _ = end.send(true);
    app.work.cancel_all();
    let _ = tokio::time::timeout(SHUTDOWN_TIMEOUT, connections.all_gone()).await;
    Ok(())
}

fn own(what: brimful_text::Text, fault: &dyn std::fmt::Display) -> Failure {
    let fault = WORDS.given(&fault.to_string());
    Failure::own(Fault::new(
        say!(WORDS, "{what}: {fault}.", what = what, fault = fault),
        say!(WORDS, "Start it again."),
    ))
}
