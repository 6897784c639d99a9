//! The paths of the server.

mod build;
mod events;
mod extract;
mod handler;
mod jobs;
mod order;
mod papers;
mod plans;
mod session;
mod work;

use super::error::ApiError;
use super::guard::{self, MAX_BODY, REQUEST_TIMEOUT, SECURITY_HEADERS};
use super::state::AppState;
use super::{describe, page};
use aide::axum::ApiRouter;
use axum::error_handling::HandleErrorLayer;
use axum::extract::DefaultBodyLimit;
use axum::http::{HeaderName, HeaderValue, StatusCode};
use axum::routing::get;
use axum::{BoxError, Json, Router, middleware};
use std::sync::Arc;
use tower::ServiceBuilder;
use tower_http::set_header::SetResponseHeaderLayer;

/// All paths that are described.
pub(super) fn api() -> ApiRouter<Arc<AppState>> {
    let api = ApiRouter::new()
        .merge(session::routes())
        .merge(jobs::routes())
        .merge(plans::routes())
        .merge(order::routes())
        .merge(work::routes())
        .merge(papers::routes())
        .merge(build::routes())
        .merge(events::routes())
        .fallback(no_such_path);
    ApiRouter::new().nest("/api", api)
}

/// Everything that is served. Every request passes the guard first, and every answer has its headers.
pub(super) fn router(app: &Arc<AppState>) -> Router {
    let (routes, document) = describe::described(api);
    let time_limit = ServiceBuilder::new()
        .layer(HandleErrorLayer::new(timed_out))
        .timeout(REQUEST_TIMEOUT);
    let router = routes
        .route("/openapi.json", get(|| async { Json(document) }))
        .fallback(page::file)
        .method_not_allowed_fallback(wrong_method)
        .layer(DefaultBodyLimit::max(MAX_BODY))
        .layer(time_limit)
        .layer(middleware::from_fn_with_state(
            Arc::clone(&app.guard),
            guard::check,
        ));
    let with_header = |router: Router<_>, &(name, value): &(&'static str, &'static str)| {
        router.layer(SetResponseHeaderLayer::if_not_present(
            HeaderName::from_static(name),
            HeaderValue::from_static(value),
        ))
    };
    SECURITY_HEADERS
        .iter()
        .fold(router, with_header)
        .with_state(Arc::clone(app))
}

async fn timed_out(_: BoxError) -> ApiError {
    ApiError::timed_out()
}

async fn no_such_path() -> ApiError {
    ApiError::not_found("There is no such path.")
}

async fn wrong_method() -> ApiError {
    ApiError::new(
        StatusCode::METHOD_NOT_ALLOWED,
        "That cannot be done with this path.",
        "See /openapi.json for what can.",
    )
}
