//! The page's own files, compiled in. Routes of the page get its index file; so does any other path that a
//! browser navigates to, and the page says that it is not there.

use super::error::ApiError;
use axum::http::{HeaderMap, Method, StatusCode, Uri, header};
use axum::response::{Html, IntoResponse, Response};

include!(concat!(env!("OUT_DIR"), "/page.rs"));

const INDEX: &str = "/index.html";
/// Names under it change with what is in them.
const ASSETS: &str = "/assets/";

/// Whether the page was there when the command was built.
pub(super) fn is_built() -> bool {
    of(INDEX).is_some()
}

fn of(path: &str) -> Option<&'static [u8]> {
    let found = FILES.binary_search_by(|(name, _)| (*name).cmp(path));
    found.ok().map(|number| FILES[number].1)
}

/// Answers with a file of the page.
pub(super) async fn file(method: Method, uri: Uri, headers: HeaderMap) -> Response {
    if method != Method::GET && method != Method::HEAD {
        return ApiError::new(
            StatusCode::METHOD_NOT_ALLOWED,
            "Files of the page can only be read.",
            "See /openapi.json for what can be changed.",
        )
        .into_response();
    }
    let path = uri.path();
    if let Some(bytes) = of(path) {
        let kept = if path.starts_with(ASSETS) {
            "public, max-age=31536000, immutable"
        } else {
            "no-cache"
        };
        let headers = [
            (header::CONTENT_TYPE, kind(path)),
            (header::CACHE_CONTROL, kept),
        ];
        return (headers, bytes).into_response();
    }
    let is_route = path == "/" || path.starts_with("/job/") || path.starts_with("/bench/");
    if is_route {
        return index(StatusCode::OK);
    }
    if wants_html(&headers) && !path.starts_with(ASSETS) {
        return index(StatusCode::NOT_FOUND);
    }
    ApiError::not_found("There is no such file.").into_response()
}

/// Whether a browser navigates here.
fn wants_html(headers: &HeaderMap) -> bool {
    let accepted = headers.get_all(header::ACCEPT).into_iter();
    let mut kinds = accepted
        .filter_map(|kinds| kinds.to_str().ok())
        .flat_map(|kinds| kinds.split([',', ';']));
    kinds.any(|kind| kind.trim() == "text/html")
}

/// The page itself, or how to build it.
fn index(status: StatusCode) -> Response {
    match of(INDEX) {
        Some(index) => {
            let headers = [
                (header::CONTENT_TYPE, "text/html; charset=utf-8"),
                (header::CACHE_CONTROL, "no-cache"),
            ];
            (status, headers, index).into_response()
        }
        None => (StatusCode::NOT_FOUND, Html(NOT_BUILT)).into_response(),
    }
}

const NOT_BUILT: &str = "<!doctype html><html lang=\"en\"><meta charset=\"utf-8\"><title>Brimful</title><h1>Brimful</h1><p>This command was built without the page. With Node at hand <code>make serve</code> builds both; the server itself works, see <a href=\"/openapi.json\">openapi.json</a>.</p></html>";

fn kind(path: &str) -> &'static str {
    match path.rsplit('.').next() {
        Some("html") => "text/html; charset=utf-8",
        Some("js") => "text/javascript; charset=utf-8",
        Some("css") => "text/css; charset=utf-8",
        Some("svg") => "image/svg+xml",
        Some("png") => "image/png",
        Some("json" | "webmanifest") => "application/json",
        _ => "application/octet-stream",
    }
}
