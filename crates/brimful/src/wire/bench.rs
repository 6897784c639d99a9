//! The order of work for the bench view.

use super::mark;
use brimful_panels::table::welding::Setting;
use brimful_panels::weld::bench::{self, BenchStep};
use brimful_tank::plan::Plan;
use brimful_text::Words;
use brimful_units::Time;
use schemars::JsonSchema;
use serde::Serialize;

/// All steps of a job, one a screen.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct Bench {
    /// Whether a finding stops the build.
    stopped: bool,
    /// Whether only a draft has been worked out: what stops the build may not be known yet.
    draft: bool,
    steps: Vec<Step>,
}

/// A step at the bench.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "BenchStep")]
pub(super) struct Step {
    /// The same as long as the step is the same.
    id: String,
    title: String,
    text: String,
    /// What is done.
    #[schemars(extend("enum" = ["test strip", "set", "tack", "weld inside", "turn", "weld outside", "water test"]))]
    work: &'static str,
    /// How it is done.
    #[schemars(extend("enum" = ["plain", "on packers", "on its wall", "against", "lid up", "through hatches", "above and below", "while open"]))]
    how: &'static str,
    /// Marks.
    panels: Vec<String>,
    /// Marks.
    seams: Vec<String>,
    settings: Vec<BenchSetting>,
    prep: Vec<Prep>,
    wait_s: Option<f64>,
    cautions: Vec<String>,
}

/// What comes before a step.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "BenchPrep")]
struct Prep {
    /// The same in every language.
    id: bench::Prep,
    text: String,
}

#[derive(Debug, Serialize, JsonSchema)]
struct BenchSetting {
    quantity: String,
    low: f64,
    high: f64,
    unit: &'static str,
    source: String,
}

/// The steps of a plan.
pub(crate) fn bench(plan: &Plan, words: &Words<'_>) -> Bench {
    let steps = bench::bench(
        &plan.order.steps,
        plan.heat.as_ref(),
        &plan.panels,
        &plan.seams,
    );
    Bench {
        stopped: plan.stops(),
        draft: plan.whole.is_none(),
        steps: steps.into_iter().map(|it| step(plan, it, words)).collect(),
    }
}

pub(super) fn step(plan: &Plan, step: BenchStep, words: &Words<'_>) -> Step {
    let work = &step.work;
    let settings = plan.welds.settings.iter().filter(|_| work.welds());
    let panels = work.panels().iter();
    let seams = work.seams().iter();
    let cautions = step.cautions.iter();
    Step {
        id: step.id,
        title: words.bench_title(work, plan).into(),
        text: words.bench_text(work, plan).into(),
        work: work.key(),
        how: work.how(),
        panels: panels.map(|&it| mark::panel(plan, it)).collect(),
        seams: seams.map(|&it| mark::seam(plan, it)).collect(),
        settings: settings.map(|one| setting(one, words)).collect(),
        prep: step.prep.iter().map(|&it| prep(it, words)).collect(),
        wait_s: step.wait.map(Time::s),
        cautions: cautions.map(|&it| words.caution(it).text.into()).collect(),
    }
}

fn prep(id: bench::Prep, words: &Words<'_>) -> Prep {
    Prep {
        id,
        text: words.prep(id).into(),
    }
}

fn setting(setting: &Setting, words: &Words<'_>) -> BenchSetting {
    let ([low, high], unit) = words.dialled(setting.range);
    BenchSetting {
        quantity: words.setting(setting.quantity).into(),
        low,
        high,
        unit,
        source: words.source(&setting.source).into(),
    }
}
