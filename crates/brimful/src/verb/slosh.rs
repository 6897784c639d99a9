//! `brimful slosh`: how the liquid swings, at every fill, with its baffles and without.

use crate::fault::Failure;
use crate::locale::Locale;
use crate::outcome::Outcome;
use crate::{input, output, say, wire};
use brimful_tank::plan::Depth;
use std::path::Path;

/// Answers with how the liquid swings in small waves.
pub(crate) fn slosh(
    job: &Path,
    json: bool,
    depth: Depth,
    locale: Locale,
) -> Result<Outcome, Failure> {
    let (_, plan) = input::planned(job, depth, locale)?;
    let words = &locale.words_of_plan(&plan);
    if json {
        output::json(&wire::Document::slosh(&plan, words), locale.language)?;
    } else {
        output::text(&say::slosh(&plan, words), locale.language)?;
    }
    Ok(Outcome::of_plan(&plan))
}
