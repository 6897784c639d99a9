//! `brimful check`: everything, as findings and a summary.

use crate::fault::Failure;
use crate::locale::Locale;
use crate::outcome::Outcome;
use crate::{input, output, say, wire};
use brimful_tank::plan::Depth;
use std::path::Path;

/// Answers with everything, as findings and a summary.
pub(crate) fn check(
    job: &Path,
    json: bool,
    depth: Depth,
    locale: Locale,
) -> Result<Outcome, Failure> {
    let (_, plan) = input::planned(job, depth, locale)?;
    let words = &locale.words_of_plan(&plan);
    if json {
        output::json(&wire::Document::check(&plan, words), locale.language)?;
    } else {
        output::text(&say::check(&plan, words), locale.language)?;
    }
    Ok(Outcome::of_plan(&plan))
}
