//! Working time as a sum that can be followed, from the shop's own rates, and what has to be waited for beside it.

use crate::cut::{CutPlan, length_of_cuts, length_of_further_cuts};
use crate::leak_test::Stage;
use crate::waits::{WaitLine, Waiting, cooling};
use brimful_job::Job;
use brimful_panels::panel::Panel;
use brimful_panels::seam::Seam;
use brimful_panels::table::run::{mass, most};
use brimful_panels::weld::fixture::hold::{Fixtures, Holding};
use brimful_panels::weld::heat::Heat;
use brimful_panels::weld::laying::{SpeedBound, planned_output};
use brimful_panels::weld::order::{Step, Work};
use brimful_panels::weld::{SeamWeld, ShortRuns};
use brimful_units::{FlowRate, Length, Mass, MassRate, Speed, Time, Volume};

/// What is done in one line of the sum.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Labour {
    /// Blanks are sawn out of the sheets.
    Sawing,
    /// Angles, notches and bevels are cut on the blanks.
    FurtherCuts,
    /// Edges are chamfered or bevelled for welding.
    Bevelling,
    /// Holes are cut.
    Holes,
    /// Panels are marked, lifted and set.
    Setting,
    /// Clamps are set and taken off.
    Clamping,
    /// Seams are tacked.
    Tacking,
    /// Grooves are scraped before every run.
    Scraping,
    /// Runs are laid as fast as the shop welds.
    Laying,
    /// Runs are laid as fast as their rod melts.
    LayingByRod,
    /// Runs are laid as fast as the extruder gives.
    LayingByOutput,
    /// Short runs are laid through corners with the round nozzle, where another tool lays the long ones.
    LayingShort,
    /// Runs are started and ended.
    Starting,
    /// The tank is turned over.
    Turning,
    /// What goes in the openings is fitted.
    Fitting,
    /// The tank is filled for its leak test.
    Filling,
    /// Seams are looked at and readings taken in the leak test.
    Testing,
}

impl Labour {
    /// A word for it that is the same in every language.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Sawing => "sawing",
            Self::FurtherCuts => "further cuts",
            Self::Bevelling => "bevelling",
            Self::Holes => "holes",
            Self::Setting => "setting",
            Self::Clamping => "clamping",
            Self::Tacking => "tacking",
            Self::Scraping => "scraping",
            Self::Laying => "laying",
            Self::LayingByRod => "laying by rod",
            Self::LayingByOutput => "laying by output",
            Self::LayingShort => "laying short runs",
            Self::Starting => "starting",
            Self::Turning => "turning",
            Self::Fitting => "fitting",
            Self::Filling => "filling",
            Self::Testing => "testing",
        }
    }
}

/// How much of it there is, with the rate for it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Amount {
    /// So much along edges or seams, at a speed.
    Along(Length, Speed),
    /// So many, each with its time.
    Each(usize, Time),
    /// So much melt, at what the extruder gives.
    Laid(Mass, MassRate),
    /// So much water, at a flow.
    Filled(Volume, FlowRate),
}

impl Amount {
    fn time(self) -> Time {
        match self {
            Self::Along(length, speed) => length / speed,
            Self::Each(count, time) => time * count as f64,
            Self::Laid(mass, rate) => mass / rate,
            Self::Filled(volume, rate) => volume / rate,
        }
    }
}

/// One line of the sum.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HoursLine {
    /// What is done.
    pub what: Labour,
    /// How much of it.
    pub amount: Amount,
    /// The time it takes.
    pub time: Time,
}

/// Working time line by line, and the waits beside it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Hours {
    /// Work; lines of nothing are left out.
    pub lines: Vec<HoursLine>,
    /// Waits in which nothing can be done to this tank. Cooling is in it where it is known.
    pub waits: Vec<WaitLine>,
}

impl Hours {
    /// All work together.
    pub fn work(&self) -> Time {
        self.lines.iter().map(|line| line.time).sum()
    }

    /// All waits together.
    pub fn waiting(&self) -> Time {
        self.waits.iter().map(|line| line.time).sum()
    }
}

/// What a tank is made of, as far as its hours need it.
#[derive(Clone, Copy)]
pub struct Made<'a> {
    /// With the rates.
    pub job: &'a Job,
    /// All panels.
    pub panels: &'a [Panel],
    /// All seams.
    pub seams: &'a [Seam],
    /// What is laid into them.
    pub welds: &'a [SeamWeld],
    /// The order of work.
    pub steps: &'a [Step],
    /// What holds each panel while it is tacked and welded.
    pub fixtures: &'a Fixtures,
    /// How long beads cool; none where it is not known or not asked for.
    pub heat: Option<&'a Heat>,
    /// How the sheets are cut.
    pub cut: &'a CutPlan,
    /// What the tank weighs empty.
    pub empty: Mass,
    /// What each of its rooms for liquid holds to the brim.
    pub rooms: &'a [Volume],
}

