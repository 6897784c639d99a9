//! `[space]`: the measured hole the tank must go into.

use super::shape::{Obstacle, ShapeSpec};
use brimful_units::Length;

/// The measured hole the tank must go into.
#[derive(Clone, Debug, PartialEq)]
pub struct Space {
    /// The clear inside, before obstacles and clearance are taken off.
    pub shape: ShapeSpec,
    /// Air kept between the tank and everything round it.
    pub clearance: Length,
    /// Room kept free above the tank for fittings and hands, on top of the clearance.
    pub keep_above: Length,
    /// What sticks into the space.
    pub obstacles: Vec<Obstacle>,
    /// The opening the tank must pass to get in, width by height; none: it is lifted straight in.
    pub way_in: Option<[Length; 2]>,
}
