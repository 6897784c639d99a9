//! What is given up of the room for a body.

use brimful_job::Side;
use brimful_units::Angle;

/// What is given up of the room for a body.
#[derive(Clone, Debug, PartialEq)]
pub enum GivenUp {
    /// Nothing: it takes all the room, and does not pass the way in whole.
    PassingWhole,
    /// It is trimmed to pass the way in.
    ToPassWayIn,
    /// It is the largest box along the space.
    LargestBox,
    /// It is the largest upright box at any angle.
    LargestTurnedBox {
        /// By how much it is turned about the vertical.
        angle: Angle,
        /// By which share another may be larger.
        gap: f64,
    },
    /// It stops at a side of a recess.
    Recess(Side),
    /// A leaning side is made square.
    Slope(Side),
    /// Nothing lies past an obstacle.
    PastObstacle {
        /// Its name in the job.
        obstacle: String,
        /// On which side of it.
        towards: Side,
    },
    /// It is kept further off than the clearance, to have room when warm.
    RoomToGrow,
}
