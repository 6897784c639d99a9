//! `brimful weld`: seams, runs, rod, hours and the order of work.

use crate::fault::Failure;
use crate::locale::Locale;
use crate::outcome::Outcome;
use crate::{input, output, say, wire};
use brimful_tank::plan::Depth;
use std::path::Path;

/// Answers with seams, runs, rod, hours and the order of work.
pub(crate) fn weld(
    job: &Path,
    json: bool,
    depth: Depth,
    locale: Locale,
) -> Result<Outcome, Failure> {
    let (_, plan) = input::planned(job, depth, locale)?;
    let words = &locale.words_of_plan(&plan);
    if json {
        output::json(&wire::Document::weld(&plan, words), locale.language)?;
    } else {
        output::text(&say::weld(&plan, words), locale.language)?;
    }
    Ok(Outcome::of_plan(&plan))
}
