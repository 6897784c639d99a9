//! What a job leaves to be chosen: `thickness = "auto"` and baffles at `auto`.
//!
//! Every sheet of the stock with one to a few baffles more than the rule asks for is laid out and
//! priced; from the cheapest on they go through the whole-tank check until one holds.

use super::bulge_limit;
use super::change::with_baffles;
use super::trial::{Adds, Trial};
use crate::case::{CaseId, LoadKind};
use crate::check::whole::Score;
use crate::finding::{Finding, Grade, Quantity};
use crate::panels::placed_by_rule;
use crate::watch::Watch;
use brimful_job::{
    About, DefaultReason, DefaultSource, DefaultUsed, DefaultValue, InnerKind, InnerPlace, Job,
};
use brimful_units::{Length, show};

/// Baffles tried beyond those of the rule.
const MORE_BAFFLES: usize = 3;
/// Tanks tried at most.
const MOST_TRIED: usize = 12;

/// A job in which nothing is left to be chosen.
pub struct Settled {
    /// The job.
    pub job: Job,
    /// What was chosen for it.
    pub chosen: Chosen,
}

/// What was chosen where a job left something to be chosen.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Chosen {
    /// What was tried, cheapest first.
    tried: Vec<(Variant, Found)>,
    /// Which of them is taken; none: there was nothing to choose.
    taken: Option<usize>,
}

/// A sheet and places of baffles, where they are free.
#[derive(Clone, Debug, PartialEq)]
struct Variant {
    sheet: Option<Length>,
    baffles: Option<Vec<Length>>,
}

impl Variant {
    fn text(&self, about: &About) -> String {
        let length = |length: &Length| Quantity::Length(*length).text(about);
        let sheet = self
            .sheet
            .iter()
            .map(|it| format!("sheet of {}", Quantity::Thickness(*it).text(about)));
        let baffles = self.baffles.iter().map(|at| {
            let word = if at.len() == 1 { "baffle" } else { "baffles" };
            let places: Vec<String> = at.iter().map(length).collect();
            format!("{} {word} at {}", at.len(), places.join(", "))
        });
        sheet.chain(baffles).collect::<Vec<_>>().join(" with ")
    }

    /// Thickest sheet, then most baffles.
    fn rank(&self) -> (f64, usize) {
        let sheet = self.sheet.map_or(0.0, Length::m);
        (sheet, self.baffles.as_ref().map_or(0, Vec::len))
    }
}

impl Chosen {
    fn taken(&self) -> Option<&(Variant, Found)> {
        self.tried.get(self.taken?)
    }

    /// What was chosen, as defaults.
    pub fn defaults(&self) -> Vec<DefaultUsed> {
        let chosen = |key: &str, value: DefaultValue| {
            let reason = DefaultReason::CheapestThatHolds;
            DefaultUsed::new(key, value, reason, DefaultSource::Computed)
        };
        let Some((variant, _)) = self.taken() else {
            return Vec::new();
        };
        let sheet = variant.sheet;
        let sheet = sheet.map(|sheet| chosen("body.thickness", DefaultValue::Thickness(sheet)));
        let baffles = variant.baffles.as_ref();
        let baffles = baffles.map(|at| chosen("inner.at", DefaultValue::EvenlySpaced(at.len())));
        sheet.into_iter().chain(baffles).collect()
    }

    /// What was tried.
    pub fn finding(&self, about: &About) -> Option<Finding> {
        let (variant, found) = self.taken()?;
        let taken = variant.text(about);
        let says = match found {
            Found::Holds => format!("{taken} is the cheapest that holds."),
            _ => format!("None that was tried holds; {taken} is taken."),
        };
        let tried: Vec<String> = self
            .tried
            .iter()
            .map(|(variant, found)| format!("{} {}", variant.text(about), found.text()))
            .collect();
        Some(
            Finding::new(
                Grade::Note,
                "auto",
                format!("{says} Tried, cheapest first: {}.", tried.join("; ")),
            )
            .source("every sheet of the stock, with baffles from the rule of 46 CFR 182.440(a)(8) up, through the whole-tank check"),
        )
    }
}

