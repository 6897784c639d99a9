//! Remedies: what would make a tank hold that does not, each tried and not guessed.
//!
//! The one loop of the trade: a change is made to the job, body, panels and welds are laid out
//! again, and the load cases that govern are run again on the first mesh. What holds then is run
//! under all that ask for more than half before it is offered. The loop is bounded, and says what it
//! tried.

mod auto;
mod change;
mod trial;

pub use auto::{AutoSelection, select};
pub use brimful_panels::finding::kind::{Adds, AutoResult, Variant, What};
pub use trial::NoTrial;

use brimful_job::Job;
use brimful_panels::case::CaseId;
use brimful_panels::finding::cause::Cause;
use brimful_panels::finding::kind::{RemedyKind, StrengthKind};
use brimful_panels::finding::{Finding, Grade, Kind, Part, Subject};
use brimful_panels::progress::{Progress, Step};
use brimful_panels::site::Site;
use brimful_strength::whole::{CaseRun, Figures, Score, Whole};
use brimful_units::Length;
pub use change::Change;
use change::changes;
use rayon::prelude::*;
use std::sync::Arc;
use trial::Trial;

/// A change that was tried.
#[derive(Clone, Debug, PartialEq)]
pub struct Remedy {
    /// What is changed.
    pub change: Change,
    /// What it comes to: under the load cases that governed, or where it holds under all that ask
    /// for more than half of something.
    pub score: Result<Score, NoTrial>,
    /// Whether everything that was over its limit holds.
    pub holds: bool,
    /// What it adds.
    pub adds: Option<Adds>,
    /// Whether it takes the tank below the litres that are wanted, which it holds as it is.
    pub below_wanted: bool,
}

/// What was tried, and what was found.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Remedies {
    /// Everything tried: what holds first, of that what still holds the wanted litres, the cheapest
    /// of it first, and of two that cost alike the one that holds more.
    pub tried: Vec<Remedy>,
    /// What it comes to.
    pub findings: Vec<Finding>,
}

impl Remedies {
    /// The cheapest change that makes the tank hold, where that cures a cause: for what stops the build
    /// by strength.
    pub fn cure_of(&self, cause: &Cause<'_>) -> Option<&Remedy> {
        let by_strength = matches!(
            cause.worst.kind,
            Kind::Strength(
                StrengthKind::SheetOverLimit { .. }
                    | StrengthKind::WeldOverLimit { .. }
                    | StrengthKind::AtLimit { .. }
                    | StrengthKind::AddUp { .. }
                    | StrengthKind::RootOpens { .. }
                    | StrengthKind::Bulge { .. }
            )
        );
        let mut cures = self.tried.iter();
        let cheapest = cures.find(|remedy| remedy.holds && !remedy.below_wanted);
        cheapest.filter(|_| by_strength)
    }
}

/// Looks for changes that make the tank hold, if it does not.
pub fn remedies(
    job: &Job,
    site: Option<&Arc<Site>>,
    whole: &Whole,
    progress: &dyn Progress,
) -> Remedies {
    let limit = job.checks.bulge;
    let names = governing(whole, limit);
    if names.is_empty() {
        return Remedies::default();
    }
    let much = asking_much(whole, &names);
    let Ok(now) = Trial::of(job, site) else {
        return Remedies::default();
    };
    let search = Search {
        governing: &names,
        much: &much,
        limit,
        progress,
    };
    let mut tried: Vec<Remedy> = changes(job, &now)
        .par_iter()
        .flat_map_iter(|kind| least_that_holds(kind, &now, &search))
        .collect();
    tried.sort_by(|a, b| {
        let cost = |it: &Remedy| it.adds.map_or(f64::INFINITY, |adds| adds.weight());
        let lost = |it: &Remedy| it.adds.map_or(0.0, |adds| -adds.rated.m3());
        b.holds
            .cmp(&a.holds)
            .then(a.below_wanted.cmp(&b.below_wanted))
            .then(cost(a).total_cmp(&cost(b)))
            .then(lost(a).total_cmp(&lost(b)))
    });
    let findings = vec![finding(&tried)];
    Remedies { tried, findings }
}

/// Every change that is worth a trial, not tried yet; none where the job cannot be laid out.
pub fn untried(job: &Job, site: Option<&Arc<Site>>) -> Vec<Change> {
    let now = Trial::of(job, site);
    now.map_or_else(|_| Vec::new(), |now| changes(job, &now).concat())
}

