//! Remedies: what would make a tank hold that does not, each tried and not guessed.
//!
//! The one loop of the trade: a change is made to the job, body, panels and welds are laid out
//! again, and the load cases that govern are run again on the first mesh. What holds there goes, cheapest
//! first, through everything that is checked of a tank: all loads on all meshes, the space, the way in, the
//! sheets on hand and the wanted litres. Where no change does by itself, two are tried together. The loop is
//! bounded, and says what it tried.

mod attempt;
mod auto;
mod change;
mod effort;
mod hatch;
mod ladder;
mod pair;
mod trial;
mod tried;

pub use auto::{AutoSelection, select};
pub use brimful_panels::finding::kind::{Adds, AutoResult, Variant, What};
pub use change::Change;
pub use effort::Effort;
pub use trial::NoTrial;
pub use tried::Remedy;

use attempt::Attempts;
use brimful_job::{Job, Opening};
use brimful_panels::case::CaseId;
use brimful_panels::finding::cause::{Cause, causes};
use brimful_panels::finding::kind::{RemedyKind, RoomKind, StrengthKind, WeldKind};
use brimful_panels::finding::{Finding, Grade, Kind, Part, Subject};
use brimful_panels::name::PanelName;
use brimful_panels::progress::{Progress, Step};
use brimful_panels::site::Site;
use brimful_strength::whole::{CaseRun, Figures, Score, Whole};
use change::{changes, slot_through, without_baffles};
use hatch::hatches;
use ladder::{Ladder, Rung};
use pair::pairs;
use rayon::prelude::*;
use std::sync::Arc;
use trial::Trial;

/// Changes that are run under all loads, at most, one by one and again two together.
const MOST_CHECKED: usize = 5;

/// A job that has gone through all checks.
pub struct Checked {
    /// What they say.
    pub findings: Vec<Finding>,
    /// What the loads come to.
    pub score: Option<Score>,
    /// What it takes to make.
    pub effort: Effort,
}

/// All checks of a job; none where it cannot be laid out.
pub type AllChecks<'a> = dyn Fn(&Job) -> Option<Checked> + Sync + 'a;

/// What was tried, and what was found.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Remedies {
    /// Everything tried: what cures first, of that what leaves least that stops the build, the cheapest of
    /// it first, and of two that cost alike the one that holds more.
    pub tried: Vec<Remedy>,
    /// What it comes to.
    pub findings: Vec<Finding>,
}

impl Remedies {
    /// Those that are shown to make the tank hold, the best first: what a maker may take.
    pub fn shown(&self) -> impl Iterator<Item = &Remedy> {
        self.tried.iter().filter(|remedy| remedy.is_shown())
    }

    /// The first change with which the tank holds, where the cause is that it is not strong enough. It may
    /// break something else.
    pub fn cure_of(&self, cause: &Cause<'_>) -> Option<&Remedy> {
        let kind = &cause.worst.kind;
        self.shown().find(|remedy| {
            (is_for_reach(&remedy.change.what) && is_not_laid(kind)) || is_of_strength(kind)
        })
    }
}

/// Whether a stronger tank is a cure.
fn is_of_strength(kind: &Kind) -> bool {
    matches!(
        kind,
        Kind::Strength(
            StrengthKind::SheetOverLimit { .. }
                | StrengthKind::WeldOverLimit { .. }
                | StrengthKind::AtLimit { .. }
                | StrengthKind::AddUp { .. }
                | StrengthKind::Buckles { .. }
                | StrengthKind::RootOpens { .. }
                | StrengthKind::RootAtLimit { .. }
                | StrengthKind::WithinMeshError { .. }
                | StrengthKind::NoAnswer { .. }
                | StrengthKind::Bulge { .. }
        )
    )
}

/// Whether a change makes room for gun and hand, or has their work done outside.
fn is_for_reach(what: &What) -> bool {
    matches!(what, What::Hatches { .. } | What::SlotThrough { .. })
}

