//! How fast the road and the vehicle's own springs push a tank.

pub use super::motion_kind::{Direction, Motion};
use super::row::rows;
use super::source::{Cited, Flag, Source, Sourced, SourcedValue};
use brimful_units::Frequency;
use serde::Deserialize;
use std::sync::LazyLock;

#[derive(Deserialize)]
pub(super) struct Row {
    motion: Motion,
    pub low: f64,
    pub high: f64,
    flag: Flag,
    pub source: String,
}

pub(super) static MOTION_BAND: LazyLock<Vec<Row>> =
    LazyLock::new(|| rows(include_str!("data/motion_band.csv")));

impl Motion {
    /// From the slowest to the fastest swing of liquid that it feeds.
    pub fn band(self) -> Sourced<[Frequency; 2]> {
        let row = MOTION_BAND.iter().find(|row| row.motion == self);
        let row = row.expect("a test reads a row of each");
        let band = [row.low, row.high].map(Frequency::from_hz);
        Sourced {
            value: band,
            sources: vec![Source {
                value: SourcedValue::MotionBand { motion: self, band },
                flag: row.flag,
                cited: Cited::Row(&row.source),
            }],
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_motion_has_a_band() {
        for motion in Motion::ALL {
            let [low, high] = motion.band().value;
            assert!(Frequency::ZERO < low && low < high);
        }
    }
}