impl Settled {
    /// A job that is taken as it stands.
    pub fn untouched(job: Job) -> Self {
        Self {
            job,
            chosen: Chosen::default(),
        }
    }
}

/// Chooses what the job leaves to be chosen.
pub fn settle(job: Job, watch: &dyn Watch) -> Settled {
    let choices = choices(&job);
    if choices.is_empty() {
        return Settled::untouched(job);
    }
    let limit = bulge_limit(&job);
    let mut tried = Vec::new();
    let mut taken: Option<(usize, Choice)> = None;
    for (number, (choice, trial)) in by_cost(choices).into_iter().take(MOST_TRIED).enumerate() {
        if watch.is_cancelled() {
            break;
        }
        let text = choice.variant.text(&job.about);
        watch.step(&format!("trying {text}"));
        let found = look_at(&trial, limit, watch);
        let holds = found == Found::Holds;
        tried.push((choice.variant.clone(), found));
        // By cost is not by strength: of those that fail the thickest with most baffles is kept.
        let beats = |other: &Choice| choice.variant.rank() > other.variant.rank();
        if holds || taken.as_ref().is_none_or(|(_, other)| beats(other)) {
            taken = Some((number, choice));
        }
        if holds {
            break;
        }
    }
    match taken {
        Some((number, choice)) => Settled {
            job: choice.job,
            chosen: Chosen {
                tried,
                taken: Some(number),
            },
        },
        // Nothing can be laid out: the job as it stands tells why.
        None => Settled::untouched(job),
    }
}

/// A job with a sheet and baffles chosen.
struct Choice {
    variant: Variant,
    job: Job,
}

/// Every sheet with every number of baffles; none where the job leaves nothing to be chosen.
fn choices(job: &Job) -> Vec<Choice> {
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
        let Ok((body, _)) = crate::body::body(&job) else {
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
fn by_cost(choices: Vec<Choice>) -> Vec<(Choice, Trial)> {
    let laid_out = choices
        .into_iter()
        .filter_map(|choice| Trial::of(&choice.job).ok().map(|trial| (choice, trial)));
    let mut ready: Vec<(Choice, Trial)> = laid_out.collect();
    let costs: Vec<f64> = match ready.first() {
        Some((_, first)) => ready
            .iter()
            .map(|(_, trial)| Adds::between(first, trial).weight())
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

/// What a trial came to.
#[derive(Clone, Debug, PartialEq)]
enum Found {
    Holds,
    Over(Score),
    /// More than the mesh is sure of is asked, or a load case has no answer.
    Unsure(String),
}

impl Found {
    fn text(&self) -> String {
        let percent = |used: f64| format!("{} %", show::decimal(100.0 * used, 0));
        match self {
            Self::Holds => "holds".to_owned(),
            Self::Over(score) => format!(
                "uses {} of a panel and {} of a seam",
                percent(score.panel),
                if score.seam.is_finite() {
                    percent(score.seam)
                } else {
                    "what has no credit".to_owned()
                }
            ),
            Self::Unsure(reason) => reason.clone(),
        }
    }
}

/// The first mesh under the first load, then everything.
fn look_at(trial: &Trial, limit: Option<Length>, watch: &dyn Watch) -> Found {
    let narrow = |bulge: Length| limit.is_none_or(|limit| bulge <= limit);
    // Most tanks that fail, fail at rest.
    match trial.score(&[CaseId::of(LoadKind::Rest)], watch) {
        Err(reason) => return Found::Unsure(format!("has no answer: {reason}")),
        Ok(score) if score.panel > 1.0 || score.seam > 1.0 || !narrow(score.bulge) => {
            return Found::Over(score);
        }
        Ok(_) => {}
    }
    let whole = trial.whole(watch);
    match whole.score() {
        Some(score) if score.panel > 1.0 || score.seam > 1.0 || !narrow(score.bulge) => {
            Found::Over(score)
        }
        Some(_) if whole.holds() => Found::Holds,
        _ => Found::Unsure("is too near its limits, or a load has no answer".to_owned()),
    }
}
