//! Jobs: their list, texts, changes, undo and redo.

use super::{Answer, Body, OfShop, Path, expected, off, papers, window};
use crate::serve::answer::{JobAnswer, job_answer, title, written};
use crate::serve::edit::{Edit, edited};
use crate::serve::jobs::{Step, Text};
use crate::serve::refusal::Refusal;
use crate::serve::{Shop, planning};
use crate::verb::new::{EXAMPLES, example_text};
use axum::extract::State;
use axum::http::{HeaderMap, StatusCode};
use axum::routing::{get, post, put};
use axum::{Json, Router};
use serde::{Deserialize, Serialize};
use serde_json::{Value, json};
use std::sync::Arc;

pub(super) fn routes() -> Router<Arc<Shop>> {
    Router::new()
        .route("/jobs", get(list).post(create))
        .route("/examples", get(examples))
        .route("/jobs/{name}", get(read).patch(change).delete(remove))
        .route("/jobs/{name}/text", put(write))
        .route("/jobs/{name}/undo", post(undo))
        .route("/jobs/{name}/redo", post(redo))
}

#[derive(Serialize)]
struct Listed {
    name: String,
    title: String,
    changed_s: f64,
    etag: String,
    /// Whether it cannot be worked out as it is.
    fault: bool,
}

async fn list(State(shop): OfShop) -> Answer<Json<Vec<Listed>>> {
    off(shop, |shop| {
        let jobs = shop.jobs.list()?.into_iter();
        // A file that cannot be read as text is listed with its fault.
        let listed = jobs.map(|job| {
            let text = shop
                .jobs
                .read(&job.name)
                .unwrap_or(Text::new(String::new()));
            Listed {
                title: title(written(&text.text).as_ref(), &job.name),
                fault: planning::read(&text).is_err(),
                etag: text.etag,
                changed_s: job.changed_s,
                name: job.name,
            }
        });
        Ok(Json(listed.collect()))
    })
    .await
}

async fn examples() -> Json<Value> {
    let twin = |(name, text): &(&str, &str)| json!({ "name": name, "title": title(written(text).as_ref(), name) });
    Json(EXAMPLES.iter().map(twin).collect())
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct NewJob {
    name: String,
    /// An example to begin from; null for the plain starter.
    #[serde(default)]
    like: Option<String>,
}

async fn create(
    State(shop): OfShop,
    headers: HeaderMap,
    Body(new): Body<NewJob>,
) -> Answer<(StatusCode, Json<JobAnswer>)> {
    let window = window(&headers);
    off(shop, move |shop| {
        let text = example_text(new.like.as_deref()).ok_or_else(|| {
            Refusal::unusable(
                "There is no example of that name.",
                "Take one of /api/examples, or none for the plain starter.",
            )
        })?;
        let also = |aside: &str| set_aside(shop, &new.name, aside);
        let text = shop.jobs.create(&new.name, text, also)?;
        shop.tell(&new.name, &text.etag, &window);
        Ok((StatusCode::CREATED, Json(job_answer(shop, &new.name, text))))
    })
    .await
}

async fn read(State(shop): OfShop, Path(name): Path<String>) -> Answer<Json<JobAnswer>> {
    off(shop, move |shop| {
        let text = shop.jobs.read(&name)?;
        Ok(Json(job_answer(shop, &name, text)))
    })
    .await
}

/// Makes a change, drops work on the text before it, and tells open windows.
async fn changed(
    shop: Arc<Shop>,
    headers: HeaderMap,
    name: String,
    make: impl FnOnce(&Shop, &str, &str) -> Answer<Text> + Send + 'static,
) -> Answer<Json<JobAnswer>> {
    off(shop, move |shop| {
        let expected = expected(&headers)?;
        let text = make(shop, &name, &expected)?;
        if text.etag != expected {
            shop.works.cancel_job(&name);
            shop.tell(&name, &text.etag, &window(&headers));
        }
        Ok(Json(job_answer(shop, &name, text)))
    })
    .await
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Edits {
    edits: Vec<Edit>,
}

async fn change(
    State(shop): OfShop,
    headers: HeaderMap,
    Path(name): Path<String>,
    Body(edits): Body<Edits>,
) -> Answer<Json<JobAnswer>> {
    changed(shop, headers, name, move |shop, name, expected| {
        let make = |text: &str| edited(text, &edits.edits);
        shop.jobs.change(name, expected, make)
    })
    .await
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct NewText {
    text: String,
}

async fn write(
    State(shop): OfShop,
    headers: HeaderMap,
    Path(name): Path<String>,
    Body(new): Body<NewText>,
) -> Answer<Json<JobAnswer>> {
    changed(shop, headers, name, move |shop, name, expected| {
        shop.jobs.change(name, expected, |_| Ok(new.text))
    })
    .await
}

async fn undo(
    State(shop): OfShop,
    headers: HeaderMap,
    Path(name): Path<String>,
) -> Answer<Json<JobAnswer>> {
    let step = |shop: &Shop, name: &str, expected: &str| shop.jobs.step(name, expected, Step::Undo);
    changed(shop, headers, name, step).await
}

async fn redo(
    State(shop): OfShop,
    headers: HeaderMap,
    Path(name): Path<String>,
) -> Answer<Json<JobAnswer>> {
    let step = |shop: &Shop, name: &str, expected: &str| shop.jobs.step(name, expected, Step::Redo);
    changed(shop, headers, name, step).await
}

async fn remove(
    State(shop): OfShop,
    headers: HeaderMap,
    Path(name): Path<String>,
) -> Answer<StatusCode> {
    off(shop, move |shop| {
        let also = |aside: &str| set_aside(shop, &name, aside);
        shop.jobs.remove(&name, &expected(&headers)?, also)?;
        shop.works.cancel_job(&name);
        shop.tell(&name, "", &window(&headers));
        Ok(StatusCode::NO_CONTENT)
    })
    .await
}

/// Puts what is kept of a job beside its file and its versions under another name; whether there
/// were records of it.
fn set_aside(shop: &Shop, name: &str, aside: &str) -> Answer<bool> {
    let were_any = shop.records.rename(name, aside)?;
    papers::rename(shop, name, aside)?;
    Ok(were_any)
}
