//! The JSON: the plan's values in a form of their own, in SI with the unit in every name.
//!
//! Each is made from the plan by a function of its own name and works nothing out. Points
//! and outlines are lists of numbers: `[x, y, z]` in the tank's axes, `[x, y]` in a panel's own.

#[cfg(feature = "serve")]
pub(crate) mod bench;
mod cause;
mod corner;
mod cut;
mod document;
mod edits;
mod finding;
mod fit;
mod fixture;
mod gauge;
mod job;
mod mark;
#[cfg(feature = "serve")]
pub(crate) mod model;
#[cfg(feature = "serve")]
pub(crate) mod order;
mod pack;
mod panel;
mod point;
#[cfg(feature = "serve")]
pub(crate) mod reference;
#[cfg(feature = "serve")]
mod remedy;
mod room;
mod schema;
mod seam;
mod slosh;
mod solid;
mod strength;
mod way_in;
mod weld;

#[cfg(feature = "papers")]
pub(crate) use crate::pack_list::PACK_FILE;
pub use document::{Document, NewJob};
pub(crate) use edits::edits;
#[cfg(feature = "serve")]
pub(crate) use job::{Job as WrittenJob, job as written_job};
#[cfg(feature = "serve")]
pub(crate) use remedy::{Remedy, remedies};
pub use schema::schema;
