//! Long work: begun, followed, cancelled, fetched.

use super::extract::{Body, JobName, Path};
use super::handler::{ApiResult, App, blocking};
use super::papers::{self, Papers};
use super::plans::CheckedPlan;
use crate::serve::describe::{Accepted, JsonResponse, Reply, summary};
use crate::serve::error::ApiError;
use crate::serve::plans::{locale, read};
use crate::serve::state::AppState;
use crate::serve::text::Text;
use crate::serve::work::{Paper, Work, WorkKey, WorkKind, WorkRequest, WorkState};
use crate::wire;
use aide::axum::ApiRouter;
use aide::axum::routing::{delete_with, get_with, post_with};
use axum::Json;
use axum::extract::State;
use axum::response::NoContent;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use std::sync::Arc;

pub(super) fn routes() -> ApiRouter<Arc<AppState>> {
    ApiRouter::new()
        .api_route(
            "/jobs/{name}/work",
            post_with(start, summary("Begin long work, or join what is being done already; it is dropped when nobody has followed its events or asked for its result for 8 s")),
        )
        .api_route(
            "/work/{id}",
            delete_with(leave, summary("Leave work; with the last who asked for it, it is dropped")),
        )
        .api_route(
            "/work/{id}/result",
            get_with(result, summary("What work came to; why it failed, with the status of that, where it did")),
        )
}

/// The number of work in the path.
#[derive(Deserialize, JsonSchema)]
#[schemars(inline)]
pub(super) struct WorkId {
    pub(super) id: u64,
}

/// Work that has begun, or was going on already.
#[derive(Serialize, JsonSchema)]
struct Started {
    work_id: u64,
}

/// What work comes to, by what was asked for.
#[derive(Serialize, JsonSchema)]
#[serde(untagged)]
enum WorkResult {
    /// Of `whole`.
    Plan(Box<CheckedPlan>),
    /// Of `remedies`.
    Remedies { remedies: Vec<wire::Remedy> },
    /// Of `pack`.
    Pack(Papers),
    /// Of `fit`.
    Fit(Box<wire::Document>),
}

async fn start(
    State(app): App,
    Path(JobName { name }): Path<JobName>,
    Body(request): Body<WorkRequest>,
) -> ApiResult<Accepted<Started>> {
    let job = name.clone();
    let text = blocking(Arc::clone(&app), move |app| app.jobs.read(&job)).await?;
    let key = WorkKey {
        job: name.clone(),
        etag: text.etag.clone(),
        request,
    };
    let (work_id, started) = app.work.start(key);
    if let Some(work) = started {
        tokio::spawn(run(app, name, text, request, work));
    }
    Ok(Reply(Started { work_id }))
}

/// Waits for its turn, does the work and says what came of it.
async fn run(app: Arc<AppState>, name: String, text: Text, request: WorkRequest, work: Arc<Work>) {
    let turns = Arc::clone(&app);
    let Ok(_turn) = turns.work_slots.acquire().await else {
        return;
    };
    if work.is_cancelled() {
        return;
    }
    let doing = Arc::clone(&work);
    let done = blocking(app, move |app| {
        let result = done(app, &name, &text, request, &doing)?;
        serde_json::to_value(result).map_err(|fault| {
            ApiError::internal(
                format!("The answer cannot be written: {fault}."),
                "Please report it.",
            )
        })
    });
    work.finish(done.await);
}

fn done(
    app: &AppState,
    name: &str,
    text: &Text,
    WorkRequest { what, options }: WorkRequest,
    work: &Work,
) -> ApiResult<WorkResult> {
    let locale = locale(options.language, options.units);
    let job = read(text)?;
    let progress = &work.progress(locale.words(&job));
    Ok(match what {
        WorkKind::Whole => {
            let plan = app.plans.whole(name, text, progress)?;
            let words = locale.words_of_plan(&plan);
            let checked = CheckedPlan::new(&plan, &words, text.etag.clone());
            WorkResult::Plan(Box::new(checked))
        }
        WorkKind::Remedies => {
            let plan = app.plans.remedied(name, text, progress)?;
            let remedies = wire::remedies(&plan, &job, &locale.words_of_plan(&plan));
            WorkResult::Remedies { remedies }
        }
        WorkKind::Pack => {
            let plan = app.plans.remedied(name, text, progress)?;
            let paper = match options.paper {
                Some(Paper::Letter) => brimful_pack::Paper::Letter,
                Some(Paper::A4) | None => brimful_pack::Paper::A4,
            };
            WorkResult::Pack(papers::make(app, name, text, &plan, paper, progress)?)
        }
        WorkKind::Fit => {
            let fit = app.plans.fitted(name, text, progress)?;
            let words = locale.words(&fit.job);
            WorkResult::Fit(Box::new(wire::Document::fit(&fit, &words)))
        }
    })
}

async fn leave(State(app): App, Path(WorkId { id }): Path<WorkId>) -> ApiResult<NoContent> {
    app.work.leave(id)?;
    Ok(NoContent)
}

async fn result(
    State(app): App,
    Path(WorkId { id }): Path<WorkId>,
) -> ApiResult<JsonResponse<WorkResult>> {
    let work = app.work.of(id)?;
    // Polling keeps it going as following does.
    work.touch();
    match work.state() {
        WorkState::Done(result) => Ok(JsonResponse::new(Json(&*result))),
        WorkState::Failed(why) => Err((*why).clone()),
        WorkState::Cancelled => Err(ApiError::conflict(
            "That work was cancelled.",
            "Begin it again.",
        )),
        WorkState::Waiting | WorkState::Doing { .. } => Err(ApiError::conflict(
            "That work is not done yet.",
            "Follow its events until it is.",
        )),
    }
}
