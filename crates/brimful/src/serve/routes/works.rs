//! Long work: begun, followed, cancelled, fetched.

use super::plans::Checked;
use super::{Answer, Body, OfShop, Path, papers};
use crate::serve::Shop;
use crate::serve::jobs::Text;
use crate::serve::planning::read;
use crate::serve::refusal::Refusal;
use crate::serve::work::{Order, Paper, State as WorkState, Wanted, What, Work};
use crate::wire;
use axum::extract::State;
use axum::http::StatusCode;
use axum::routing::{delete, get, post};
use axum::{Json, Router};
use brimful_tank::watch::Watch;
use brimful_units::UnitSystem;
use serde_json::{Value, json};
use std::sync::Arc;

pub(super) fn routes() -> Router<Arc<Shop>> {
    Router::new()
        .route("/jobs/{name}/work", post(begin))
        .route("/work/{id}", delete(cancel))
        .route("/work/{id}/result", get(result))
}

async fn begin(
    State(shop): OfShop,
    Path(name): Path<String>,
    Body(wanted): Body<Wanted>,
) -> Answer<(StatusCode, Json<Value>)> {
    let reader = Arc::clone(&shop);
    let job = name.clone();
    let text = super::off(reader, move |shop| shop.jobs.read(&job)).await?;
    let order = Order {
        job: name.clone(),
        etag: text.etag.clone(),
        wanted,
    };
    let (id, begun) = shop.works.begin(order);
    if let Some(work) = begun {
        tokio::spawn(run(shop, name, text, wanted, work));
    }
    Ok((StatusCode::ACCEPTED, Json(json!({ "work_id": id }))))
}

/// Waits for its turn, does the work and says what came of it.
async fn run(shop: Arc<Shop>, name: String, text: Text, wanted: Wanted, work: Arc<Work>) {
    let Ok(_turn) = shop.heavy.acquire().await else {
        return;
    };
    if work.is_cancelled() {
        return;
    }
    let doing = Arc::clone(&work);
    let shop = Arc::clone(&shop);
    let done = super::off(shop, move |shop| done(shop, &name, &text, wanted, &doing)).await;
    work.finish(done);
}

fn done(shop: &Shop, name: &str, text: &Text, wanted: Wanted, work: &Work) -> Answer<Value> {
    let said = wanted.options.units.filter(|_| wanted.what != What::Pack);
    let units = said.map(UnitSystem::from);
    if wanted.what == What::Fit {
        return shop.planned.fitted(text, units, work).map(|fit| {
            json!(wire::Document::fit(
                &fit,
                &brimful_text::Words::new(&fit.job, brimful_text::Language::English)
            ))
        });
    }
    let plan = match wanted.what {
        What::Whole => shop.planned.whole(name, text, units, work)?,
        _ => shop.planned.remedied(name, text, units, work)?,
    };
    match wanted.what {
        What::Whole | What::Fit => serde_json::to_value(Checked::of(&plan, text.etag.clone()))
            .map_err(|fault| {
                Refusal::own(
                    format!("The answer cannot be written: {fault}."),
                    "Please report it.",
                )
            }),
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
    shop.works.leave(id)?;
    Ok(StatusCode::NO_CONTENT)
}

async fn result(State(shop): OfShop, Path(id): Path<u64>) -> Answer<Json<Value>> {
    let work = shop.works.of(id)?;
    // Who asks now and then instead of following wants it as well.
    work.look_in();
    match work.state() {
        WorkState::Done(answer) => Ok(Json((*answer).clone())),
        WorkState::Failed(why) => Err((*why).clone()),
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
