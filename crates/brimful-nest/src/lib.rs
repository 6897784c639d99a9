//! Rectangles on sheets: guillotine layouts for a saw, with lower bounds.
//!
//! All numbers are plain SI `f64`: lengths in metres, areas in square metres; costs in whatever
//! unit the caller uses for every sheet. Nothing here knows what the parts are for. Parts of
//! different thickness never share a sheet: the caller runs [`nest`] once a thickness.
//!
//! # Method
//! The kerf is dealt with exactly by growing parts and sheets by one kerf in both directions
//! (a part flush with the free edge then pays no kerf); from there on cuts have no width.
//! [`nest`] builds layouts part by part: a part goes into the corner of the piece in hand, two
//! or three full-width cuts free it, and the leftovers become pieces in hand. A beam
//! search keeps the most promising unfinished plans, beside a lower bound by dual feasible
//! functions ([`Bound`]) that says how far from the best the result can be. The work is limited
//! by a count of nodes, never by a clock, so the same order gives the same layouts.

mod bound;
mod build;
mod check;
mod layout;
mod order;
mod plan;
mod search;
mod step;

pub use bound::Bound;
pub use check::{Fault, check};
pub use layout::{Cut, Fate, Layout, Piece, Placement, Rect, Reference, Runs};
pub use order::{NestError, Part, Settings, Sheet};
pub use plan::{LeftOut, Plan, Verdict, Why};

use order::Problem;

/// Lays `parts` on `sheets` for a saw.
///
/// Every part comes back exactly once: placed in a layout, or in [`Plan::left_out`] with the
/// reason. Fewest unplaced square metres come first, then the lowest cost of the sheets used,
/// then the fewest sheets, then the largest single offcut.
///
/// # Errors
/// [`NestError`] when a number is not usable or an id is given twice.
pub fn nest(parts: &[Part], sheets: &[Sheet], settings: &Settings) -> Result<Plan, NestError> {
    let problem = Problem::new(parts, sheets, settings)?;
    let bound = bound::lower_bound(&problem);
    let outcome = search::search(&problem, &bound);
    Ok(build::plan(&problem, bound, outcome))
}
