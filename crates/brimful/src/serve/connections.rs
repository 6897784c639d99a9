//! The connections: so many at once and no more, each answered for itself.

use hyper_util::rt::{TokioExecutor, TokioIo, TokioTimer};
use hyper_util::server::conn::auto::Builder;
use std::io;
use std::net::SocketAddr;
use std::sync::Arc;
use std::time::Duration;
use tokio::net::{TcpListener, TcpStream};
use tokio::sync::Semaphore;
use tower::ServiceExt;

/// Connections at once: fifty phones with a stream and a request each, and some.
const MAX_CONNECTIONS: u32 = 512;
/// How long a sender may take over the head of a request.
const HEADER_TIMEOUT: Duration = Duration::from_secs(10);
/// How long after a failed one the next is looked for.
const PAUSE: Duration = Duration::from_millis(20);

/// The two endpoints of a connection; every request carries them.
#[derive(Clone, Copy, Debug)]
pub(super) struct Endpoints {
    /// The address of the client.
    pub(super) peer: SocketAddr,
    /// The address of this machine that the client connected to.
    pub(super) local: SocketAddr,
}

/// Places for connections; all are free when nobody is left.
#[derive(Debug)]
pub(super) struct Connections(Arc<Semaphore>);

impl Connections {
    /// All places free.
    pub(super) fn new() -> Self {
        Self(Arc::new(Semaphore::new(MAX_CONNECTIONS as usize)))
    }

    /// Accepts connections until the future is dropped.
    pub(super) async fn accept(&self, listener: TcpListener, router: axum::Router) {
        loop {
            let Ok((stream, endpoints)) = next(&listener).await else {
                // Too many open files, or a connection that is gone again: others come.
                tokio::time::sleep(PAUSE).await;
                continue;
            };
            let Ok(place) = Arc::clone(&self.0).try_acquire_owned() else {
                continue;
            };
            let router = router.clone();
            tokio::spawn(async move {
                let _place = place;
                converse(stream, endpoints, router).await;
            });
        }
    }

    /// Waits until nobody is left.
    pub(super) async fn all_gone(&self) {
        // The semaphore is never closed.
        let _ = self.0.acquire_many(MAX_CONNECTIONS).await;
    }
}

async fn next(listener: &TcpListener) -> io::Result<(TcpStream, Endpoints)> {
    let (stream, peer) = listener.accept().await?;
    let local = stream.local_addr()?;
    Ok((stream, Endpoints { peer, local }))
}

/// Answers the requests of one connection.
async fn converse(stream: TcpStream, endpoints: Endpoints, router: axum::Router) {
    let service = hyper::service::service_fn(move |mut request: hyper::Request<_>| {
        request.extensions_mut().insert(endpoints);
        router.clone().oneshot(request)
    });
    let mut builder = Builder::new(TokioExecutor::new()).http1_only();
    builder
        .http1()
        .timer(TokioTimer::new())
        .header_read_timeout(HEADER_TIMEOUT);
    // A connection that breaks off is the other side's affair.
    let _ = builder
        .serve_connection(TokioIo::new(stream), service)
        .await;
}
