//! `brimful fit`: what fits the space; with a name, that body written into the job file.

use crate::fault::{Failure, Fault};
use crate::input::{self, Source};
use crate::{Outcome, jobfile, output, say, wire};
use brimful_panels::finding::Grade;
use brimful_tank::fit::Fit;
use brimful_text::{Language, Words};
use brimful_units::spelling::nearest;
use std::path::Path;

/// Answers with the bodies offered, and writes the one that was chosen.
pub(crate) fn fit(job: &Path, json: bool, write: Option<&str>) -> Result<Outcome, Failure> {
    let (source, fit) = input::fitted(job)?;
    let written = write
        .map(|name| written(job, &source, &fit, name))
        .transpose()?;
    if json {
        output::json(&wire::Document::fit(
            &fit,
            &Words::new(&fit.job, Language::English),
        ))?;
    } else {
        output::text(&say::fit(&fit))?;
        if let Some(line) = written {
            output::text(&format!("\n{line}\n"))?;
        }
    }
    let stops = fit
        .findings
        .iter()
        .any(|finding| finding.grade == Grade::Stop);
    Ok(match stops {
        true => Outcome::Stopped,
        false => Outcome::Clear,
    })
}

/// Writes the body of that name, and says where the old file is.
fn written(path: &Path, source: &Source, fit: &Fit, name: &str) -> Result<String, Failure> {
    let offers = &fit.offers.offers;
    let mut all = offers.iter();
    let Some(offer) = all.find(|offer| offer.candidate.name == *name) else {
        let names = offers.iter().map(|offer| offer.candidate.name.to_string());
        let names: Vec<String> = names.collect();
        let mut fault = Fault::new(
            format!("No body called `{name}` is offered."),
            "Give one of the names taken; `brimful fit` without --write lists them.",
        );
        fault.nearest = nearest(name, names.iter().map(String::as_str)).map(str::to_owned);
        fault.allowed = names;
        return Err(Failure::of_call(fault));
    };
    let text = jobfile::with_body(&source.text, &fit.job, &offer.candidate.solid)
        .map_err(|why| Failure::own(Fault::new(why, "Write the body by hand, from --json.")))?;
    let kept = jobfile::replace(path, &source.text, &text)?;
    Ok(format!(
        "Wrote the body `{name}` into {}; the file as it was is {kept}.",
        path.display()
    ))
}
