//! The motions that liquid in a tank answers.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// A motion of a vehicle.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum Motion {
    /// It brakes, and stands.
    Braking,
    /// Its body nods on its springs.
    Pitch,
    /// Its body leans on its springs from side to side.
    Roll,
    /// It changes lanes.
    #[serde(alias = "lane change")]
    LaneChange,
}

/// A level direction of a tank.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Direction {
    /// Along x: of a moving tank forward and back.
    Along,
    /// Along y: from side to side.
    Across,
}

impl Direction {
    /// Both, in the order of their axes.
    pub const BOTH: [Self; 2] = [Self::Along, Self::Across];
}

impl Motion {
    /// All motions.
    pub const ALL: [Self; 4] = [Self::Braking, Self::Pitch, Self::Roll, Self::LaneChange];

    /// Which way it pushes the liquid.
    pub fn direction(self) -> Direction {
        match self {
            Self::Braking | Self::Pitch => Direction::Along,
            Self::Roll | Self::LaneChange => Direction::Across,
        }
    }
}
