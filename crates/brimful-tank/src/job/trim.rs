//! `[trim]`: how the tank stands in use.

use brimful_units::Angle;

/// How the tank stands in use.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Trim {
    /// Tilt about x (travel); positive: the left side up.
    pub heel: AngleRange,
    /// Tilt about y (cross axis); positive: the front down.
    pub pitch: AngleRange,
}

/// An angle, or all angles from one to another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AngleRange {
    /// The least.
    pub low: Angle,
    /// The greatest; the same as `low` for a single angle.
    pub high: Angle,
}

impl AngleRange {
    /// No tilt.
    pub const LEVEL: Self = Self {
        low: Angle::ZERO,
        high: Angle::ZERO,
    };
}