/// The hours of a tank.
pub fn hours(made: &Made<'_>) -> Hours {
    let rates = &made.job.shop.rates;
    let along = |length, speed| Amount::Along(length, speed);
    let short = made
        .welds
        .iter()
        .filter_map(|weld| weld.short_runs.as_ref());
    let laid_short: Length = short.clone().map(ShortRuns::laid).sum();
    let laid: Length = made.welds.iter().map(SeamWeld::laid).sum::<Length>() + laid_short;
    let long_runs = made
        .welds
        .iter()
        .filter(|it| it.long_length() > Length::ZERO);
    let long_runs: usize = long_runs.map(|weld| weld.runs).sum();
    let short_runs: usize = short.map(|short| short.begun * short.runs).sum();
    let seams: Length = made.seams.iter().map(Seam::length).sum();
    let stages = Stage::ALL.len() * made.rooms.len();
    let clamps = made.fixtures.holdings.iter().map(Holding::clamps).sum();
    let lines = [
        (
            Labour::Sawing,
            along(length_of_cuts(made.cut), rates.cut_speed),
        ),
        (
            Labour::FurtherCuts,
            along(length_of_further_cuts(made.panels), rates.cut_speed),
        ),
        (Labour::Bevelling, along(bevelled(made), rates.bevel_speed)),
        (
            Labour::Holes,
            Amount::Each(holes(made.panels), rates.hole_time),
        ),
        (
            Labour::Setting,
            Amount::Each(made.panels.len(), rates.panel_time),
        ),
        (Labour::Clamping, Amount::Each(clamps, rates.clamp_time)),
        (Labour::Tacking, along(seams, rates.tack_speed)),
        (Labour::Scraping, along(laid, rates.scrape_speed)),
    ];
    let later = [
        (
            Labour::Starting,
            Amount::Each(long_runs + short_runs, rates.run_time),
        ),
        (Labour::Turning, Amount::Each(turns(made), rates.turn_time)),
        (
            Labour::Fitting,
            Amount::Each(made.job.openings.len(), rates.opening_time),
        ),
        (
            Labour::Filling,
            Amount::Filled(made.rooms.iter().copied().sum(), rates.fill_rate),
        ),
        (Labour::Testing, Amount::Each(stages, rates.stage_time)),
    ];
    let lines = lines.into_iter().chain(laying(made)).chain(later);
    let lines = lines.map(|(what, amount)| HoursLine {
        what,
        amount,
        time: amount.time(),
    });
    Hours {
        lines: lines.filter(|line| line.time > Time::ZERO).collect(),
        waits: waits(made),
    }
}

/// Laying runs, a line for each thing that bounds the speed.
fn laying(made: &Made<'_>) -> Vec<(Labour, Amount)> {
    let mut lines = Vec::new();
    for (bound, what) in [
        (SpeedBound::Shop, Labour::Laying),
        (SpeedBound::Rod, Labour::LayingByRod),
        (SpeedBound::Output, Labour::LayingByOutput),
    ] {
        let own = || made.welds.iter().filter(|weld| weld.bound == bound);
        let Some(first) = own().next() else {
            continue;
        };
        let amount = match bound {
            // Of these every run has the same speed: that of the shop, or of its one rod.
            SpeedBound::Shop | SpeedBound::Rod => {
                Amount::Along(own().map(SeamWeld::laid).sum(), first.speed)
            }
            SpeedBound::Output => {
                let by_long =
                    |weld: &SeamWeld| weld.laid_mass() * (weld.long_length() / weld.length);
                Amount::Laid(own().map(by_long).sum(), planned_output(made.job))
            }
        };
        lines.push((what, amount));
    }
    let short = || {
        made.welds
            .iter()
            .filter_map(|weld| weld.short_runs.as_ref())
    };
    // All of them have the one speed of the round nozzle.
    lines.extend(short().next().map(|first| {
        let length = short().map(ShortRuns::laid).sum();
        (Labour::LayingShort, Amount::Along(length, first.speed))
    }));
    lines
}

/// Edges that are chamfered or bevelled.
fn bevelled(made: &Made<'_>) -> Length {
    let edges = |weld: &SeamWeld| weld.length * weld.preparation.edges() as f64;
    made.welds.iter().map(edges).sum()
}

/// Openings and slots, and holes that the body itself has.
fn holes(panels: &[Panel]) -> usize {
    let of = |panel: &Panel| panel.cut.cutouts.len() + panel.cut.loops.len().saturating_sub(1);
    panels.iter().map(of).sum()
}

/// People at all turns together: each turn takes as many as its weight does.
fn turns(made: &Made<'_>) -> usize {
    let turns = made.steps.iter().filter(|step| step.work == Work::Turn);
    turns.count() * people(made.empty)
}

/// People that it takes to turn so much over: two at least, since what is turned slips and swings.
pub fn people(weight: Mass) -> usize {
    let by_weight = (weight / mass("lifting", "one person")).ceil();
    by_weight.max(most("lifting", "fewest at a turn")) as usize
}

/// While beads cool, and while the tank stands in its leak test with nobody looking at it.
fn waits(made: &Made<'_>) -> Vec<WaitLine> {
    let rates = &made.job.shop.rates;
    let tank = (made.panels, made.seams);
    let cooling = |heat| cooling(tank, made.welds, made.steps, heat, rates);
    let mut lines = made.heat.map_or_else(Vec::new, cooling);
    let stages = Stage::ALL.map(|stage| (stage.wait() - rates.stage_time).max(Time::ZERO));
    let stages: Time = stages.into_iter().sum();
    lines.push(WaitLine {
        what: Waiting::LeakTest,
        time: stages * made.rooms.len() as f64,
    });
    lines.retain(|line| line.time > Time::ZERO);
    lines
}
