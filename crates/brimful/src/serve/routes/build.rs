//! Records of a build.

use super::{Answer, Body, OfShop, Path, off};
use crate::serve::Shop;
use crate::serve::records::Entry;
use axum::extract::State;
use axum::routing::{get, post};
use axum::{Json, Router};
use serde_json::{Value, json};
use std::sync::Arc;

pub(super) fn routes() -> Router<Arc<Shop>> {
    Router::new()
        .route("/jobs/{name}/build", get(entries))
        .route("/jobs/{name}/build/entries", post(keep))
}

async fn entries(State(shop): OfShop, Path(name): Path<String>) -> Answer<Json<Value>> {
    off(shop, move |shop| {
        shop.jobs.read(&name)?;
        Ok(Json(json!({ "entries": shop.records.of(&name)? })))
    })
    .await
}

async fn keep(
    State(shop): OfShop,
    Path(name): Path<String>,
    Body(entries): Body<Vec<Entry>>,
) -> Answer<Json<Value>> {
    off(shop, move |shop| {
        shop.jobs.read(&name)?;
        shop.records.keep(&name, &entries)?;
        let ids: Vec<&str> = entries
            .iter()
            .map(|entry| entry.client_id.as_str())
            .collect();
        Ok(Json(json!({ "acknowledged": ids })))
    })
    .await
}
