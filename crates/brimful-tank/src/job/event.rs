//! `[[event]]`: what the road does to the tank.

use super::place::Place;
use brimful_units::Acceleration;

/// What the road does to the tank: how hard the tank is held back or thrown, each way.
#[derive(Clone, Debug, PartialEq)]
pub struct Event {
    /// What it is called.
    pub name: String,
    /// The liquid pushes forward (braking).
    pub forward: Acceleration,
    /// The liquid pushes to the rear.
    pub rear: Acceleration,
    /// The liquid pushes to either side.
    pub side: Acceleration,
    /// The liquid pushes up, against gravity.
    pub up: Acceleration,
    /// The liquid pushes down, on top of gravity.
    pub down: Acceleration,
    /// All directions at once; otherwise one after the other, each with gravity.
    pub combined: bool,
    /// Where the figures come from.
    pub source: String,
    /// Where it is written.
    pub place: Place,
}
