//! The shop's saw.

use brimful_job::Job;
use brimful_nest::Settings;
use brimful_units::Length;

/// As layouts are made for it.
pub(super) fn settings(job: &Job) -> Settings {
    Settings {
        kerf: job.shop.kerf.m(),
        trim: job.shop.trim.m(),
        largest_crosscut: job.shop.crosscut.map(Length::m),
        effort: Settings::USUAL_EFFORT,
    }
}
