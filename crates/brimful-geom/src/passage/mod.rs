//! Whether a solid passes an opening: pushed straight ([`straight`]), pushed and shifted to its
//! place without turning ([`push`]), slid and turned between what stands round ([`slide`]), or parted
//! into pieces that pass ([`split`]).

mod opening;
mod pose;
pub mod push;
pub mod slide;
pub mod split;
pub mod straight;
mod touch;

pub use opening::{Opening, room_with_approach};

use crate::frame::Frame;

/// What touches passes: rounding of corners of a few metres, metres.
const TOUCHING: f64 = 1e-9;

/// A way in.
#[derive(Clone, Debug, PartialEq)]
pub struct Way {
    /// `body.moved(&pose)`, from before the opening to where the body was given
    /// (the last pose moves nothing).
    pub poses: Vec<Frame>,
    /// Numbers of the poses between which the motion is straight: the first, where it changes, the
    /// last. These are the ones to draw.
    pub stations: Vec<usize>,
    /// Least air on the way, metres: pushed, what the opening leaves; slid and turned, to all that
    /// stands round, as far as it was looked at.
    pub air: f64,
    /// Poses tried.
    pub tried: usize,
}
