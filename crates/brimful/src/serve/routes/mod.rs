//! The paths of the server.

mod build;
mod jobs;
mod papers;
mod plans;
mod streams;
mod works;

use super::connections::Ends;
use super::refusal::Refusal;
use super::{Shop, choices, door, openapi, page};
use axum::extract::rejection::{JsonRejection, PathRejection, QueryRejection};
use axum::extract::{DefaultBodyLimit, FromRequest, FromRequestParts, State};
use axum::http::{HeaderMap, StatusCode, header};
use axum::response::{IntoResponse, Response};
use axum::routing::{get, post};
use axum::{Extension, Json, Router, middleware};
use serde::Deserialize;
use serde_json::{Value, json};
use std::sync::Arc;

/// What a handler answers.
type Answer<T> = Result<T, Refusal>;
type OfShop = State<Arc<Shop>>;

/// All paths, behind the door.
pub(super) fn router(shop: &Arc<Shop>) -> Router {
    let api = Router::new()
        .route("/about", get(about))
        .route("/enter", post(enter))
        .merge(jobs::routes())
        .merge(plans::routes())
        .merge(works::routes())
        .merge(papers::routes())
        .merge(build::routes())
        .merge(streams::routes())
        .fallback(no_such_path);
    Router::new()
        .nest("/api", api)
        .route("/openapi.json", get(|| async { Json(openapi::document()) }))
        .fallback(page::file)
        .method_not_allowed_fallback(wrong_method)
        .layer(DefaultBodyLimit::max(door::LARGEST_BODY))
        .layer(middleware::from_fn_with_state(Arc::clone(shop), door::look))
        .with_state(Arc::clone(shop))
}

async fn about(
    State(shop): OfShop,
    Extension(ends): Extension<Ends>,
    headers: HeaderMap,
) -> Json<Value> {
    let here = ends.theirs.ip().is_loopback();
    Json(json!({
        "version": env!("CARGO_PKG_VERSION"),
        "share": shop.door.is_shared(),
        // Only who sits at this machine is told the code for the next device.
        "code": shop.door.code().filter(|_| here),
        "inside": here || shop.door.has_pass(&headers),
        "choices": choices::choices(),
    }))
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Code {
    code: String,
}

async fn enter(
    State(shop): OfShop,
    Extension(ends): Extension<Ends>,
    Body(given): Body<Code>,
) -> Answer<Response> {
    let pass = shop.door.enter(&given.code, ends.theirs.ip())?;
    Ok((
        [(header::SET_COOKIE, pass)],
        Json(json!({ "inside": true })),
    )
        .into_response())
}

async fn no_such_path() -> Refusal {
    Refusal::not_found("There is no such path.")
}

async fn wrong_method() -> Refusal {
    Refusal::new(
        StatusCode::METHOD_NOT_ALLOWED,
        "That cannot be done with this path.",
        "See /openapi.json for what can.",
    )
}

/// Runs what reads the disk or reckons, off the threads that answer.
async fn off<T: Send + 'static>(
    shop: Arc<Shop>,
    work: impl FnOnce(&Shop) -> Answer<T> + Send + 'static,
) -> Answer<T> {
    let done = tokio::task::spawn_blocking(move || work(&shop)).await;
    done.unwrap_or_else(|_| {
        Err(Refusal::own(
            "Brimful itself failed.",
            "Please report it with what was asked.",
        ))
    })
}

/// The text that a change is made to, as its header names it.
fn expected(headers: &HeaderMap) -> Answer<String> {
    let given = headers
        .get(header::IF_MATCH)
        .and_then(|value| value.to_str().ok());
    let plain = given.map(|value| value.trim().trim_matches('"').to_owned());
    plain.filter(|value| !value.is_empty()).ok_or_else(|| {
        Refusal::new(
            StatusCode::PRECONDITION_REQUIRED,
            "A change must say which text it is made to.",
            "Send the etag of the job in the If-Match header.",
        )
    })
}

/// The window that asks, by the name it gave itself.
fn window(headers: &HeaderMap) -> String {
    let given = headers
        .get("x-window")
        .and_then(|value| value.to_str().ok());
    given.unwrap_or("").chars().take(64).collect()
}

/// A JSON body, with our own words where it cannot be used.
struct Body<T>(T);

impl<S: Send + Sync, T: serde::de::DeserializeOwned> FromRequest<S> for Body<T> {
    type Rejection = Refusal;

    async fn from_request(request: axum::extract::Request, state: &S) -> Result<Self, Refusal> {
        match Json::<T>::from_request(request, state).await {
            Ok(Json(value)) => Ok(Self(value)),
            Err(fault) => Err(unusable_body(&fault)),
        }
    }
}

fn unusable_body(fault: &JsonRejection) -> Refusal {
    Refusal::new(
        fault.status(),
        format!(
            "What was sent cannot be used: {}.",
            fault.body_text().trim_end_matches('.')
        ),
        "Send JSON of the form that /openapi.json shows.",
    )
}

/// Parts of the path, with our own words where they cannot be used.
struct Path<T>(T);

impl<S: Send + Sync, T: serde::de::DeserializeOwned + Send> FromRequestParts<S> for Path<T> {
    type Rejection = Refusal;

    async fn from_request_parts(
        parts: &mut axum::http::request::Parts,
        state: &S,
    ) -> Result<Self, Refusal> {
        let path = axum::extract::Path::<T>::from_request_parts(parts, state).await;
        path.map(|path| Self(path.0))
            .map_err(|fault: PathRejection| {
                Refusal::not_found(format!(
                    "There is no such path: {}.",
                    fault.body_text().trim_end_matches('.')
                ))
            })
    }
}

/// What follows the question mark, with our own words where it cannot be used.
struct Query<T>(T);

impl<S: Send + Sync, T: serde::de::DeserializeOwned> FromRequestParts<S> for Query<T> {
    type Rejection = Refusal;

    async fn from_request_parts(
        parts: &mut axum::http::request::Parts,
        state: &S,
    ) -> Result<Self, Refusal> {
        let query = axum::extract::Query::<T>::from_request_parts(parts, state).await;
        query
            .map(|query| Self(query.0))
            .map_err(|fault: QueryRejection| {
                Refusal::unusable(
                    format!(
                        "What follows the question mark cannot be used: {}.",
                        fault.body_text().trim_end_matches('.')
                    ),
                    "See /openapi.json.",
                )
            })
    }
}
