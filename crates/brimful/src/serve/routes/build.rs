//! Records of a build.

use super::extract::{Body, JobName, Path};
use super::handler::{ApiResult, App, blocking};
use crate::serve::describe::summary;
use crate::serve::records::Entry;
use crate::serve::state::AppState;
use aide::axum::ApiRouter;
use aide::axum::routing::{get_with, post_with};
use axum::Json;
use axum::extract::State;
use schemars::JsonSchema;
use serde::Serialize;
use std::sync::Arc;

pub(super) fn routes() -> ApiRouter<Arc<AppState>> {
    ApiRouter::new()
        .api_route(
            "/jobs/{name}/build",
            get_with(entries, summary("Records of the build")),
        )
        .api_route(
            "/jobs/{name}/build/entries",
            post_with(
                keep,
                summary("Keep entries; acknowledged ones outlive the process"),
            ),
        )
}

#[derive(Serialize, JsonSchema)]
struct Entries {
    entries: Vec<Entry>,
}

#[derive(Serialize, JsonSchema)]
struct Acknowledged {
    /// Entries that are on the disk, by their `client_id`.
    acknowledged: Vec<String>,
}

async fn entries(
    State(app): App,
    Path(JobName { name }): Path<JobName>,
) -> ApiResult<Json<Entries>> {
    blocking(app, move |app| {
        app.jobs.read(&name)?;
        let entries = app.records.of(&name)?;
        Ok(Json(Entries { entries }))
    })
    .await
}

async fn keep(
    State(app): App,
    Path(JobName { name }): Path<JobName>,
    Body(entries): Body<Vec<Entry>>,
) -> ApiResult<Json<Acknowledged>> {
    blocking(app, move |app| {
        app.jobs.read(&name)?;
        app.records.keep(&name, &entries)?;
        let acknowledged = entries.into_iter().map(|entry| entry.client_id).collect();
        Ok(Json(Acknowledged { acknowledged }))
    })
    .await
}
