//! Long work: begun, followed, cancelled, fetched.

use super::plans::document;
use super::{Answer, Body, OfShop, Path, papers};
use crate::serve::Shop;
use crate::serve::jobs::Text;
use crate::serve::planning::{fitted, read};
use crate::serve::refusal::Refusal;
use crate::serve::work::{State as WorkState, Work};
use crate::wire;
use axum::extract::State;
use axum::http::StatusCode;
use axum::routing::{delete, get, post};
use axum::{Json, Router};
use serde::Deserialize;
use serde_json::{Value, json};
use std::sync::Arc;

pub(super) fn routes() -> Router<Arc<Shop>> {
    Router::new()
        .route("/jobs/{name}/work", post(begin))
        .route("/work/{id}", delete(cancel))
        .route("/work/{id}/result", get(result))
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Wanted {
    what: What,
    #[serde(default)]
    options: Options,
}

#[derive(Clone, Copy, Debug, Deserialize, PartialEq, Eq)]
#[serde(rename_all = "snake_case")]
enum What {
    Whole,
    Remedies,
    Pack,
    Fit,
}

#[derive(Clone, Copy, Debug, Default, Deserialize)]
#[serde(deny_unknown_fields)]
struct Options {
    /// `letter` for Letter, else A4.
    #[serde(default)]
    paper: Option<Paper>,
}

#[derive(Clone, Copy, Debug, Deserialize, PartialEq, Eq)]
#[serde(rename_all = "snake_case")]
enum Paper {
    A4,
    Letter,
}

async fn begin(
    State(shop): OfShop,
    Path(name): Path<String>,
    Body(wanted): Body<Wanted>,
) -> Answer<(StatusCode, Json<Value>)> {
    let reader = Arc::clone(&shop);
    let job = name.clone();
    let text = super::off(reader, move |shop| shop.jobs.read(&job)).await?;
    let what = match wanted.what {
        What::Whole => "whole",
        What::Remedies => "remedies",
        What::Pack => "pack",
        What::Fit => "fit",
    };
    let (id, work) = shop.works.begin(&name, what);
    tokio::spawn(run(shop, name, text, wanted, work));
    Ok((StatusCode::ACCEPTED, Json(json!({ "work_id": id }))))
}

/// Waits for its turn, does the work and says what came of it.
async fn run(shop: Arc<Shop>, name: String, text: Text, wanted: Wanted, work: Arc<Work>) {
    // What was cancelled while it waited is passed over at once.
    let Ok(_turn) = shop.heavy.acquire().await else {
        return;
    };
    let doing = Arc::clone(&work);
    let shop = Arc::clone(&shop);
    let done = super::off(shop, move |shop| done(shop, &name, &text, wanted, &doing)).await;
    work.finish(done);
}

fn done(shop: &Shop, name: &str, text: &Text, wanted: Wanted, work: &Work) -> Answer<Value> {
    if wanted.what == What::Fit {
        return fitted(text).map(|fit| json!(wire::Document::fit(&fit)));
    }
    let plan = shop.planned.whole(name, text, work)?;
    match wanted.what {
        What::Whole | What::Fit => document(&plan, &text.etag),
        What::Remedies => Ok(json!({ "remedies": wire::remedies(&plan, &read(text)?) })),
        What::Pack => {
            let paper = match wanted.options.paper {
                Some(Paper::Letter) => brimful_pack::Paper::Letter,
                Some(Paper::A4) | None => brimful_pack::Paper::A4,
            };
            papers::make(shop, name, text, &plan, paper, work)
        }
    }
}

async fn cancel(State(shop): OfShop, Path(id): Path<u64>) -> Answer<StatusCode> {
    shop.works.cancel(id)?;
    Ok(StatusCode::NO_CONTENT)
}

async fn result(State(shop): OfShop, Path(id): Path<u64>) -> Answer<Json<Value>> {
    let work = shop.works.of(id)?;
    let state = work.follow().borrow().clone();
    match state {
        WorkState::Done(answer) => Ok(Json((*answer).clone())),
        WorkState::Failed(why) => Ok(Json((*why).clone())),
        WorkState::Cancelled => Err(Refusal::conflict(
            "That work was cancelled.",
            "Begin it again.",
        )),
        WorkState::Waiting | WorkState::Doing { .. } => Err(Refusal::conflict(
            "That work is not done yet.",
            "Follow its events until it is.",
        )),
    }
}
