//! A change under the load cases that govern, on the first mesh.

use super::change::Change;
use super::trial::{NoTrial, Trial};
use super::tried::Remedy;
use brimful_job::Job;
use brimful_panels::case::CaseId;
use brimful_panels::progress::{Progress, Step};
use brimful_strength::whole::Score;

/// What every change is tried with first.
pub struct Attempts<'a> {
    /// The job as it is.
    pub job: &'a Job,
    /// The load cases that govern.
    pub governing: &'a [CaseId],
    /// The tank as it is.
    pub now: &'a Trial,
    pub progress: &'a dyn Progress,
}

impl Attempts<'_> {
    /// A change under the load cases that govern, on the first mesh.
    pub fn run(&self, change: &Change, trial: &Trial) -> Remedy {
        self.progress.step(Step::TryingChange(change.what.clone()));
        let score = trial.score(self.governing, self.progress);
        let adds = trial.adds_to(self.now);
        Remedy {
            change: change.clone(),
            holds: score.as_ref().is_ok_and(|score| self.bears(score)),
            checked: false,
            adds: Some(adds),
            loses: -adds.rated / self.now.rated(),
            breaks: Vec::new(),
            stops: 0,
            score: score.map_err(NoTrial::NoScore),
        }
    }

    /// Whether nothing is over its limit.
    pub fn bears(&self, score: &Score) -> bool {
        let limit = self.job.checks.bulge;
        let narrow = limit.is_none_or(|limit| score.bulge <= limit);
        score.panel <= 1.0 && score.seam <= 1.0 && narrow && !score.buckles
    }
}
