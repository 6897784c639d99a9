//! `brimful gauge`: the gauge table, at a tilt if asked.

use crate::fault::Failure;
use crate::locale::Locale;
use crate::outcome::Outcome;
use crate::{input, output, say, wire};
use brimful_panels::gauge::gauges;
use brimful_tank::plan::Depth;
use brimful_units::Angle;
use std::path::Path;

/// Answers with a gauge table for every compartment; without heel or pitch, level.
pub(crate) fn gauge(
    job: &Path,
    json: bool,
    depth: Depth,
    heel: Option<Angle>,
    pitch: Option<Angle>,
    locale: Locale,
) -> Result<Outcome, Failure> {
    let (_, mut plan) = input::planned(job, depth, locale)?;
    if heel.is_some() || pitch.is_some() {
        let (heel, pitch) = (heel.unwrap_or(Angle::ZERO), pitch.unwrap_or(Angle::ZERO));
        plan.gauges = gauges(&plan.job, &plan.panels, &plan.compartments, heel, pitch);
    }
    let words = &locale.words_of_plan(&plan);
    if json {
        output::json(&wire::Document::gauge(&plan, words), locale.language)?;
    } else {
        output::text(&say::gauge(&plan, words), locale.language)?;
    }
    Ok(Outcome::of_plan(&plan))
}
