//! `brimful cut`: the sheet layout and the order of cuts.

use crate::fault::Failure;
use crate::locale::Locale;
use crate::outcome::Outcome;
use crate::{input, output, say, wire};
use brimful_tank::plan::Depth;
use std::path::Path;

/// Answers with the sheet layout and the order of cuts.
pub(crate) fn cut(
    job: &Path,
    json: bool,
    depth: Depth,
    locale: Locale,
) -> Result<Outcome, Failure> {
    let (_, plan) = input::planned(job, depth, locale)?;
    let words = &locale.words_of_plan(&plan);
    if json {
        output::json(&wire::Document::cut(&plan, words), locale.language)?;
    } else {
        output::text(&say::cut(&plan, words), locale.language)?;
    }
    Ok(Outcome::of_plan(&plan))
}
