//! Events for open windows: how far work has come, and that a job has changed elsewhere.

use super::{Answer, OfShop, Path};
use crate::serve::Shop;
use axum::Router;
use axum::extract::State;
use axum::response::sse::{Event, KeepAlive, Sse};
use axum::routing::get;
use serde_json::json;
use std::convert::Infallible;
use std::sync::Arc;
use std::time::Duration;
use tokio::sync::{broadcast::error::RecvError, mpsc};
use tokio_stream::wrappers::ReceiverStream;

/// A sign of life, so that a dead line is noticed.
const SIGN_OF_LIFE: Duration = Duration::from_secs(15);

type Events = Sse<axum::response::sse::KeepAliveStream<ReceiverStream<Result<Event, Infallible>>>>;

pub(super) fn routes() -> Router<Arc<Shop>> {
    Router::new()
        .route("/jobs/{name}/events", get(of_job))
        .route("/work/{id}/events", get(of_work))
}

fn stream(events: mpsc::Receiver<Result<Event, Infallible>>) -> Events {
    Sse::new(ReceiverStream::new(events)).keep_alive(KeepAlive::new().interval(SIGN_OF_LIFE))
}

fn event(name: &str, data: &serde_json::Value) -> Result<Event, Infallible> {
    Ok(Event::default().event(name).data(data.to_string()))
}

async fn of_job(State(shop): OfShop, Path(name): Path<String>) -> Answer<Events> {
    let job = name.clone();
    super::off(Arc::clone(&shop), move |shop| shop.jobs.read(&job)).await?;
    let mut changes = shop.changes.subscribe();
    let mut ending = shop.ending.clone();
    let (send, events) = mpsc::channel(16);
    tokio::spawn(async move {
        loop {
            let change = tokio::select! {
                change = changes.recv() => change,
                _ = ending.wait_for(|end| *end) => return,
                () = send.closed() => return,
            };
            let told = match change {
                Ok(change) if change.job == name => {
                    event("changed", &json!({ "etag": change.etag, "by": change.by }))
                }
                Ok(_) => continue,
                // Missed some: whoever listens looks for himself.
                Err(RecvError::Lagged(_)) => event("changed", &json!({ "etag": null, "by": "" })),
                Err(RecvError::Closed) => return,
            };
            if send.send(told).await.is_err() {
                return;
            }
        }
    });
    Ok(stream(events))
}

async fn of_work(State(shop): OfShop, Path(id): Path<u64>) -> Answer<Events> {
    let (mut state, follower) = shop.works.of(id)?.follow();
    let mut ending = shop.ending.clone();
    let (send, events) = mpsc::channel(16);
    tokio::spawn(async move {
        let _follower = follower;
        loop {
            let now = state.borrow_and_update().clone();
            let (name, data) = now.event(id);
            if send.send(event(name, &data)).await.is_err() || now.is_over() {
                return;
            }
            tokio::select! {
                changed = state.changed() => if changed.is_err() { return },
                _ = ending.wait_for(|end| *end) => return,
                () = send.closed() => return,
            }
        }
    });
    Ok(stream(events))
}
