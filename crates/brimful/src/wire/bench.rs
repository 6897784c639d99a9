//! The order of work for the bench view.

use super::{panel, seam};
use brimful_tank::plan::Plan;
use brimful_tank::table::welding::Setting;
use brimful_tank::weld::bench::{self, BenchStep};
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
    prep: Vec<&'static str>,
    wait_s: Option<f64>,
    cautions: Vec<&'static str>,
}

#[derive(Debug, Serialize, JsonSchema)]
struct BenchSetting {
    quantity: &'static str,
    low: f64,
    high: f64,
    unit: &'static str,
    source: String,
}

/// The steps of a plan.
pub(crate) fn bench(plan: &Plan, words: &Words<'_>) -> Bench {
    let steps = bench::bench(&plan.welds, &plan.panels, &plan.seams, plan.job.about.units);
    Bench {
        stopped: plan.stops(),
        steps: steps
            .into_iter()
            .map(|step| twin(plan, step, words))
            .collect(),
    }
}

fn twin(plan: &Plan, step: BenchStep, words: &Words<'_>) -> Step {
    let settings = plan.welds.settings.iter().filter(|_| step.welds);
    Step {
        panels: step
            .panels
            .iter()
            .map(|&it| panel::mark(plan, it))
            .collect(),
        seams: step.seams.iter().map(|&it| seam::mark(plan, it)).collect(),
        settings: settings.map(|one| setting(one, words)).collect(),
        id: step.id,
        title: step.title,
        text: step.text,
        work: step.work,
        prep: step.prep.to_vec(),
        wait_s: step.wait.map(Time::s),
        cautions: step.cautions.iter().map(|caution| caution.text).collect(),
    }
}

fn setting(setting: &Setting, words: &Words<'_>) -> BenchSetting {
    BenchSetting {
        quantity: setting.quantity,
        low: setting.low,
        high: setting.high,
        unit: setting.unit,
        source: words.source(&setting.source).into(),
    }
}
