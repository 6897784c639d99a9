//! What handlers share.

use crate::serve::error::ApiError;
use crate::serve::state::AppState;
use axum::extract::State;
use std::sync::Arc;

/// What a handler answers.
pub(super) type ApiResult<T> = Result<T, ApiError>;
pub(super) type App = State<Arc<AppState>>;

/// Runs what reads the disk or computes, off the threads that answer.
pub(super) async fn blocking<T: Send + 'static>(
    app: Arc<AppState>,
    work: impl FnOnce(&AppState) -> ApiResult<T> + Send + 'static,
) -> ApiResult<T> {
    let done = tokio::task::spawn_blocking(move || work(&app)).await;
    done.unwrap_or_else(|_| {
        Err(ApiError::internal(
            "Brimful itself failed.",
            "Please report it with what was asked.",
        ))
    })
}
