//! `brimful check`: everything, as findings and a summary.

use crate::fault::Failure;
use crate::locale::Locale;
use crate::outcome::Outcome;
use crate::{input, output, say, wire};
use brimful_tank::plan::Depth;
use brimful_text::Text;
use std::path::Path;

/// Answers with everything, as findings and a summary, after what was done to the job before.
pub(crate) fn check(
    job: &Path,
    json: bool,
    depth: Depth,
    taken: Option<Text>,
    locale: Locale,
) -> Result<Outcome, Failure> {
    let (_, plan) = input::planned(job, depth, locale)?;
    let words = &locale.words_of_plan(&plan);
    if json {
        output::json(&wire::Document::check(&plan, words), locale.language)?;
    } else {
        if let Some(line) = taken {
            output::text(&format!("{line}\n\n"), locale.language)?;
        }
        output::text(&say::check(&plan, words), locale.language)?;
    }
    Ok(Outcome::of_plan(&plan))
}
