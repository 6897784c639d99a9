//! What a job leaves to be chosen: `thickness = "auto"` and baffles at `auto`.
//!
//! Every sheet of the stock with one to a few baffles more than the rule asks for is laid out and
//! priced; from the cheapest on they go through the whole-tank check until one holds.

use super::change::with_baffles;
use super::trial::Trial;
use brimful_job::{
    DefaultReason, DefaultSource, DefaultUsed, DefaultValue, InnerKind, InnerPlace, Job,
};
use brimful_panels::body::body;
use brimful_panels::case::{CaseId, LoadKind};
use brimful_panels::finding::kind::{AutoResult, RemedyKind, Variant};
use brimful_panels::finding::{Finding, Grade, Part, Subject};
use brimful_panels::panels::placed_by_rule;
use brimful_panels::progress::{Progress, Step};
use brimful_panels::site::Site;
use brimful_strength::whole::Score;
use brimful_units::Length;
use std::sync::Arc;

/// Baffles tried beyond those of the rule.
const MORE_BAFFLES: usize = 3;
/// Tanks tried at most.
const MOST_TRIED: usize = 12;

/// A job in which nothing is left to be chosen, and how that was chosen.
pub struct AutoSelection {
    /// The job.
    pub job: Job,
    /// What was tried, cheapest first.
    tried: Vec<(Variant, AutoResult)>,
    /// Which of them is taken; none: there was nothing to choose.
    taken: Option<usize>,
}

impl AutoSelection {
    /// A job that is taken as it stands.
    pub fn none(job: Job) -> Self {
        Self {
            job,
            tried: Vec::new(),
            taken: None,
        }
    }

    /// What was chosen, as defaults.
    pub fn defaults(&self) -> Vec<DefaultUsed> {
        let chosen = |key: &str, value: DefaultValue| {
            let reason = DefaultReason::CheapestThatHolds;
            DefaultUsed::new(key, value, reason, DefaultSource::Computed)
        };
        let Some((variant, _)) = self.taken.and_then(|taken| self.tried.get(taken)) else {
            return Vec::new();
        };
        let sheet = variant.sheet;
        let sheet = sheet.map(|sheet| chosen("body.thickness", DefaultValue::Thickness(sheet)));
        let baffles = variant.baffles.as_ref();
        let baffles = baffles.map(|at| chosen("inner.at", DefaultValue::EvenlySpaced(at.len())));
        sheet.into_iter().chain(baffles).collect()
    }

    /// What was tried.
    pub fn finding(&self) -> Option<Finding> {
        let kind = RemedyKind::AutoSelected {
            tried: self.tried.clone(),
            taken: self.taken?,
        };
        let subject = Subject::Part(Part::Auto);
        Some(Finding::of(Grade::Note, subject, kind))
    }
}

/// Chooses what the job leaves to be chosen.
pub fn select(job: Job, site: Option<&Arc<Site>>, progress: &dyn Progress) -> AutoSelection {
    let choices = choices(&job, site);
    if choices.is_empty() {
        return AutoSelection::none(job);
    }
    let limit = job.checks.bulge;
    let mut tried = Vec::new();
    let mut taken: Option<(usize, Choice)> = None;
    for (number, (choice, trial)) in by_cost(choices, site)
        .into_iter()
        .take(MOST_TRIED)
        .enumerate()
    {
        if progress.is_cancelled() {
            break;
        }
        progress.step(Step::TryingVariant(choice.variant.clone()));
        let result = look_at(&trial, limit, progress);
        let holds = result == AutoResult::Holds;
        tried.push((choice.variant.clone(), result));
        // By cost is not by strength: of those that fail the thickest with most baffles is kept.
        let beats = |other: &Choice| rank(&choice.variant) > rank(&other.variant);
        if holds || taken.as_ref().is_none_or(|(_, other)| beats(other)) {
            taken = Some((number, choice));
        }
        if holds {
            break;
        }
    }
    match taken {
        Some((number, choice)) => AutoSelection {
            job: choice.job,
            tried,
            taken: Some(number),
        },
        // Nothing can be laid out: the job as it stands says why.
        None => AutoSelection::none(job),
    }
}

