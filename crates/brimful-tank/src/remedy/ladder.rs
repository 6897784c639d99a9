//! Changes of one kind, the least first: more of the same never helps less.

use super::attempt::Attempts;
use super::change::Change;
use super::trial::Trial;
use super::tried::Remedy;

/// Changes of one kind, and what came of those that were tried.
pub struct Ladder {
    /// Those that can be laid out, the least first.
    rungs: Vec<Rung>,
    /// The least that may hold; past the last where none does.
    least: usize,
    /// Those that cannot be laid out.
    not_laid_out: Vec<Remedy>,
}

/// A change that can be laid out.
pub struct Rung {
    change: Change,
    /// It laid out.
    pub trial: Trial,
    /// What came of it, once it was tried.
    pub remedy: Option<Remedy>,
}

impl Rung {
    /// What it adds, and more than any cost for each thing that it is seen at once to break.
    pub fn rank(&self, now: &Trial) -> f64 {
        const MORE_THAN_ANY: f64 = 1e6;
        let adds = self.remedy.as_ref().and_then(|remedy| remedy.adds);
        let cost = adds.map_or(0.0, |adds| adds.weight());
        cost + MORE_THAN_ANY * self.breaks(now) as f64
    }

    /// How many things it is seen at once to break: a sheet that is not on hand, the wanted litres, a tenth
    /// of what the tank holds.
    pub fn breaks(&self, now: &Trial) -> usize {
        let trial = &self.trial;
        let breaks = [
            now.has_its_sheets() && !trial.has_its_sheets(),
            now.holds_wanted() && !trial.holds_wanted(),
            self.remedy.as_ref().is_some_and(Remedy::loses_much),
        ];
        breaks.into_iter().filter(|it| *it).count()
    }
}

impl Ladder {
    /// Looks for the least change of a kind that holds under the loads that govern, by halving: the most is
    /// tried first, and where that does not hold nothing does. What cannot be laid out is left out of the
    /// search, and listed.
    pub fn of(kind: Vec<Change>, attempts: &Attempts<'_>) -> Self {
        let (mut rungs, mut not_laid_out) = (Vec::new(), Vec::new());
        for change in kind {
            match Trial::of(&change.job, attempts.now.site.as_ref()) {
                Ok(trial) => rungs.push(Rung {
                    change,
                    trial,
                    remedy: None,
                }),
                Err(reason) => not_laid_out.push(Remedy {
                    change,
                    score: Err(reason.into()),
                    checked: false,
                    holds: false,
                    adds: None,
                    breaks: Vec::new(),
                    stops: 0,
                    loses: 0.0,
                }),
            }
        }
        let least = rungs.len();
        let mut ladder = Self {
            rungs,
            least,
            not_laid_out,
        };
        // All before `fails` do not hold; all from `least` on do.
        let mut fails = 0;
        let mut next = least.checked_sub(1);
        while let Some(number) = next.filter(|_| !attempts.progress.is_cancelled()) {
            match ladder.holds(number, attempts) {
                true => ladder.least = number,
                false => fails = number + 1,
            }
            next = (fails < ladder.least).then_some((fails + ladder.least) / 2);
        }
        ladder
    }

    /// Tries a change, if it has not been.
    fn holds(&mut self, number: usize, attempts: &Attempts<'_>) -> bool {
        let rung = &mut self.rungs[number];
        let tried = || attempts.run(&rung.change, &rung.trial);
        rung.remedy.get_or_insert_with(tried).holds
    }

    /// The least change that holds as far as is known and has not gone through all checks; none once one of
    /// the kind has and holds.
    pub fn next(&mut self, attempts: &Attempts<'_>) -> Option<&mut Rung> {
        while self.least < self.rungs.len() {
            if self.holds(self.least, attempts) {
                let rung = &mut self.rungs[self.least];
                let is_open = rung.remedy.as_ref().is_some_and(|remedy| !remedy.checked);
                return is_open.then_some(rung);
            }
            self.least += 1;
        }
        None
    }

    /// All that was tried.
    pub fn into_tried(self) -> impl Iterator<Item = Remedy> {
        let tried = self.rungs.into_iter().filter_map(|rung| rung.remedy);
        tried.chain(self.not_laid_out)
    }
}
