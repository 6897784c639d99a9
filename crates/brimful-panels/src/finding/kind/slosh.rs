//! Findings of a stage: liquid in motion.

use crate::table::motion::Motion;
use brimful_units::Frequency;
use schemars::JsonSchema;
use serde::Serialize;

/// Liquid in motion.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(tag = "kind", content = "data", rename_all = "snake_case")]
pub enum SloshKind {
    /// The liquid swings as fast as a motion of the vehicle pushes it.
    InBand {
        /// The motion.
        motion: Motion,
        /// From the least to the greatest fill at which it does, as shares of the room.
        fills: [f64; 2],
        /// The fill at which most liquid does.
        worst: f64,
        /// How fast it swings at that fill.
        #[serde(rename = "frequency_hz")]
        frequency: Frequency,
        /// How much of the liquid swings at that fill, as a share of it.
        moves: f64,
    },
}
