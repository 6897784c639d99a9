//! `brimful fit`: what fits the space; with a name, that body written into the job file.

use crate::fault::{Failure, Fault};
use crate::input::{self, Source};
use crate::locale::Locale;
use crate::outcome::Outcome;
use crate::{jobfile, output, say, wire};
use brimful_panels::finding::Grade;
use brimful_tank::fit::Fit;
use brimful_text::{Language, Text, say};
use brimful_units::spelling::nearest;
use std::path::Path;

/// Answers with the bodies offered, and writes the one that was chosen.
pub(crate) fn fit(
    job: &Path,
    json: bool,
    write: Option<&str>,
    locale: Locale,
) -> Result<Outcome, Failure> {
    let (source, fit) = input::fitted(job, locale)?;
    let (words, language) = (&locale.words(&fit.job), locale.language);
    let written = write
        .map(|name| written(job, &source, &fit, name, language))
        .transpose()?;
    if json {
        output::json(&wire::Document::fit(&fit, words), language)?;
    } else {
        output::text(&say::fit(&fit, words), language)?;
        if let Some(line) = written {
            output::text(&format!("\n{line}\n"), language)?;
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
fn written(
    path: &Path,
    source: &Source,
    fit: &Fit,
    name: &str,
    words: Language,
) -> Result<Text, Failure> {
    let offers = &fit.offers.offers;
    let mut all = offers.iter();
    let Some(offer) = all.find(|offer| offer.candidate.name == *name) else {
        let names = offers.iter().map(|offer| offer.candidate.name.to_string());
        let names: Vec<String> = names.collect();
        let mut fault = Fault::new(
            say!(
                words,
                "No body called `{name}` is offered.",
                name = words.given(name)
            ),
            say!(
                words,
                "Give one of the names taken; `{command}` without {option} lists them.",
                command = words.given("brimful fit"),
                option = words.given("--write")
            ),
        );
        fault.nearest = nearest(name, names.iter().map(String::as_str)).map(str::to_owned);
        fault.allowed = names;
        return Err(Failure::of_call(fault));
    };
    let text = jobfile::with_body(&source.text, &fit.job, &offer.candidate.solid, words);
    let text = text.map_err(|why| {
        let remedy = say!(
            words,
            "Write the body by hand, from {option}.",
            option = words.given("--json")
        );
        Failure::own(Fault::new(why, remedy))
    })?;
    let kept = jobfile::replace(path, &source.text, &text, "fit", words)?;
    Ok(say!(
        words,
        "Wrote the body `{name}` into {file}; the file as it was is {kept}.",
        name = words.given(name),
        file = words.given(&path.display().to_string()),
        kept = words.given(&kept)
    ))
}
