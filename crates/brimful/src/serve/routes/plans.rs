//! What is worked out of a job: the draft at once, the whole where it has been worked out, the model
//! for pictures, liquid at any dip and tilt, the steps at the bench.

use super::extract::{JobName, Path, Query};
use super::handler::{ApiResult, App, blocking};
use crate::serve::describe::summary;
use crate::serve::error::ApiError;
use crate::serve::plans::{LanguageTag, Units, locale};
use crate::serve::state::AppState;
use crate::wire;
use aide::axum::ApiRouter;
use aide::axum::routing::get_with;
use axum::Json;
use axum::extract::State;
use brimful_tank::plan::Plan;
use brimful_text::Words;
use brimful_units::Angle;
use schemars::{JsonSchema, Schema};
use serde::{Deserialize, Serialize};
use serde_json::Value;
use std::sync::Arc;

pub(super) fn routes() -> ApiRouter<Arc<AppState>> {
    ApiRouter::new()
        .api_route(
            "/jobs/{name}/plan",
            get_with(plan, summary("What is worked out, with `draft` and `etag`")),
        )
        .api_route(
            "/jobs/{name}/model",
            get_with(
                model,
                summary("The shape for a picture; the bulge under the load case asked for"),
            ),
        )
        .api_route(
            "/jobs/{name}/liquid",
            get_with(liquid, summary("Liquid at a dip and tilt")),
        )
        .api_route(
            "/jobs/{name}/bench",
            get_with(bench, summary("The steps at the bench")),
        )
}

/// The model, and the text it is of.
#[derive(Serialize, JsonSchema)]
struct ModelAnswer {
    etag: String,
    #[serde(flatten)]
    model: wire::model::Model,
}

#[derive(Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(inline)]
struct PlanQuery {
    depth: Option<Depth>,
    units: Option<Units>,
    language: Option<LanguageTag>,
}

#[derive(Clone, Copy, Deserialize, JsonSchema, PartialEq, Eq)]
#[serde(rename_all = "snake_case")]
enum Depth {
    Quick,
    Whole,
    /// The whole where it has been worked out, else the draft.
    Best,
}

async fn plan(
    State(app): App,
    Path(JobName { name }): Path<JobName>,
    Query(query): Query<PlanQuery>,
) -> ApiResult<Json<CheckedPlan>> {
    blocking(app, move |app| {
        let (etag, plan) = match query.depth.unwrap_or(Depth::Quick) {
            Depth::Quick => {
                let text = app.jobs.read(&name)?;
                let plan = app.plans.draft(&name, &text)?;
                (text.etag, plan)
            }
            Depth::Whole | Depth::Best => best(app, &name)?,
        };
        if query.depth == Some(Depth::Whole) && plan.whole.is_none() {
            return Err(ApiError::conflict(
                "The whole check of this text has not been run.",
                "Ask for it by POST to /api/jobs/NAME/work.",
            ));
        }
        let words = locale(query.language, query.units).words_of_plan(&plan);
        Ok(Json(CheckedPlan::new(&plan, &words, etag)))
    })
    .await
}

/// The answer of `brimful check --json`, with the text it is of.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Plan", transform = as_checked)]
pub(super) struct CheckedPlan {
    #[serde(flatten)]
    document: wire::Document,
    /// Whether it was checked as a draft only.
    draft: bool,
    etag: String,
}

/// A check gives every section of a document but those of other verbs; none is null.
fn as_checked(schema: &mut Schema) {
    let Some(Value::Object(sections)) = schema.get_mut("properties") else {
        return;
    };
    sections.retain(|section, _| !["fit", "slosh", "pack"].contains(&section.as_str()));
    for section in sections.values_mut() {
        if let Some(choices) = section["anyOf"].as_array() {
            *section = choices[0].clone();
        } else if let Some(types) = section["type"].as_array() {
            section["type"] = types[0].clone();
        }
    }
    let required = sections.keys().cloned().map(Value::String).collect();
    schema.insert("required".to_owned(), Value::Array(required));
}