/// Whether it is a seam that nothing can be laid at.
fn is_not_laid(kind: &Kind) -> bool {
    matches!(kind, Kind::Weld(WeldKind::CannotBeLaid(_)))
}

/// Whether a stronger or a stiffer tank is looked for: a root that may count in full is settled by test strips.
fn is_of_size(finding: &Finding) -> bool {
    let is_root = matches!(
        finding.kind,
        Kind::Strength(StrengthKind::RootAtLimit { .. })
    );
    (is_of_strength(&finding.kind) && !is_root)
        || matches!(finding.kind, Kind::Room(RoomKind::PanelInterferes { .. }))
}

/// Looks for changes that make the tank hold, if it does not. `now` is what all checks say of the job, `effort` what it takes to
/// make.
pub fn remedies(
    job: &Job,
    site: Option<&Arc<Site>>,
    whole: &Whole,
    now: &[Finding],
    effort: Effort,
    check: &AllChecks<'_>,
    progress: &dyn Progress,
) -> Remedies {
    let governing = governing(whole);
    let asks_for_it = |it: &Finding| it.grade != Grade::Note && is_of_size(it);
    let is_too_weak = now.iter().any(asks_for_it);
    let is_not_laid = now.iter().any(|it| is_not_laid(&it.kind));
    if governing.is_empty() || !(is_too_weak || is_not_laid) {
        return Remedies::default();
    }
    let Ok(trial) = Trial::of(job, site) else {
        return Remedies::default();
    };
    let search = Search {
        attempts: Attempts {
            job,
            governing: &governing,
            now: &trial,
            progress,
        },
        now,
        effort,
        check,
    };
    let mut kinds = vec![
        hatches(job, &trial),
        slot_through(job, &not_laid(now, &trial)),
    ];
    if is_too_weak {
        kinds.extend(changes(job, &trial));
        kinds.push(without_baffles(job, &over(now)));
    }
    let mut tried = search.through(kinds);
    if is_too_weak && !tried.iter().any(|remedy| search.is_enough(remedy)) {
        tried.extend(search.through(pairs(job, &trial)));
    }
    tried.sort_by(|a, b| {
        let cost = |it: &Remedy| it.adds.map_or(f64::INFINITY, |adds| adds.weight());
        let lost = |it: &Remedy| it.adds.map_or(0.0, |adds| -adds.rated.m3());
        let stops = |it: &Remedy| {
            let shown = (!it.cures(), !it.is_shown(), !it.holds);
            (shown, it.loses_much(), it.stops)
        };
        stops(a)
            .cmp(&stops(b))
            .then(cost(a).total_cmp(&cost(b)))
            .then(lost(a).total_cmp(&lost(b)))
    });
    let findings = vec![finding(&tried)];
    Remedies { tried, findings }
}

/// The panels that stand on an outer one where nothing can be laid.
fn not_laid<'a>(findings: &[Finding], trial: &'a Trial) -> Vec<&'a PanelName> {
    let seams = findings.iter().filter(|it| is_not_laid(&it.kind));
    let marks = seams.flat_map(|it| match &it.subject {
        Subject::Seams(marks) => marks.as_slice(),
        Subject::Seam(mark, _) => std::slice::from_ref(mark),
        _ => &[],
    });
    let both = marks.filter_map(|mark| trial.panels_of(mark));
    // Tongues go through an outer sheet alone.
    let standing = both.filter_map(|[standing, on]| on.role.is_outer().then_some(standing));
    standing.map(|panel| &panel.name).collect()
}

/// The panels that are over their limits, or whose foot is.
fn over(findings: &[Finding]) -> Vec<&PanelName> {
    let of_strength = |it: &&Finding| it.grade != Grade::Note && is_of_strength(&it.kind);
    let panels = findings.iter().filter(of_strength);
    let panels = panels.filter_map(|it| match &it.subject {
        Subject::Panel(name) | Subject::Seam(_, [name, _]) => Some(name),
        _ => None,
    });
    panels.collect()
}

