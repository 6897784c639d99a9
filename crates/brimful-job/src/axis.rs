//! The three directions.

use schemars::JsonSchema;
use serde::Serialize;

/// A direction: x along (forward), y to the left, z up.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Axis {
    /// Along; for a moving tank, forward.
    X,
    /// To the left.
    Y,
    /// Up.
    Z,
}

impl Axis {
    /// The word of the job file.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::X => "x",
            Self::Y => "y",
            Self::Z => "z",
        }
    }
}

pub(super) const AXES: [(&str, Axis); 3] = [("x", Axis::X), ("y", Axis::Y), ("z", Axis::Z)];