impl CheckedPlan {
    pub(super) fn new(plan: &Plan, words: &Words<'_>, etag: String) -> Self {
        Self {
            document: wire::Document::check(plan, words),
            draft: plan.whole.is_none(),
            etag,
        }
    }
}

/// The whole plan where it has been worked out, else the draft.
fn best(app: &AppState, name: &str) -> ApiResult<(String, Arc<Plan>)> {
    let text = app.jobs.read(name)?;
    let plan = match app.plans.known(name, &text)? {
        Some(plan) => plan,
        None => app.plans.draft(name, &text)?,
    };
    Ok((text.etag, plan))
}

#[derive(Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(inline)]
struct ModelQuery {
    /// The load case it is shown under, by its id.
    bulge: Option<String>,
    units: Option<Units>,
    language: Option<LanguageTag>,
}

async fn model(
    State(app): App,
    Path(JobName { name }): Path<JobName>,
    Query(query): Query<ModelQuery>,
) -> ApiResult<Json<ModelAnswer>> {
    blocking(app, move |app| {
        let (etag, plan) = best(app, &name)?;
        let words = locale(query.language, query.units).words_of_plan(&plan);
        let model = wire::model::model(&plan, query.bulge.as_deref(), &words);
        Ok(Json(ModelAnswer { etag, model }))
    })
    .await
}

#[derive(Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(inline)]
struct LiquidQuery {
    compartment: Option<String>,
    dip_m: f64,
    #[serde(default)]
    heel_rad: f64,
    #[serde(default)]
    pitch_rad: f64,
}

/// Steeper than this no tank stands, rad; the same limit as in the job file.
const STEEPEST: f64 = std::f64::consts::FRAC_PI_4;

async fn liquid(
    State(app): App,
    Path(JobName { name }): Path<JobName>,
    Query(query): Query<LiquidQuery>,
) -> ApiResult<Json<wire::model::Liquid>> {
    blocking(app, move |app| {
        let tilts = [query.heel_rad, query.pitch_rad];
        if !query.dip_m.is_finite()
            || tilts
                .iter()
                .any(|tilt| !(-STEEPEST..=STEEPEST).contains(tilt))
        {
            return Err(ApiError::unprocessable(
                "A dip is a number of metres, and a tilt in use is at most 45 degrees.",
                "Give numbers within those limits.",
            ));
        }
        let (_, plan) = best(app, &name)?;
        let wanted = |room: &&brimful_panels::liquid::Compartment| {
            let id = room.id.to_string();
            room.holds_liquid() && query.compartment.as_ref().is_none_or(|it| *it == id)
        };
        let room = plan.compartments.iter().find(wanted);
        let [heel, pitch] = tilts.map(Angle::from_rad);
        let found = room.and_then(|room| wire::model::liquid(room, query.dip_m, heel, pitch));
        let nothing = || ApiError::not_found("There is no compartment of that name.");
        found.map(Json).ok_or_else(nothing)
    })
    .await
}

#[derive(Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(inline)]
struct BenchQuery {
    units: Option<Units>,
    language: Option<LanguageTag>,
}

/// The steps at the bench, and the text they are of.
#[derive(Serialize, JsonSchema)]
struct BenchAnswer {
    etag: String,
    name: String,
    title: String,
    #[serde(flatten)]
    bench: wire::bench::Bench,
}

async fn bench(
    State(app): App,
    Path(JobName { name }): Path<JobName>,
    Query(query): Query<BenchQuery>,
) -> ApiResult<Json<BenchAnswer>> {
    blocking(app, move |app| {
        let (etag, plan) = best(app, &name)?;
        let words = locale(query.language, query.units).words_of_plan(&plan);
        Ok(Json(BenchAnswer {
            etag,
            title: plan.job.about.name.clone(),
            bench: wire::bench::bench(&plan, &words),
            name,
        }))
    })
    .await
}