/// Every change that is worth a trial, not tried yet; none where the job cannot be laid out.
pub fn untried(job: &Job, site: Option<&Arc<Site>>) -> Vec<Change> {
    let now = Trial::of(job, site);
    now.map_or_else(
        |_| Vec::new(),
        |now| {
            let names: Vec<&PanelName> = now.panels.iter().map(|it| &it.name).collect();
            [
                changes(job, &now).concat(),
                hatches(job, &now),
                slot_through(job, &names),
                without_baffles(job, &names),
            ]
            .concat()
        },
    )
}

/// The load cases that ask most of panels, of seams and of the room beside the tank.
fn governing(whole: &Whole) -> Vec<CaseId> {
    let kinds: [fn(&Figures) -> f64; 3] = [
        Figures::worst_panel,
        Figures::worst_seam,
        Figures::worst_bulge,
    ];
    let mut ids: Vec<CaseId> = Vec::new();
    for value in kinds {
        let by = |run: &&CaseRun| value(&run.figures);
        let worst = whole.cases.iter().max_by(|a, b| by(a).total_cmp(&by(b)));
        ids.extend(worst.map(|run| run.case.id));
    }
    ids.sort();
    ids.dedup();
    ids
}

/// What every change is tried with.
struct Search<'a> {
    attempts: Attempts<'a>,
    /// What all checks say of the job.
    now: &'a [Finding],
    /// What it takes to make as it is.
    effort: Effort,
    check: &'a AllChecks<'a>,
}

impl Search<'_> {
    /// Tries changes of several kinds: those that hold under the loads that govern go through all checks,
    /// cheapest first, until enough do; where one fails there the next more of its kind stands in for it.
    fn through(&self, kinds: Vec<Vec<Change>>) -> Vec<Remedy> {
        let attempts = &self.attempts;
        let kinds = kinds.into_par_iter();
        let mut ladders: Vec<Ladder> = kinds.map(|kind| Ladder::of(kind, attempts)).collect();
        let mut is_any_shown = false;
        for _ in 0..MOST_CHECKED {
            let next = ladders
                .iter_mut()
                .filter_map(|ladder| ladder.next(attempts));
            let first = next.min_by(|a, b| a.rank(attempts.now).total_cmp(&b.rank(attempts.now)));
            let Some(rung) = first.filter(|_| !attempts.progress.is_cancelled()) else {
                break;
            };
            // One that breaks something is enough of those.
            if is_any_shown && rung.breaks(attempts.now) > 0 {
                break;
            }
            self.check(rung);
            is_any_shown |= rung.remedy.as_ref().is_some_and(Remedy::is_shown);
            if rung.remedy.as_ref().is_some_and(|it| self.is_enough(it)) {
                break;
            }
        }
        ladders.into_iter().flat_map(Ladder::into_tried).collect()
    }

    /// Takes a change through all checks. What fails under any load on the first mesh goes no further.
    fn check(&self, rung: &mut Rung) {
        let Some(remedy) = &mut rung.remedy else {
            return;
        };
        let what = remedy.change.what.clone();
        self.attempts.progress.step(Step::CheckingChange(what));
        remedy.checked = true;
        let under_all = rung.trial.score(&[], self.attempts.progress);
        remedy.holds = under_all
            .as_ref()
            .is_ok_and(|score| self.attempts.bears(score));
        remedy.score = under_all.map_err(NoTrial::NoScore);
        if !remedy.holds {
            return;
        }
        let Some((checked, in_the_way)) = self.all_checks(&remedy.change) else {
            remedy.holds = false;
            return;
        };
        if let Some(score) = checked.score {
            remedy.score = Ok(score);
        }
        let efforts = [self.effort, checked.effort];
        remedy.adds = Some(rung.trial.adds_with(self.attempts.now, efforts));
        let found = [checked.findings, in_the_way].concat();
        let is_laid = !found.iter().any(|it| is_not_laid(&it.kind));
        remedy.holds = bears_all(&found) && (is_laid || !is_for_reach(&remedy.change.what));
        let stops: Vec<Cause<'_>> = that_stop(&found).collect();
        let is_new = |cause: &&Cause<'_>| {
            let mut now = that_stop(self.now);
            !now.any(|it| it.worst.kind.has_cause_of(&cause.worst.kind))
        };
        remedy.stops = stops.len();
        let broken = stops.iter().filter(is_new);
        remedy.breaks = broken.map(|it| it.worst.clone()).collect();
    }

    /// What all checks say of a change, with every fitting where the job has it; where that cannot be laid
    /// out, without those that the change was tried without, which are then in the way.
    fn all_checks(&self, change: &Change) -> Option<(Checked, Vec<Finding>)> {
        if change.job.has_new_openings(self.attempts.job) {
            return Some(((self.check)(&change.job)?, Vec::new()));
        }
        let as_written = Job {
            openings: self.attempts.job.openings.clone(),
            ..change.job.clone()
        };
        if let Some(checked) = (self.check)(&as_written) {
            return Some((checked, Vec::new()));
        }
        let stays = |opening: &&Opening| {
            let mut kept = change.job.openings.iter();
            !kept.any(|it| it.name == opening.name)
        };
        let without: Vec<&Opening> = self.attempts.job.openings.iter().filter(stays).collect();
        if without.is_empty() {
            return None;
        }
        let in_the_way = without.iter().map(|opening| {
            let subject = Subject::Opening(opening.name.clone());
            Finding::of(Grade::Stop, subject, RemedyKind::FittingInTheWay)
        });
        Some(((self.check)(&change.job)?, in_the_way.collect()))
    }

    /// Whether a change cures all that a stronger or stiffer tank is a cure of.
    fn is_enough(&self, remedy: &Remedy) -> bool {
        let for_reach = is_for_reach(&remedy.change.what);
        let is_cured = |cause: &Cause<'_>| {
            is_of_size(cause.worst) || (for_reach && is_not_laid(&cause.worst.kind))
        };
        let others = that_stop(self.now).filter(|cause| !is_cured(cause));
        remedy.cures() && !remedy.loses_much() && remedy.stops <= others.count()
    }
}

