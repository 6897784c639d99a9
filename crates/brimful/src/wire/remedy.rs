//! Changes that were worked out for a tank that does not hold, as the page offers them.

use brimful_tank::check::whole::Score;
use brimful_tank::plan::Plan;
use schemars::JsonSchema;
use serde::Serialize;

/// One change, before and after.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct Remedy {
    /// What is changed, and what to write in the job for it.
    says: String,
    holds: bool,
    before: Option<Comes>,
    /// Null where it could not be worked out; `why` says why.
    after: Option<Comes>,
    why: Option<String>,
    /// What it adds; less than nought where it saves.
    adds: Option<Adds>,
}

/// What the worst loads come to.
#[derive(Debug, Serialize, JsonSchema)]
struct Comes {
    /// The greatest use of any panel or seam; null where a seam has no credit at all.
    utilisation: Option<f64>,
    bulge_m: f64,
}

#[derive(Debug, Serialize, JsonSchema)]
struct Adds {
    sheet_kg: f64,
    rod_m: f64,
    hours_s: f64,
    /// In the currency of the quote; null without prices.
    money: Option<f64>,
}

/// All that were tried, cheapest that holds first.
pub(crate) fn remedies(plan: &Plan) -> Vec<Remedy> {
    let before = plan.whole.as_ref().and_then(|whole| whole.score());
    let twin = |remedy: &brimful_tank::remedy::Remedy| Remedy {
        says: remedy.change.clone(),
        holds: remedy.holds,
        before: before.as_ref().map(comes),
        after: remedy.score.as_ref().ok().map(comes),
        why: remedy.score.as_ref().err().cloned(),
        adds: remedy.adds.map(|adds| Adds {
            sheet_kg: adds.sheet.kg(),
            rod_m: adds.rod.m(),
            hours_s: adds.hours.s(),
            money: adds.money,
        }),
    };
    plan.remedies.tried.iter().map(twin).collect()
}

fn comes(score: &Score) -> Comes {
    let used = score.panel.max(score.seam);
    Comes {
        utilisation: used.is_finite().then_some(used),
        bulge_m: score.bulge.m(),
    }
}
