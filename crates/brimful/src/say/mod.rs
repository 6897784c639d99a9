//! Answers in words, in the job's own units: what a person reads at a glance.
//!
//! Text carries escape codes for colour; they are taken out on the way to anything that is no
//! terminal. What comes from the job file is cleaned of control characters.

mod check;
mod cut;
pub(crate) mod explain;
mod findings;
mod fit;
mod gauge;
mod layout;
mod pack;
mod strength;
mod summary;
mod units;
mod weld;

pub(crate) use check::check;
pub(crate) use cut::cut;
pub(crate) use fit::fit;
pub(crate) use gauge::gauge;
pub(crate) use pack::pack;
pub(crate) use weld::weld;
