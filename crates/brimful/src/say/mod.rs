//! Answers in words: what a person reads at a glance. Every word is a `Text`, in the language and the
//! units of the [`brimful_text::Words`] that an answer is given.
//!
//! Text carries escape codes for colour; they are taken out on the way to anything that is no
//! terminal. What comes from the job file is cleaned of control characters.

mod capacity;
mod check;
mod cut;
pub(crate) mod explain;
mod findings;
mod fit;
mod gauge;
mod layout;
#[cfg(feature = "papers")]
mod pack;
mod remedies;
mod room;
mod slosh;
mod strength;
mod summary;
mod title;
mod weld;

pub(crate) use check::check;
pub(crate) use cut::cut;
pub(crate) use fit::fit;
pub(crate) use gauge::gauge;
#[cfg(feature = "papers")]
pub(crate) use pack::pack;
pub(crate) use slosh::slosh;
pub(crate) use weld::weld;
