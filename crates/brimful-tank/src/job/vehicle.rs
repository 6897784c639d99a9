//! `[vehicle]`: what carries the tank on the road.

use brimful_units::{Length, Mass};

/// What carries the tank on the road.
#[derive(Clone, Debug, PartialEq)]
pub struct Vehicle {
    /// What may still be loaded, tank and liquid included.
    pub payload: Option<Mass>,
    /// Where the origin of the space (or of the body) lies on the vehicle, forward along x.
    pub tank_at: Length,
    /// The axles.
    pub axles: Vec<Axle>,
    /// Where the coupling of a trailer lies, forward along x.
    pub coupling: Option<Length>,
}

/// An axle of the vehicle.
#[derive(Clone, Debug, PartialEq)]
pub struct Axle {
    /// What the shop calls it.
    pub name: String,
    /// Where it lies, forward along x on the vehicle.
    pub at: Length,
    /// What it may still carry.
    pub spare: Option<Mass>,
}
