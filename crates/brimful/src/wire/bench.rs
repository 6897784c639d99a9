//! The order of work for the bench view.

use super::{panel, seam};
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
    steps: Vec<Step>,
}

#[derive(Debug, Serialize, JsonSchema)]
struct Step {
    /// The same as long as the step is the same.
    id: String,
    title: String,
    text: String,
    /// `test strip`, `set`, `tack`, `weld inside`, `turn`, `weld outside` or `water test`.
    work: &'static str,
    /// Marks.
    panels: Vec<String>,
    /// Marks.
    seams: Vec<String>,
    settings: Vec<BenchSetting>,
    prep: Vec<String>,
    wait_s: Option<f64>,
    cautions: Vec<String>,
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
    let steps = bench::bench(&plan.welds, &plan.panels, &plan.seams);
    Bench {
        stopped: plan.stops(),
        steps: steps
            .into_iter()
            .map(|step| twin(plan, step, words))
            .collect(),
    }
}

fn twin(plan: &Plan, step: BenchStep, words: &Words<'_>) -> Step {
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
        panels: panels.map(|&it| panel::mark(plan, it)).collect(),
        seams: seams.map(|&it| seam::mark(plan, it)).collect(),
        settings: settings.map(|one| setting(one, words)).collect(),
        prep: step.prep.iter().map(|&it| words.prep(it).into()).collect(),
        wait_s: step.wait.map(Time::s),
        cautions: cautions.map(|&it| words.caution(it).text.into()).collect(),
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
