//! Numbers and quantities past a limit.

use crate::axis::Axis;
use crate::length_unit::LengthUnit;
use brimful_units::{Acceleration, Angle, Length, Temperature};

/// A number or quantity past a limit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum OutOfRange {
    /// Infinite, or not a number.
    NotFinite,
    /// Zero or less, where more is wanted.
    NotAboveZero,
    /// Less than zero.
    Negative,
    /// Smaller than anything that can be measured.
    TooSmall,
    /// Longer than any tank, space or vehicle.
    TooLong {
        /// The longest taken.
        most: Length,
    },
    /// A whole number outside its range.
    Whole {
        /// The least.
        least: u32,
        /// The most.
        most: u32,
    },
    /// A number outside its range.
    Number {
        /// The least.
        least: f64,
        /// The most.
        most: f64,
    },
    /// A length outside its range.
    Length {
        /// The least.
        least: Length,
        /// The most.
        most: Length,
    },
    /// An angle outside its range.
    Angle {
        /// The least.
        least: Angle,
        /// The most.
        most: Angle,
    },
    /// An inside corner so sharp that it starts a crack.
    TooSharp {
        /// The least radius.
        least: Length,
    },
    /// A push that no tank on a road meets.
    TooHard {
        /// The hardest taken.
        most: Acceleration,
    },
    /// The upper end of a range stands first.
    Backwards,
    /// The far corner of an obstacle does not lie beyond the near one.
    NotBeyond {
        /// On this axis of the space; none: on the axis that it is drawn along.
        axis: Option<Axis>,
    },
    /// A flange smaller than its hole.
    FlangeWithinHole,
    /// The coldest is warmer than the warmest.
    ColdestAboveWarmest {
        /// The coldest.
        coldest: Temperature,
        /// The warmest.
        warmest: Temperature,
        /// The unit of lengths that the job names.
        lengths: Option<LengthUnit>,
    },
}
