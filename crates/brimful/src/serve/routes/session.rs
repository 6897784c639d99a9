//! What this server is, the reference of the job file, and how a device enters by its code.

use super::extract::{Body, Query};
use super::handler::{ApiResult, App};
use crate::serve::choices::choices;
use crate::serve::connections::Endpoints;
use crate::serve::describe::{JsonResponse, summary};
use crate::serve::plans::{LanguageTag, language};
use crate::serve::state::AppState;
use crate::wire;
use aide::axum::ApiRouter;
use aide::axum::routing::{get_with, post_with};
use axum::extract::State;
use axum::http::{HeaderMap, header};
use axum::{Extension, Json};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use std::sync::Arc;

pub(super) fn routes() -> ApiRouter<Arc<AppState>> {
    ApiRouter::new()
        .api_route("/about", get_with(about, summary("What this server is")))
        .api_route(
            "/reference",
            get_with(reference, summary("Every key of the job file, in words")),
        )
        .api_route(
            "/enter",
            post_with(
                enter,
                summary("Enter by the code; the session is kept in a cookie"),
            ),
        )
}

/// What this server is.
#[derive(Serialize, JsonSchema)]
struct About {
    version: &'static str,
    /// Whether others on the workshop's network are let in by a code.
    share: bool,
    /// The code for the next device; only for the machine of the server.
    code: Option<String>,
    /// Whether this device was let in.
    inside: bool,
    /// The words that a key of the job takes.
    choices: BTreeMap<String, Vec<String>>,
}

async fn about(
    State(app): App,
    Extension(endpoints): Extension<Endpoints>,
    headers: HeaderMap,
) -> Json<About> {
    let is_local = endpoints.peer.ip().is_loopback();
    Json(About {
        version: env!("CARGO_PKG_VERSION"),
        share: app.guard.is_shared(),
        code: app.guard.code().filter(|_| is_local),
        inside: is_local || app.guard.has_session(&headers),
        choices: choices(),
    })
}

#[derive(Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(inline)]
struct ReferenceQuery {
    language: Option<LanguageTag>,
}

async fn reference(Query(query): Query<ReferenceQuery>) -> Json<wire::reference::Reference> {
    Json(wire::reference::reference(language(query.language)))
}

#[derive(Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Code {
    code: String,
}

/// The device is let in.
#[derive(Serialize, JsonSchema)]
struct Entered {
    inside: bool,
}

async fn enter(
    State(app): App,
    Extension(endpoints): Extension<Endpoints>,
    Body(given): Body<Code>,
) -> ApiResult<JsonResponse<Entered>> {
    let cookie = app.guard.enter(&given.code, endpoints.peer.ip())?;
    let entered = Json(Entered { inside: true });
    Ok(JsonResponse::new(([(header::SET_COOKIE, cookie)], entered)))
}
