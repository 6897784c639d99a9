//! `brimful check --take`: one of the changes that were worked out, written into the job file.

use crate::edit::{Edit, EditRefused, edited};
use crate::fault::{Failure, Fault};
use crate::input::{self, Source};
use crate::locale::Locale;
use crate::{jobfile, wire};
use brimful_job::Job;
use brimful_tank::plan::{Depth, Plan};
use brimful_tank::remedy::Change;
use brimful_text::{Language, Text, say};
use std::path::Path;

/// Writes the change of this number, counted as `check` lists them, and says which it is and where the old file is.
pub(crate) fn take(path: &Path, number: usize, locale: Locale) -> Result<Text, Failure> {
    let (source, plan) = input::planned(path, Depth::Remedies, locale)?;
    let language = locale.language;
    let shown = number.checked_sub(1);
    let remedy = shown.and_then(|before| plan.remedies.shown().nth(before));
    let change = &remedy
        .ok_or_else(|| no_such(number, &plan, language))?
        .change;
    let text = with(change, &source, language)?;
    if input::read(path, language)?.text != source.text {
        return Err(Failure::call(
            say!(
                language,
                "`{file}` was changed while the change was worked out.",
                file = language.given(&source.name)
            ),
            say!(language, "Nothing was written; check it again."),
        ));
    }
    let changed = Source {
        name: source.name.clone(),
        text: text.clone(),
    };
    input::can_be_laid_out(path, changed, locale)
        .map_err(|failure| not_laid_out(number, failure, language))?;
    let kept = jobfile::replace(path, &source.text, &text, "change", language)?;
    Ok(say!(
        language,
        "Took change {number}: {change} It is in {file}; the file as it was is {kept}.",
        number = number,
        change = locale.words_of_plan(&plan).change(&change.what),
        file = language.given(&source.name),
        kept = language.given(&kept)
    ))
}

/// The text of a job with a change in it.
fn with(change: &Change, source: &Source, words: Language) -> Result<String, Failure> {
    let failed = |reason: Text| {
        Failure::own(Fault::new(
            say!(
                words,
                "The job file cannot be changed: {fault}.",
                fault = reason
            ),
            say!(words, "It is left as it was; write the change by hand."),
        ))
    };
    let job = Job::parse(&source.text).map_err(|_| failed(say!(words, "it cannot be read")))?;
    let edits = wire::edits(change, &job).into_iter();
    let edits: Vec<Edit> = edits
        .map(serde_json::from_value)
        .collect::<Result<_, _>>()
        .map_err(|fault| failed(words.given(&fault.to_string())))?;
    edited(&source.text, &edits).map_err(|refused| match refused {
        EditRefused::NotToml => failed(say!(words, "it cannot be read")),
        EditRefused::Misplaced { path, reason } => {
            failed(words.given(&format!("{path}: {reason}")))
        }
    })
}

/// Of a change that puts something where a fitting stands, say: what has to give way first.
fn not_laid_out(number: usize, failure: Failure, words: Language) -> Failure {
    let first = Fault::new(
        say!(
            words,
            "Change {number} was not taken: the job with it cannot be laid out.",
            number = number
        ),
        say!(
            words,
            "Nothing was written. Mend what follows in the job first, or take another change."
        ),
    );
    let faults = [vec![first], failure.faults].concat();
    Failure { faults, ..failure }
}

fn no_such(number: usize, plan: &Plan, words: Language) -> Failure {
    let number = words.given(&number.to_string());
    match plan.remedies.shown().count() {
        0 => Failure::call(
            say!(
                words,
                "There is no change {number} to take: none was worked out that makes the tank hold.",
                number = number
            ),
            say!(
                words,
                "See what `{command}` says of this job.",
                command = words.given("brimful check")
            ),
        ),
        count => Failure::call(
            say!(
                words,
                "There is no change {number} to take.",
                number = number
            ),
            say!(
                words,
                "Give a number from 1 to {count}; `{command}` lists the changes.",
                count = count,
                command = words.given("brimful check")
            ),
        ),
    }
}
