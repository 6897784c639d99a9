//! `brimful cut`: the sheet layout and the order of cuts.

use super::outcome;
use crate::fault::Failure;
use crate::{Outcome, input, output, say, wire, words};
use brimful_tank::plan::Depth;
use std::path::Path;

/// Answers with the sheet layout and the order of cuts.
pub(crate) fn cut(job: &Path, json: bool, depth: Depth) -> Result<Outcome, Failure> {
    let (_, plan) = input::planned(job, depth)?;
    if json {
        output::json(&wire::Document::cut(&plan, &words::of_plan(&plan)))?;
    } else {
        output::text(&say::cut(&plan))?;
    }
    Ok(outcome(&plan))
}
