//! Working time as a sum that can be followed, from the shop's own rates.

use super::SeamWeld;
use crate::finding::Quantity;
use crate::panel::Panel;
use crate::seam::Seam;
use brimful_job::{About, Job};
use brimful_units::{Length, Speed, Time, UnitSystem};

/// One line of the sum.
#[derive(Clone, Debug, PartialEq)]
pub struct HoursLine {
    /// What is done.
    pub what: &'static str,
    /// How much of it: a length along seams in the units of the job, or a count.
    pub quantity: f64,
    /// Its unit: `m` or `ft`, or empty for a count.
    pub unit: &'static str,
    /// The shop's rate for it.
    pub rate: String,
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
    let along = |what, length, speed| along(&job.about, what, length, speed);
    vec![
        count(
            "marking, lifting and setting panels",
            panels.len(),
            rates.panel_time,
        ),
        along("tacking seams", seam_length, rates.tack_speed),
        along("scraping before every run", laid, rates.scrape_speed),
        along("laying runs", laid, rates.weld_speed),
        count("starting and ending runs", runs, rates.run_time),
        count(
            "cutting openings and fitting what goes in",
            job.openings.len(),
            rates.opening_time,
        ),
    ]
}

/// All lines together.
pub fn total(lines: &[HoursLine]) -> Time {
    lines.iter().map(|line| line.time).sum()
}

fn along(about: &About, what: &'static str, length: Length, speed: Speed) -> HoursLine {
    let (quantity, unit) = match about.units {
        UnitSystem::Metric => (length.m(), "m"),
        UnitSystem::Inch => (length.feet(), "ft"),
    };
    HoursLine {
        what,
        quantity,
        unit,
        rate: Quantity::Speed(speed).text(about),
        time: length / speed,
    }
}

fn count(what: &'static str, number: usize, each: Time) -> HoursLine {
    HoursLine {
        what,
        quantity: number as f64,
        unit: "",
        rate: format!("{:.1} min each", each.minutes()),
        time: each * number as f64,
    }
}
