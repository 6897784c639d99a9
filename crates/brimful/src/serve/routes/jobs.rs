//! Jobs: their list, texts, changes, undo and redo.

use super::extract::{Body, IfMatch, JobName, Path, Window};
use super::handler::{ApiResult, App, blocking};
use super::papers;
use crate::edit::{Edit, edited};
use crate::serve::describe::{Created, Reply, summary};
use crate::serve::error::ApiError;
use crate::serve::job_answer::{JobAnswer, job_answer, title, written};
use crate::serve::jobs::Step;
use crate::serve::plans;
use crate::serve::state::AppState;
use crate::serve::text::Text;
use crate::verb::new::{EXAMPLES, example_text};
use aide::axum::ApiRouter;
use aide::axum::routing::{get_with, post_with, put_with};
use axum::Json;
use axum::extract::State;
use axum::response::NoContent;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use std::sync::Arc;

pub(super) fn routes() -> ApiRouter<Arc<AppState>> {
    let jobs = get_with(list, summary("All jobs")).post_with(create, summary("Begin a job"));
    let job = get_with(read, summary("One job"))
        .patch_with(change, summary("Change entries, all else left as it is"))
        .delete_with(
            remove,
            summary("Remove a job; its text stays among the versions"),
        );
    ApiRouter::new()
        .api_route("/jobs", jobs)
        .api_route(
            "/examples",
            get_with(examples, summary("Examples to begin from")),
        )
        .api_route("/jobs/{name}", job)
        .api_route(
            "/jobs/{name}/text",
            put_with(write, summary("Write the text as a whole")),
        )
        .api_route(
            "/jobs/{name}/undo",
            post_with(undo, summary("Go to the version before")),
        )
        .api_route(
            "/jobs/{name}/redo",
            post_with(redo, summary("Go to the version after")),
        )
}

/// One job in the list.
#[derive(Serialize, JsonSchema)]
struct ListedJob {
    name: String,
    title: String,
    changed_s: f64,
    etag: String,
    /// Whether it cannot be worked out as it is.
    fault: bool,
}

async fn list(State(app): App) -> ApiResult<Json<Vec<ListedJob>>> {
    blocking(app, |app| {
        let jobs = app.jobs.list()?.into_iter();
        // A file that cannot be read as text is listed with its fault.
        let listed = jobs.map(|job| {
            let text = app.jobs.read(&job.name).unwrap_or(Text::new(String::new()));
            ListedJob {
                title: title(written(&text.text).as_ref(), &job.name),
                fault: plans::read(&text).is_err(),
                etag: text.etag,
                changed_s: job.changed_s,
                name: job.name,
            }
        });
        Ok(Json(listed.collect()))
    })
    .await
}

/// An example to begin from.
#[derive(Serialize, JsonSchema)]
struct Example {
    name: &'static str,
    title: String,
}

async fn examples() -> Json<Vec<Example>> {
    let listed = EXAMPLES.iter().map(|&(name, text)| Example {
        name,
        title: title(written(text).as_ref(), name),
    });
    Json(listed.collect())
}

#[derive(Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "JobToCreate")]
struct NewJob {
    name: String,
    /// An example to begin from; null for the plain starter.
    like: Option<String>,
}

async fn create(
    State(app): App,
    Window(window): Window,
    Body(new): Body<NewJob>,
) -> ApiResult<Created<JobAnswer>> {
    blocking(app, move |app| {
        let text = example_text(new.like.as_deref()).ok_or_else(|| {
            ApiError::unprocessable(
                "There is no example of that name.",
                "Take one of /api/examples, or none for the plain starter.",
            )
        })?;
        let also = |aside: &str| set_aside(app, &new.name, aside);
        let text = app.jobs.create(&new.name, text, also)?;
        app.notify(&new.name, &text.etag, &window);
        Ok(Reply(job_answer(app, &new.name, text)))
    })
    .await
}

async fn read(
    State(app): App,
    Path(JobName { name }): Path<JobName>,
) -> ApiResult<Json<JobAnswer>> {
    blocking(app, move |app| {
        let text = app.jobs.read(&name)?;
        Ok(Json(job_answer(app, &name, text)))
    })
    .await
}

/// A job to be changed: its name, the etag it is changed from, and the window that asks.
struct Target {
    name: String,
    etag: String,
    window: String,
}

impl Target {
    fn new(JobName { name }: JobName, IfMatch(etag): IfMatch, Window(window): Window) -> Self {
        Self { name, etag, window }
    }
}

/// Makes a change, cancels work on the text before it, and notifies open windows.
async fn changed(
    app: Arc<AppState>,
    target: Target,
    make: impl FnOnce(&AppState, &Target) -> ApiResult<Text> + Send + 'static,
) -> ApiResult<Json<JobAnswer>> {
    blocking(app, move |app| {
        let text = make(app, &target)?;
        if text.etag != target.etag {
            app.work.cancel_job(&target.name);
            app.notify(&target.name, &text.etag, &target.window);
        }
        Ok(Json(job_answer(app, &target.name, text)))
    })
    .await
}

#[derive(Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Edits {
    edits: Vec<Edit>,
}

async fn change(
    State(app): App,
    Path(job): Path<JobName>,
    etag: IfMatch,
    window: Window,
    Body(edits): Body<Edits>,
) -> ApiResult<Json<JobAnswer>> {
    changed(app, Target::new(job, etag, window), move |app, target| {
        let make = |text: &str| {
            edited(text, &edits.edits).map_err(|refused| ApiError::edit_refused(&refused))
        };
        app.jobs.change(&target.name, &target.etag, make)
    })
    .await
}

#[derive(Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct NewText {
    text: String,
}

async fn write(
    State(app): App,
    Path(job): Path<JobName>,
    etag: IfMatch,
    window: Window,
    Body(new): Body<NewText>,
) -> ApiResult<Json<JobAnswer>> {
    changed(app, Target::new(job, etag, window), move |app, target| {
        let make = |_: &str| Ok(new.text);
        app.jobs.change(&target.name, &target.etag, make)
    })
    .await
}

async fn undo(
    State(app): App,
    Path(job): Path<JobName>,
    etag: IfMatch,
    window: Window,
) -> ApiResult<Json<JobAnswer>> {
    changed(app, Target::new(job, etag, window), |app, target| {
        app.jobs.step(&target.name, &target.etag, Step::Undo)
    })
    .await
}

async fn redo(
    State(app): App,
    Path(job): Path<JobName>,
    etag: IfMatch,
    window: Window,
) -> ApiResult<Json<JobAnswer>> {
    changed(app, Target::new(job, etag, window), |app, target| {
        app.jobs.step(&target.name, &target.etag, Step::Redo)
    })
    .await
}

async fn remove(
    State(app): App,
    Path(JobName { name }): Path<JobName>,
    IfMatch(etag): IfMatch,
    Window(window): Window,
) -> ApiResult<NoContent> {
    blocking(app, move |app| {
        let also = |aside: &str| set_aside(app, &name, aside);
        app.jobs.remove(&name, &etag, also)?;
        app.work.cancel_job(&name);
        app.notify(&name, "", &window);
        Ok(NoContent)
    })
    .await
}

/// Puts what is kept of a job beside its file and its versions under another name; whether there
/// were records of it.
fn set_aside(app: &AppState, name: &str, aside: &str) -> ApiResult<bool> {
    let were_any = app.records.rename(name, aside)?;
    papers::rename(app, name, aside)?;
    Ok(were_any)
}
