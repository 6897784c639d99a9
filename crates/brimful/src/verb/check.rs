//! `brimful check`: everything, as findings and a summary.

use super::outcome;
use crate::fault::Failure;
use crate::{Outcome, input, output, say, wire, words};
use brimful_tank::plan::Depth;
use std::path::Path;

/// Answers with everything, as findings and a summary.
pub(crate) fn check(job: &Path, json: bool, depth: Depth) -> Result<Outcome, Failure> {
    let (_, plan) = input::planned(job, depth)?;
    if json {
        output::json(&wire::Document::check(&plan, &words::of_plan(&plan)))?;
    } else {
        output::text(&say::check(&plan))?;
    }
    Ok(outcome(&plan))
}
