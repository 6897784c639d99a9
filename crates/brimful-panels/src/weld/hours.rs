//! Working time as a sum that can be followed, from the shop's own rates.

use super::seam_weld::SeamWeld;
use crate::panel::Panel;
use crate::seam::Seam;
use brimful_job::Job;
use brimful_units::{Length, Speed, Time};

/// What is done in one line of the sum.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Labour {
    /// Panels are marked, lifted and set.
    Setting,
    /// Seams are tacked.
    Tacking,
    /// Grooves are scraped before every run.
    Scraping,
    /// Runs are laid.
    Laying,
    /// Runs are started and ended.
    Starting,
    /// Openings are cut, and what goes in is fitted.
    Openings,
}

/// How much of it there is, with the shop's rate for it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Amount {
    /// So much along seams, at a speed.
    Along(Length, Speed),
    /// So many, each with its time.
    Each(usize, Time),
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

/// The sum, line by line; sawing is in the cut plan.
pub fn hours(job: &Job, panels: &[Panel], seams: &[Seam], welds: &[SeamWeld]) -> Vec<HoursLine> {
    let rates = &job.shop.rates;
    let laid: Length = welds
        .iter()
        .map(|weld| weld.length * weld.runs as f64)
        .sum();
    let seam_length: Length = seams.iter().map(Seam::length).sum();
    let runs: usize = welds.iter().map(|weld| weld.runs).sum();
    vec![
        count(Labour::Setting, panels.len(), rates.panel_time),
        along(Labour::Tacking, seam_length, rates.tack_speed),
        along(Labour::Scraping, laid, rates.scrape_speed),
        along(Labour::Laying, laid, rates.weld_speed),
        count(Labour::Starting, runs, rates.run_time),
        count(Labour::Openings, job.openings.len(), rates.opening_time),
    ]
}

/// All lines together.
pub fn total(lines: &[HoursLine]) -> Time {
    lines.iter().map(|line| line.time).sum()
}

fn along(what: Labour, length: Length, speed: Speed) -> HoursLine {
    HoursLine {
        what,
        amount: Amount::Along(length, speed),
        time: length / speed,
    }
}

fn count(what: Labour, number: usize, each: Time) -> HoursLine {
    HoursLine {
        what,
        amount: Amount::Each(number, each),
        time: each * number as f64,
    }
}
