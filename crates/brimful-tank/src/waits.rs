//! What has to be waited for while runs and beads cool, beyond what other work fills.
//!
//! The steps are followed in their order. In a step that welds, the run that is laid next is one whose seam is cool, of
//! the weld that has most runs left; only where there is none does the work stand still.

use brimful_job::Rates;
use brimful_panels::panel::Panel;
use brimful_panels::seam::Seam;
use brimful_panels::weld::heat::{Heat, Wait};
use brimful_panels::weld::order::{Step, Work};
use brimful_panels::weld::{SeamWeld, WeldSide};
use brimful_units::{Length, Time};

/// What is waited for while nothing else can be done to the tank.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Waiting {
    /// A run cools before the next is laid over it, with no other run of the step left to lay.
    NextRun,
    /// Beads cool before the tank is turned over.
    BeforeTurning,
    /// The last beads cool before clamps come off.
    LastBeads,
    /// The tank stands full in its leak test.
    LeakTest,
}

impl Waiting {
    /// A word for it that is the same in every language.
    pub const fn key(self) -> &'static str {
        match self {
            Self::NextRun => "next run",
            Self::BeforeTurning => "before turning",
            Self::LastBeads => "last beads",
            Self::LeakTest => "leak test",
        }
    }
}

/// One wait, all together.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WaitLine {
    /// For what.
    pub what: Waiting,
    /// How long, all together.
    pub time: Time,
}

/// What is waited for in the order of work until the last bead is cool.
pub fn cooling(
    (panels, seams): (&[Panel], &[Seam]),
    welds: &[SeamWeld],
    steps: &[Step],
    heat: &Heat,
    rates: &Rates,
) -> Vec<WaitLine> {
    let mut bench = Bench {
        panels,
        seams,
        heat,
        rates,
        now: Time::ZERO,
        cold: Time::ZERO,
        waited: [Time::ZERO; 3],
    };
    for step in steps {
        bench.work(step, welds);
    }
    bench.stand_until_cold(Waiting::LastBeads);
    let lines = WAITS.into_iter().zip(bench.waited);
    let lines = lines.map(|(what, time)| WaitLine { what, time });
    lines.filter(|line| line.time > Time::ZERO).collect()
}

const WAITS: [Waiting; 3] = [Waiting::NextRun, Waiting::BeforeTurning, Waiting::LastBeads];

/// Runs of a weld that are left to lay.
struct Left<'a> {
    weld: &'a SeamWeld,
    runs: usize,
    /// When the next may be laid.
    ready: Time,
}

impl<'a> Left<'a> {
    fn of(weld: &'a SeamWeld) -> Self {
        Self {
            weld,
            runs: weld.runs,
            ready: Time::ZERO,
        }
    }
}

struct Bench<'a> {
    panels: &'a [Panel],
    seams: &'a [Seam],
    heat: &'a Heat,
    rates: &'a Rates,
    now: Time,
    /// When all beads are cold enough to be let go.
    cold: Time,
    /// As [`WAITS`] has them.
    waited: [Time; 3],
}

impl Bench<'_> {
    fn work(&mut self, step: &Step, welds: &[SeamWeld]) {
        let side = match step.work {
            Work::Set => {
                self.now += self.rates.panel_time * step.panels.len() as f64;
                return;
            }
            Work::Tack => {
                let length: Length = step.seams.iter().map(|&it| self.seams[it].length()).sum();
                self.now += length / self.rates.tack_speed;
                return;
            }
            Work::Turn => {
                self.stand_until_cold(Waiting::BeforeTurning);
                self.now += self.rates.turn_time;
                return;
            }
            Work::WeldInside => WeldSide::Inside,
            Work::WeldOutside => WeldSide::Outside,
        };
        let own = welds.iter().filter(|weld| weld.side == side);
        let own = own.filter(|weld| step.seams.contains(&weld.seam));
        let mut left: Vec<Left<'_>> = own.map(Left::of).collect();
        while let Some(at) = self.next(&left) {
            self.stand_until(left[at].ready, Waiting::NextRun);
            left[at].ready = self.lay(left[at].weld);
            left[at].runs -= 1;
            left.retain(|it| it.runs > 0);
        }
    }

    /// The place of what is laid next: of what is cool the weld with most runs left, else what is cool first.
    fn next(&self, left: &[Left<'_>]) -> Option<usize> {
        let places = || 0..left.len();
        let cool = places().filter(|&at| left[at].ready <= self.now);
        // The first of equals, in the order of the seams.
        let cool = cool.rev().max_by_key(|&at| left[at].runs);
        cool.or_else(|| places().min_by(|&a, &b| left[a].ready.total_cmp(&left[b].ready)))
    }

    /// Lays a run; when the next one may be laid over it.
    fn lay(&mut self, weld: &SeamWeld) -> Time {
        let scraping = weld.length / self.rates.scrape_speed;
        self.now += scraping + self.rates.run_time + weld.run_time();
        let Some(wait) = self.wait(weld.seam) else {
            return self.now;
        };
        self.cold = self.cold.max(self.now + wait.clamps);
        self.now + wait.next_run.unwrap_or(Time::ZERO)
    }

    /// How long the beads of a seam cool: as those of the thickness nearest to that of its thinner sheet.
    fn wait(&self, seam: usize) -> Option<Wait> {
        let sheets = self.seams[seam].panels.map(|it| self.panels[it].thickness);
        let thinner = sheets[0].min(sheets[1]);
        let off = |wait: &Wait| (wait.thickness - thinner).abs();
        let waits = self.heat.waits.iter().copied();
        waits.min_by(|a, b| off(a).total_cmp(&off(b)))
    }

    fn stand_until(&mut self, time: Time, what: Waiting) {
        let stands = (time - self.now).max(Time::ZERO);
        self.now += stands;
        if let Some(at) = WAITS.iter().position(|it| *it == what) {
            self.waited[at] += stands;
        }
    }

    fn stand_until_cold(&mut self, what: Waiting) {
        self.stand_until(self.cold, what);
    }
}
