//! What is worked out of a job: the draft at once, the whole where it has been worked out, the model
//! for pictures, liquid at any dip and tilt, the steps at the bench.

use super::{Answer, OfShop, Path, Query, off};
use crate::serve::Shop;
use crate::serve::planning::Units;
use crate::serve::refusal::Refusal;
use crate::wire;
use axum::extract::State;
use axum::routing::get;
use axum::{Json, Router};
use brimful_tank::plan::Plan;
use brimful_units::{Angle, UnitSystem};
use serde::{Deserialize, Serialize};
use std::sync::Arc;

pub(super) fn routes() -> Router<Arc<Shop>> {
    Router::new()
        .route("/jobs/{name}/plan", get(plan))
        .route("/jobs/{name}/model", get(model))
        .route("/jobs/{name}/liquid", get(liquid))
        .route("/jobs/{name}/bench", get(bench))
}

/// How surely it was checked, and of which text it is.
#[derive(Serialize)]
struct Answered<T> {
    etag: String,
    #[serde(flatten)]
    answer: T,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct PlanQuery {
    #[serde(default)]
    depth: Option<Depth>,
    #[serde(default)]
    units: Option<Units>,
}

#[derive(Clone, Copy, Deserialize, PartialEq, Eq)]
#[serde(rename_all = "snake_case")]
enum Depth {
    Quick,
    Whole,
    /// The whole where it has been worked out, else the draft.
    Best,
}

async fn plan(
    State(shop): OfShop,
    Path(name): Path<String>,
    Query(query): Query<PlanQuery>,
) -> Answer<Json<Checked>> {
    off(shop, move |shop| {
        let units = query.units.map(UnitSystem::from);
        let (etag, plan) = match query.depth.unwrap_or(Depth::Quick) {
            Depth::Quick => {
                let text = shop.jobs.read(&name)?;
                let plan = shop.planned.draft(&name, &text, units)?;
                (text.etag, plan)
            }
            Depth::Whole | Depth::Best => best(shop, &name, units)?,
        };
        if query.depth == Some(Depth::Whole) && plan.whole.is_none() {
            return Err(Refusal::conflict(
                "The whole check of this text has not been run.",
                "Ask for it by POST to /api/jobs/NAME/work.",
            ));
        }
        Ok(Json(Checked::of(&plan, etag)))
    })
    .await
}

/// The answer of `brimful check --json`, with the text it is of.
#[derive(Debug, Serialize)]
pub(super) struct Checked {
    #[serde(flatten)]
    document: wire::Document,
    draft: bool,
    etag: String,
}

impl Checked {
    pub(super) fn of(plan: &Plan, etag: String) -> Self {
        Self {
            document: wire::Document::check(plan, &crate::words::of_plan(plan)),
            draft: plan.whole.is_none(),
            etag,
        }
    }
}

/// The whole plan where it has been worked out, else the draft.
fn best(shop: &Shop, name: &str, units: Option<UnitSystem>) -> Answer<(String, Arc<Plan>)> {
    let text = shop.jobs.read(name)?;
    let plan = match shop.planned.known(name, &text, units)? {
        Some(plan) => plan,
        None => shop.planned.draft(name, &text, units)?,
    };
    Ok((text.etag, plan))
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct ModelQuery {
    /// The load it is shown under, by its id.
    #[serde(default)]
    bulge: Option<String>,
    #[serde(default)]
    units: Option<Units>,
}

async fn model(
    State(shop): OfShop,
    Path(name): Path<String>,
    Query(query): Query<ModelQuery>,
) -> Answer<Json<Answered<wire::model::Model>>> {
    off(shop, move |shop| {
        let (etag, plan) = best(shop, &name, query.units.map(UnitSystem::from))?;
        let answer = wire::model::model(&plan, query.bulge.as_deref());
        Ok(Json(Answered { etag, answer }))
    })
    .await
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct LiquidQuery {
    #[serde(default)]
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
    State(shop): OfShop,
    Path(name): Path<String>,
    Query(query): Query<LiquidQuery>,
) -> Answer<Json<wire::model::Liquid>> {
    off(shop, move |shop| {
        let tilts = [query.heel_rad, query.pitch_rad];
        if !query.dip_m.is_finite()
            || tilts
                .iter()
                .any(|tilt| !(-STEEPEST..=STEEPEST).contains(tilt))
        {
            return Err(Refusal::unusable(
                "A dip is a number of metres, and a tilt in use is at most 45 degrees.",
                "Give numbers within those limits.",
            ));
        }
        let (_, plan) = best(shop, &name, None)?;
        let wanted = |room: &&brimful_tank::liquid::Compartment| {
            query
                .compartment
                .as_ref()
                .is_none_or(|it| *it == room.id.to_string())
        };
        let room = plan.compartments.iter().find(wanted);
        let [heel, pitch] = tilts.map(Angle::from_rad);
        let found = room.and_then(|room| wire::model::liquid(room, query.dip_m, heel, pitch));
        let nothing = || Refusal::not_found("There is no compartment of that name.");
        found.map(Json).ok_or_else(nothing)
    })
    .await
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct BenchQuery {
    #[serde(default)]
    units: Option<Units>,
}

#[derive(Serialize)]
struct BenchAnswer {
    name: String,
    title: String,
    #[serde(flatten)]
    bench: wire::bench::Bench,
}

async fn bench(
    State(shop): OfShop,
    Path(name): Path<String>,
    Query(query): Query<BenchQuery>,
) -> Answer<Json<Answered<BenchAnswer>>> {
    off(shop, move |shop| {
        let (etag, plan) = best(shop, &name, query.units.map(UnitSystem::from))?;
        let answer = BenchAnswer {
            title: plan.job.about.name.clone(),
            bench: wire::bench::bench(&plan),
            name,
        };
        Ok(Json(Answered { etag, answer }))
    })
    .await
}
