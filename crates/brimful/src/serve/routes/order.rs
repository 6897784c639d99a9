//! The order of work: the build step by step in the plan's order or in one that is tried, and the poses of gun, hand and arm.

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
use brimful_panels::weld::assembly::Assembly;
use brimful_panels::weld::own_order::followed;
use brimful_tank::plan::Plan;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use std::sync::Arc;

pub(super) fn routes() -> ApiRouter<Arc<AppState>> {
    ApiRouter::new()
        .api_route(
            "/jobs/{name}/order",
            get_with(
                order,
                summary("The build step by step, in the plan's order or in the one asked for"),
            ),
        )
        .api_route(
            "/jobs/{name}/order/poses",
            get_with(
                poses,
                summary("A pose of gun, hand and arm at each place of a run"),
            ),
        )
}

#[derive(Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(inline)]
struct OrderQuery {
    /// Marks of the panels in the order that is tried, with commas between; ribs may be left out.
    panels: Option<String>,
    units: Option<Units>,
    language: Option<LanguageTag>,
}

/// The order of work, and the text it is of.
#[derive(Serialize, JsonSchema)]
struct OrderAnswer {
    etag: String,
    #[serde(flatten)]
    order: wire::order::OrderOfWork,
}

async fn order(
    State(app): App,
    Path(JobName { name }): Path<JobName>,
    Query(query): Query<OrderQuery>,
) -> ApiResult<Json<OrderAnswer>> {
    blocking(app, move |app| {
        let (etag, plan) = checked(app, &name)?;
        let assembly = assembly(&plan)?;
        let words = locale(query.language, query.units).words_of_plan(&plan);
        let order = match query.panels {
            None => assembly.order().to_vec(),
            Some(marks) => {
                let numbers = numbers(&plan, &marks)?;
                let names = numbers.iter().map(|&it| plan.panels[it].name.to_string());
                let names: Vec<String> = names.collect();
                let names = names.iter().map(String::as_str);
                followed(names, &plan.panels).map_err(|misfit| {
                    let said = words.order_misfit(&misfit);
                    ApiError::unprocessable(said.says, said.remedy)
                })?
            }
        };
        let order = wire::order::order(&plan, assembly, &order, &words);
        Ok(Json(OrderAnswer { etag, order }))
    })
    .await
}

#[derive(Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(inline)]
struct PosesQuery {
    /// The number of the run.
    run: usize,
    /// Marks of the panels that stand, with commas between.
    standing: String,
}

/// A pose a place of the run, and the text they are of.
#[derive(Serialize, JsonSchema)]
struct PosesAnswer {
    etag: String,
    /// In the order of its places; null where gun and arm have no pose at all.
    poses: Vec<Option<wire::order::Pose>>,
}

async fn poses(
    State(app): App,
    Path(JobName { name }): Path<JobName>,
    Query(query): Query<PosesQuery>,
) -> ApiResult<Json<PosesAnswer>> {
    blocking(app, move |app| {
        let (etag, plan) = checked(app, &name)?;
        let standing = numbers(&plan, &query.standing)?;
        let poses = assembly(&plan)?.poses(&plan.job, &plan.panels, query.run, &standing);
        let poses = poses.iter();
        let poses = poses.map(|it| it.as_ref().map(|it| wire::order::pose(&plan, it)));
        Ok(Json(PosesAnswer {
            etag,
            poses: poses.collect(),
        }))
    })
    .await
}

/// The whole plan, where it has been worked out.
fn checked(app: &AppState, name: &str) -> ApiResult<(String, Arc<Plan>)> {
    let text = app.jobs.read(name)?;
    match app.plans.known(name, &text)? {
        Some(plan) => Ok((text.etag, plan)),
        None => Err(ApiError::conflict(
            "The whole check of this text has not been run.",
            "Ask for it by POST to /api/jobs/NAME/work.",
        )),
    }
}

fn assembly(plan: &Plan) -> ApiResult<&Assembly> {
    plan.order.assembly.as_deref().ok_or_else(|| {
        ApiError::unprocessable(
            "The reach of this tank's runs is not known, so that no order can be told from another.",
            "See the findings about the order of work.",
        )
    })
}

/// The numbers of panels by their marks.
fn numbers(plan: &Plan, marks: &str) -> ApiResult<Vec<usize>> {
    let number = |mark: &str| {
        let of_mark = plan.panels.iter().position(|panel| panel.mark == mark);
        of_mark.ok_or_else(|| {
            ApiError::unprocessable(
                "There is no panel of that mark.",
                "Take the marks of /api/jobs/NAME/plan.",
            )
        })
    };
    let marks = marks.split(',').map(str::trim).filter(|it| !it.is_empty());
    marks.map(number).collect()
}
