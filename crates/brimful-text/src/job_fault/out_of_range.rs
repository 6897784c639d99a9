//! Numbers and quantities past a limit, in words. The limits are the program's own, and are said in
//! metric units; quantities of the job in the units that it writes lengths in.

use super::said::Said;
use crate::text::{Language, Text};
use brimful_job::{LengthUnit, OutOfRange};
use brimful_units::{Length, UnitSystem, show};

pub(super) fn said(words: Language, out_of_range: OutOfRange) -> Said {
    let says = says(words, out_of_range);
    let remedy = match out_of_range {
        OutOfRange::NotFinite => say!(words, "Write a number."),
        OutOfRange::NotAboveZero => say!(words, "Write one above zero."),
        OutOfRange::Negative => say!(words, "Write zero or more."),
        OutOfRange::TooSmall | OutOfRange::TooLong { .. } => {
            say!(words, "Look whether number and unit are right.")
        }
        OutOfRange::Whole { .. }
        | OutOfRange::Number { .. }
        | OutOfRange::Length { .. }
        | OutOfRange::Angle { .. } => {
            say!(words, "Write one within those limits.")
        }
        OutOfRange::TooSharp { least } => say!(
            words,
            "Write at least \"{least}\", or the cutter's radius.",
            least = metric(least)
        ),
        OutOfRange::TooHard { .. } => say!(words, "Write it in multiples of g, such as 0.8."),
        OutOfRange::Backwards => say!(words, "Write the lower end first."),
        OutOfRange::NotBeyond { .. } => say!(
            words,
            "Write the lower corner as `from` and the upper one as `to`."
        ),
        OutOfRange::FlangeWithinHole => {
            say!(words, "Write the diameter of the flat the fitting covers.")
        }
        OutOfRange::ColdestAboveWarmest { .. } => say!(
            words,
            "Write the lower one as `coldest`, the higher one as `warmest`."
        ),
    };
    (says, remedy)
}

fn says(words: Language, out_of_range: OutOfRange) -> Text {
    match out_of_range {
        OutOfRange::NotFinite => say!(words, "this is not a finite number."),
        OutOfRange::NotAboveZero => say!(words, "this must be above zero."),
        OutOfRange::Negative => say!(words, "this must not be negative."),
        OutOfRange::TooSmall => {
            say!(words, "this is smaller than anything that can be measured.")
        }
        OutOfRange::TooLong { most } => say!(
            words,
            "this is longer than {most}.",
            most = Text::verbatim(show::long_length(most, UnitSystem::Metric))
        ),
        OutOfRange::Whole { least, most } => between(words, f64::from(least), f64::from(most)),
        OutOfRange::Number { least, most } => between(words, least, most),
        OutOfRange::Length { least, most } => say!(
            words,
            "this must lie between {least} and {most}.",
            least = metric(least),
            most = metric(most)
        ),
        OutOfRange::Angle { least, most } => say!(
            words,
            "the angle must be from {least} to {most}.",
            least = Text::verbatim(show::angle(least)),
            most = Text::verbatim(show::angle(most))
        ),
        OutOfRange::TooSharp { least } => say!(
            words,
            "an inside corner sharper than {least} starts a crack.",
            least = metric(least)
        ),
        OutOfRange::TooHard { most } => say!(
            words,
            "this is more than {most} g.",
            most = number(most.g())
        ),
        OutOfRange::Backwards => say!(words, "the range runs backwards."),
        OutOfRange::NotBeyond { axis: Some(axis) } => say!(
            words,
            "`to` does not lie beyond `from` on {axis}.",
            axis = words.given(axis.word())
        ),
        OutOfRange::NotBeyond { axis: None } => {
            say!(words, "`to` does not lie beyond `from` on its axis.")
        }
        OutOfRange::FlangeWithinHole => say!(words, "the flange is smaller than its hole."),
        OutOfRange::ColdestAboveWarmest {
            coldest,
            warmest,
            lengths,
        } => {
            let system = lengths.map_or(UnitSystem::Metric, LengthUnit::system);
            let [coldest, warmest] =
                [coldest, warmest].map(|it| Text::verbatim(show::temperature(it, system)));
            say!(
                words,
                "the coldest, {coldest}, is warmer than the warmest, {warmest}.",
                coldest = coldest,
                warmest = warmest
            )
        }
    }
}

fn between(words: Language, least: f64, most: f64) -> Text {
    say!(
        words,
        "the number must be from {least} to {most}.",
        least = number(least),
        most = number(most)
    )
}

fn number(number: f64) -> Text {
    Text::verbatim(show::decimal(number, 3))
}

fn metric(length: Length) -> Text {
    Text::verbatim(show::small_length(length, UnitSystem::Metric))
}