fn that_stop(findings: &[Finding]) -> impl Iterator<Item = Cause<'_>> {
    let causes = causes(findings).into_iter();
    causes.filter(|cause| cause.grade == Grade::Stop)
}

/// Whether nothing that a stronger tank is a cure of is left, and the strength check has an answer.
fn bears_all(findings: &[Finding]) -> bool {
    let is_left = |it: &Finding| {
        let has_no_answer = matches!(
            it.kind,
            Kind::Strength(StrengthKind::NoModel(_) | StrengthKind::CaseNotCovered(_))
        );
        it.grade != Grade::Note && (is_of_strength(&it.kind) || has_no_answer)
    };
    !findings.iter().any(is_left)
}

/// The best that was found, or that nothing was.
fn finding(tried: &[Remedy]) -> Finding {
    /// Changes that are named.
    const NAMED: usize = 3;
    let told = |remedy: &Remedy| (remedy.change.what.clone(), remedy.adds);
    let cures: Vec<_> = tried
        .iter()
        .filter(|remedy| remedy.cures())
        .take(NAMED)
        .map(told)
        .collect();
    let breaks = tried.iter().find(|remedy| remedy.is_shown());
    let tried = tried.len();
    let kind = match (cures.is_empty(), breaks) {
        (false, _) => RemedyKind::Hold {
            tried,
            cheapest: cures,
        },
        (true, Some(remedy)) => {
            let (what, adds) = told(remedy);
            RemedyKind::HoldsButBreaks { tried, what, adds }
        }
        (true, None) => RemedyKind::NoneHolds { tried },
    };
    Finding::of(Grade::Note, Subject::Part(Part::Remedies), kind)
}