/// The load cases that ask most of panels, of seams and of the room beside the tank, where one of
/// them is over its limit; none where all holds.
fn governing(whole: &Whole, limit: Option<Length>) -> Vec<CaseId> {
    type Kind = (fn(&Figures) -> f64, f64);
    let limit = limit.map_or(f64::INFINITY, |limit| limit.m());
    let kinds: [Kind; 3] = [
        (Figures::worst_panel, 1.0),
        (Figures::worst_seam, 1.0),
        (Figures::worst_bulge, limit),
    ];
    let mut ids: Vec<CaseId> = Vec::new();
    for (value, limit) in kinds {
        let by = |run: &&CaseRun| value(&run.figures);
        let worst = whole.cases.iter().max_by(|a, b| by(a).total_cmp(&by(b)));
        let over = worst.filter(|run| by(run) > limit);
        ids.extend(over.map(|run| run.case.id));
    }
    ids.sort();
    ids.dedup();
    ids
}

/// The load cases that govern, and those that ask for more than half of what any panel or seam has; a
/// change that helps where most is asked does not double what little the others ask.
fn asking_much(whole: &Whole, governing: &[CaseId]) -> Vec<CaseId> {
    const HALF: f64 = 0.5;
    let asks = |run: &&CaseRun| {
        let most = run.figures.worst_panel().max(run.figures.worst_seam());
        most > HALF || governing.contains(&run.case.id)
    };
    whole
        .cases
        .iter()
        .filter(asks)
        .map(|run| run.case.id)
        .collect()
}

/// The least change of a kind that holds, looked for by halving: more of the same never helps less, so
/// that the most is tried first and where that does not hold nothing does. What cannot be laid out
/// is left out of the search, and listed.
fn least_that_holds(kind: &[Change], now: &Trial, search: &Search<'_>) -> Vec<Remedy> {
    let mut tried = Vec::new();
    let mut ready = Vec::new();
    for change in kind {
        match Trial::of(&change.job, now.site.as_ref()) {
            Ok(trial) => ready.push((change, trial)),
            Err(reason) => tried.push(Remedy {
                change: change.clone(),
                score: Err(reason.into()),
                holds: false,
                adds: None,
                below_wanted: false,
            }),
        }
    }
    // All before `fails` do not hold; all from `holds` on do.
    let (mut fails, mut holds) = (0, ready.len());
    let mut next = ready.len().checked_sub(1);
    while let Some(number) = next.filter(|_| !search.progress.is_cancelled()) {
        let (change, trial) = &ready[number];
        let remedy = search.attempt(change, trial, now);
        if remedy.holds {
            holds = number;
        } else {
            fails = number + 1;
        }
        tried.push(remedy);
        next = (fails < holds).then_some((fails + holds) / 2);
    }
    tried
}

/// What every trial is held against.
struct Search<'a> {
    /// The load cases that govern.
    governing: &'a [CaseId],
    /// Those that ask for more than half of something.
    much: &'a [CaseId],
    /// What the bulge may be.
    limit: Option<Length>,
    progress: &'a dyn Progress,
}

impl Search<'_> {
    /// Runs a change under the cases that governed; what holds then must hold under all that ask
    /// much.
    fn attempt(&self, change: &Change, trial: &Trial, now: &Trial) -> Remedy {
        self.progress.step(Step::TryingChange(change.what.clone()));
        let mut score = trial.score(self.governing, self.progress);
        if score.as_ref().is_ok_and(|score| self.holds(score)) && self.much != self.governing {
            score = trial.score(self.much, self.progress);
        }
        Remedy {
            change: change.clone(),
            holds: score.as_ref().is_ok_and(|score| self.holds(score)),
            adds: Some(trial.adds_to(now)),
            below_wanted: now.holds_wanted() && !trial.holds_wanted(),
            score: score.map_err(NoTrial::NoScore),
        }
    }

    fn holds(&self, score: &Score) -> bool {
        let narrow = self.limit.is_none_or(|limit| score.bulge <= limit);
        score.panel <= 1.0 && score.seam <= 1.0 && narrow
    }
}

/// The best that was found, or that nothing was.
fn finding(tried: &[Remedy]) -> Finding {
    /// Changes that are named.
    const NAMED: usize = 3;
    let cures = |remedy: &&Remedy| remedy.holds && !remedy.below_wanted;
    let hold = tried.iter().filter(cures).take(NAMED);
    let cheapest: Vec<_> = hold
        .map(|remedy| (remedy.change.what.clone(), remedy.adds))
        .collect();
    let tried = tried.len();
    let kind = match cheapest.is_empty() {
        true => RemedyKind::NoneHolds { tried },
        false => RemedyKind::Hold { tried, cheapest },
    };
    Finding::of(Grade::Note, Subject::Part(Part::Remedies), kind)
}
