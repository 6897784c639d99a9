//! A plate, how its edges are held, and what presses on it.

use serde::Deserialize;

/// How the four edges of a plate are held.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Edges {
    /// All held in place, free to turn.
    Hinged,
    /// All held in place and kept from turning.
    Clamped,
    /// As hinged, but nothing holds the top.
    #[serde(rename = "hinged free top")]
    HingedFreeTop,
    /// As clamped, but nothing holds the top.
    #[serde(rename = "clamped free top")]
    ClampedFreeTop,
}

/// A rectangular plate of one thickness and one material.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Plate {
    /// Across, metres.
    pub width: f64,
    /// Up, metres.
    pub height: f64,
    /// Thickness, metres.
    pub thickness: f64,
    /// Modulus of elasticity, pascals.
    pub modulus: f64,
    /// Poisson's ratio.
    pub poisson: f64,
}

/// Pressure on one face, the sum of three parts, none below zero, pascals.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Load {
    /// The same everywhere.
    pub uniform: f64,
    /// At the foot, falling in a straight line to zero at the top.
    pub falling_up: f64,
    /// At one side, falling in a straight line to zero at the other.
    pub falling_across: f64,
}

impl Load {
    /// The largest pressure anywhere.
    pub fn largest(&self) -> f64 {
        self.uniform + self.falling_up + self.falling_across
    }
}
