//! `brimful weld`: seams, runs, rod, hours and the order of work.

use super::outcome;
use crate::fault::Failure;
use crate::{Outcome, input, output, say, wire, words};
use brimful_tank::plan::Depth;
use std::path::Path;

/// Answers with seams, runs, rod, hours and the order of work.
pub(crate) fn weld(job: &Path, json: bool, depth: Depth) -> Result<Outcome, Failure> {
    let (_, plan) = input::planned(job, depth)?;
    if json {
        output::json(&wire::Document::weld(&plan, &words::of_plan(&plan)))?;
    } else {
        output::text(&say::weld(&plan))?;
    }
    Ok(outcome(&plan))
}
