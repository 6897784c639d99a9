//! Whether a solid passes an opening: pushed straight ([`straight`]), slid and turned amid what
//! stands round ([`slide`]), or parted into pieces that pass ([`split`]).

mod pose;
pub mod slide;
pub mod split;
pub mod straight;
mod touch;
