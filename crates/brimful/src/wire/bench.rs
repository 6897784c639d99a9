//! The order of work for the bench view.

use super::mark;
use brimful_panels::table::welding::Setting;
use brimful_panels::weld::bench::{self, BenchStep, BenchWork};
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
    #[schemars(extend("enum" = ["test strip", "angle blocks", "edges", "set", "tack", "weld inside", "turn", "weld outside", "water test"]))]
    work: &'static str,
    /// How it is done.
    #[schemars(extend("enum" = ["plain", "on packers", "on its wall", "against", "closing panel up", "closing panel down", "right side up", "through hatches", "above and below", "while open"]))]
    how: &'static str,
    /// Marks.
    panels: Vec<String>,
    /// Marks.
    seams: Vec<String>,
    settings: Vec<BenchSetting>,
    prep: Vec<Prep>,
    /// What holds the panel that is set.
    held_by: Vec<String>,
    /// In which order runs pass the corners that the step comes to.
    corners: Vec<String>,
    /// What comes off after it.
    comes_off: Vec<String>,
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
    /// Of which tool, in words.
    tool: String,
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
        &plan.welds.welds,
        &plan.fixtures.blocks,
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
        held_by: held_by(plan, step.order, words),
        corners: corners(plan, work, words),
        comes_off: step.order.map_or_else(Vec::new, |number| {
            let off = words.comes_off(number, plan);
            off.into_iter().map(String::from).collect()
        }),
        wait_s: step.wait.map(Time::s),
        cautions: cautions.map(|&it| words.caution(it).text.into()).collect(),
    }
}

fn held_by(plan: &Plan, step: Option<usize>, words: &Words<'_>) -> Vec<String> {
    let mut holdings = plan.fixtures.holdings.iter();
    let own = step.and_then(|step| holdings.find(|it| it.step == step));
    let Some(own) = own else {
        return Vec::new();
    };
    let rules = words.holding_rules().into_iter();
    let rules = rules.filter(|_| !own.seams.is_empty());
    let said = words.held_by(own, plan).into_iter().chain(rules);
    said.map(String::from).collect()
}

fn corners(plan: &Plan, work: &BenchWork, words: &Words<'_>) -> Vec<String> {
    let side = match work {
        BenchWork::Order(step) => step.work.side(),
        _ => None,
    };
    let of_step = plan.corners.iter().filter(|it| {
        let mut seams = it.passes.iter().map(|pass| pass.seam);
        Some(it.side) == side && seams.any(|seam| work.seams().contains(&seam))
    });
    let said = words.corners_said(of_step, plan).into_iter();
    said.map(String::from).collect()
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
        tool: words.tool(setting.tool).into(),
        quantity: words.setting(setting.quantity).into(),
        low,
        high,
        unit,
        source: words.source(&setting.source).into(),
    }
}
