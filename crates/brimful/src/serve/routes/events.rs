//! Events for open windows: how far work has come, and that a job has changed elsewhere.

use super::extract::{JobName, Path};
use super::handler::{ApiResult, App, blocking};
use super::work::WorkId;
use crate::serve::describe::{content, summary};
use crate::serve::state::AppState;
use crate::serve::work::WorkEvent;
use aide::OperationOutput;
use aide::axum::ApiRouter;
use aide::axum::routing::get_with;
use aide::generate::GenContext;
use aide::openapi::{Operation, Response as Described, StatusCode as Status};
use axum::extract::State;
use axum::response::sse::{Event, KeepAlive, Sse};
use axum::response::{IntoResponse, Response};
use schemars::JsonSchema;
use serde::Serialize;
use std::convert::Infallible;
use std::marker::PhantomData;
use std::sync::Arc;
use std::time::Duration;
use tokio::sync::{broadcast::error::RecvError, mpsc};
use tokio_stream::wrappers::ReceiverStream;

/// How often a comment is sent, so that a dead connection is noticed.
const KEEP_ALIVE: Duration = Duration::from_secs(15);

pub(super) fn routes() -> ApiRouter<Arc<AppState>> {
    ApiRouter::new()
        .api_route(
            "/jobs/{name}/events",
            get_with(
                of_job,
                summary("Events named `changed`, until the server ends"),
            ),
        )
        .api_route(
            "/work/{id}/events",
            get_with(
                of_work,
                summary("Events named `progress`, then one named `done`, `failed` or `cancelled`"),
            ),
        )
}

/// Server-sent events, each with its name and JSON of a type for its data.
struct Events<T> {
    events: mpsc::Receiver<Result<Event, Infallible>>,
    data: PhantomData<T>,
}

impl<T> From<mpsc::Receiver<Result<Event, Infallible>>> for Events<T> {
    fn from(events: mpsc::Receiver<Result<Event, Infallible>>) -> Self {
        let data = PhantomData;
        Self { events, data }
    }
}

impl<T> IntoResponse for Events<T> {
    fn into_response(self) -> Response {
        Sse::new(ReceiverStream::new(self.events))
            .keep_alive(KeepAlive::new().interval(KEEP_ALIVE))
            .into_response()
    }
}

impl<T: JsonSchema> OperationOutput for Events<T> {
    type Inner = T;

    fn inferred_responses(
        context: &mut GenContext,
        _: &mut Operation,
    ) -> Vec<(Option<Status>, Described)> {
        let data = context.schema.subschema_for::<T>();
        let described = content(
            "text/event-stream",
            data,
            "Server-sent events with such data",
        );
        vec![(Some(Status::Code(200)), described)]
    }
}

/// A job has changed elsewhere.
#[derive(Serialize, JsonSchema)]
struct JobChange {
    /// Empty where the job is gone; null where some changes were missed.
    etag: Option<String>,
    /// The window that changed it; empty for the disk.
    by: String,
}

fn event(name: &str, data: &impl Serialize) -> Result<Event, Infallible> {
    let data = serde_json::to_string(data).unwrap_or_default();
    Ok(Event::default().event(name).data(data))
}

async fn of_job(
    State(app): App,
    Path(JobName { name }): Path<JobName>,
) -> ApiResult<Events<JobChange>> {
    let job = name.clone();
    blocking(Arc::clone(&app), move |app| app.jobs.read(&job)).await?;
    let mut changes = app.changes.subscribe();
    let mut shutdown = app.shutdown.clone();
    let (send, events) = mpsc::channel(16);
    tokio::spawn(async move {
        loop {
            let change = tokio::select! {
                change = changes.recv() => change,
                _ = shutdown.wait_for(|end| *end) => return,
                () = send.closed() => return,
            };
            let told = match change {
                Ok(change) if change.job == name => JobChange {
                    etag: Some(change.etag),
                    by: change.by,
                },
                Ok(_) => continue,
                // Missed some: the page reads the job again.
                Err(RecvError::Lagged(_)) => JobChange {
                    etag: None,
                    by: String::new(),
                },
                Err(RecvError::Closed) => return,
            };
            if send.send(event("changed", &told)).await.is_err() {
                return;
            }
        }
    });
    Ok(events.into())
}

async fn of_work(
    State(app): App,
    Path(WorkId { id }): Path<WorkId>,
) -> ApiResult<Events<WorkEvent>> {
    let (mut state, follower) = app.work.of(id)?.follow();
    let mut shutdown = app.shutdown.clone();
    let (send, events) = mpsc::channel(16);
    tokio::spawn(async move {
        let _follower = follower;
        loop {
            let now = state.borrow_and_update().clone();
            let (name, data) = now.event(id);
            if send.send(event(name, &data)).await.is_err() || now.is_finished() {
                return;
            }
            tokio::select! {
                changed = state.changed() => if changed.is_err() { return },
                _ = shutdown.wait_for(|end| *end) => return,
                () = send.closed() => return,
            }
        }
    });
    Ok(events.into())
}
