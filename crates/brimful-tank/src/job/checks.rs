//! `[checks]`: what the tank is held to.

use brimful_units::Length;

/// What the tank is held to, where the job asks for more than the rules do.
#[derive(Clone, Debug, PartialEq)]
pub struct Checks {
    /// The safety factor on strength, at least 1; none: the rules'.
    pub safety_factor: Option<f64>,
    /// The most a wall may bulge; none: the rules'.
    pub bulge: Option<Length>,
}