/// Thickest sheet, then most baffles.
fn rank(variant: &Variant) -> (f64, usize) {
    let sheet = variant.sheet.map_or(0.0, Length::m);
    (sheet, variant.baffles.as_ref().map_or(0, Vec::len))
}

/// A job with a sheet and baffles chosen.
struct Choice {
    variant: Variant,
    job: Job,
}

/// Every sheet with every number of baffles; none where the job leaves nothing to be chosen.
fn choices(job: &Job, site: Option<&Arc<Site>>) -> Vec<Choice> {
    let free_sheet = job.body.as_ref().is_some_and(|body| body.any_thickness);
    let is_free = |inner: &&brimful_job::Inner| {
        inner.kind == InnerKind::Baffle && inner.at == InnerPlace::Auto
    };
    let free_baffle = job.inner.iter().find(is_free);
    if !free_sheet && free_baffle.is_none() {
        return Vec::new();
    }
    let sheets: Vec<Option<Length>> = if free_sheet {
        let mut sheets: Vec<Length> = job.stock.sheets.iter().map(|it| it.thickness).collect();
        sheets.sort_by(Length::total_cmp);
        sheets.dedup();
        sheets.into_iter().map(Some).collect()
    } else {
        vec![None]
    };
    let mut choices = Vec::new();
    for sheet in sheets {
        let mut job = job.clone();
        if let (Some(sheet), Some(body)) = (sheet, &mut job.body) {
            body.thickness = Some(sheet);
            body.any_thickness = false;
        }
        let Ok((body, _)) = body(&job, site.map(Arc::as_ref)) else {
            continue;
        };
        let Some(inner) = free_baffle else {
            let baffles = None;
            choices.push(Choice {
                variant: Variant { sheet, baffles },
                job,
            });
            continue;
        };
        let least = placed_by_rule(&job, &body, inner);
        for count in least..=least + MORE_BAFFLES {
            let (job, places) = with_baffles(&job, &body, count, inner);
            let baffles = Some(places);
            choices.push(Choice {
                variant: Variant { sheet, baffles },
                job,
            });
        }
    }
    choices
}

/// Those that can be laid out, cheapest first.
fn by_cost(choices: Vec<Choice>, site: Option<&Arc<Site>>) -> Vec<(Choice, Trial)> {
    let laid_out = choices.into_iter().filter_map(|choice| {
        Trial::of(&choice.job, site)
            .ok()
            .map(|trial| (choice, trial))
    });
    let mut ready: Vec<(Choice, Trial)> = laid_out.collect();
    let costs: Vec<f64> = match ready.first() {
        Some((_, first)) => ready
            .iter()
            .map(|(_, trial)| trial.adds_to(first).weight())
            .collect(),
        None => Vec::new(),
    };
    let mut order: Vec<usize> = (0..ready.len()).collect();
    order.sort_by(|&a, &b| costs[a].total_cmp(&costs[b]).then(a.cmp(&b)));
    let mut slots: Vec<Option<(Choice, Trial)>> = ready.drain(..).map(Some).collect();
    order
        .into_iter()
        .filter_map(|number| slots[number].take())
        .collect()
}

/// The first mesh under the first load, then everything.
fn look_at(trial: &Trial, limit: Option<Length>, progress: &dyn Progress) -> AutoResult {
    let narrow = |bulge: Length| limit.is_none_or(|limit| bulge <= limit);
    let is_over = |score: &Score| score.panel > 1.0 || score.seam > 1.0 || !narrow(score.bulge);
    let over = |score: Score| AutoResult::Over {
        panel: score.panel,
        seam: score.seam,
    };
    // Most tanks that fail, fail at rest.
    match trial.score(&[CaseId::of(LoadKind::Rest)], progress) {
        Err(reason) => return AutoResult::NoAnswer(reason),
        Ok(score) if is_over(&score) => return over(score),
        Ok(_) => {}
    }
    let whole = trial.whole(progress);
    match whole.score() {
        Some(score) if is_over(&score) => over(score),
        Some(_) if whole.holds() => AutoResult::Holds,
        _ => AutoResult::Unsure,
    }
}
