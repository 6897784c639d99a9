//! Faults of a job file in words. They stand in no job yet, so that a language is all they need.

mod conflict;
mod form;
mod missing;
mod out_of_range;
mod said;
mod unit;

use crate::text::{Language, Text};
use brimful_job::{FaultKind, JobFault, Named};
use said::Said;
use std::fmt;

/// A fault of a job file in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct JobFaultText {
    /// The line, counted from 1.
    pub line: usize,
    /// The character in the line, counted from 1.
    pub column: usize,
    /// The key it is about; empty for the file as a whole.
    pub path: String,
    /// What is wrong, in a sentence without a capital, since the key stands before it.
    pub says: Text,
    /// What is taken here, as it is written.
    pub allowed: Vec<String>,
    /// What was probably meant.
    pub nearest: Option<String>,
    /// What to do, in a sentence.
    pub remedy: Text,
}

impl JobFaultText {
    /// In one line.
    pub fn in_one_line(&self, words: Language) -> Text {
        let at = say!(
            words,
            "line {line}, column {column}:",
            line = self.line,
            column = self.column
        );
        let path = (!self.path.is_empty()).then(|| words.given(&format!("{}:", self.path)));
        let nearest = self.nearest.as_ref().map(|nearest| {
            say!(
                words,
                "Did you mean `{nearest}`?",
                nearest = words.given(nearest)
            )
        });
        let taken = (!self.allowed.is_empty()).then(|| {
            say!(
                words,
                "Taken here: {taken}.",
                taken = words.given(&self.allowed.join(", "))
            )
        });
        let parts = [
            Some(at),
            path,
            Some(self.says.clone()),
            nearest,
            taken,
            Some(self.remedy.clone()),
        ];
        Text::join(parts.into_iter().flatten(), " ")
    }
}

/// In one line of English, for tests and logs.
impl fmt::Display for JobFaultText {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.in_one_line(Language::English).fmt(out)
    }
}

impl Language {
    /// A fault of a job file in words.
    pub fn job_fault(self, fault: &JobFault) -> JobFaultText {
        let (says, remedy) = said(self, fault);
        JobFaultText {
            line: fault.line,
            column: fault.column,
            path: fault.path.clone(),
            says,
            allowed: fault.allowed.clone(),
            nearest: fault.nearest.clone(),
            remedy,
        }
    }
}

fn said(words: Language, fault: &JobFault) -> Said {
    match &fault.kind {
        FaultKind::TooLarge { .. }
        | FaultKind::TooManyFaults
        | FaultKind::TooDeep
        | FaultKind::NotToml { .. }
        | FaultKind::KeyTwice => of_file(words, &fault.kind),
        FaultKind::UnknownSection { .. } | FaultKind::UnknownKey { .. } => {
            unknown_key(words, &fault.kind)
        }
        FaultKind::Missing(missing) => missing::said(words, *missing),
        FaultKind::Conflict(conflict) => conflict::said(words, *conflict),
        FaultKind::EmptyText => (
            say!(words, "the text is empty."),
            say!(words, "Write something, or take the key out."),
        ),
        FaultKind::WrongForm { found, wanted } => form::wrong_form(words, fault, *found, *wanted),
        FaultKind::WrongCount { .. } => form::wrong_count(words, fault),
        FaultKind::UnknownWord { written, names } => unknown_word(words, written, *names),
        FaultKind::NoCapacity => (
            say!(words, "this does not say which capacity is wanted."),
            say!(
                words,
                "Write how much and of which capacity, such as \"100 L usable\"."
            ),
        ),
        FaultKind::Unit { quantity, fault } => unit::said(words, *quantity, fault),
        FaultKind::BareLength { more } => bare_length(words, *more),
        FaultKind::OutOfRange(out_of_range) => out_of_range::said(words, *out_of_range),
        FaultKind::HeightsForCorners { .. }
        | FaultKind::StationCorners { .. }
        | FaultKind::StationTwice => measured(words, &fault.kind),
        FaultKind::SetTwice { name } => (
            say!(
                words,
                "the panel `{name}` is set twice.",
                name = words.given(name)
            ),
            say!(words, "Leave it where you set it, and take the other out."),
        ),
        FaultKind::NameTwice { name } => (
            say!(
                words,
                "the name `{name}` is used twice.",
                name = words.given(name)
            ),
            say!(words, "Give each a name of its own."),
        ),
        FaultKind::RefusedLiquid {
            written,
            reason,
            remedy,
        } => (
            say!(
                words,
                "no tank for `{written}`: {reason}.",
                written = words.given(written),
                reason = words.data(reason)
            ),
            words.data(remedy),
        ),
    }
}

/// What is wrong with the file as a whole; nothing for what is about a part of it.
fn of_file(words: Language, kind: &FaultKind) -> Said {
    match kind {
        FaultKind::TooLarge { most } => (
            say!(
                words,
                "the file is larger than {most} MB.",
                most = most / 1_000_000
            ),
            say!(words, "Give the file of one job."),
        ),
        FaultKind::TooManyFaults => (
            say!(words, "there are more faults than can be listed."),
            say!(words, "Mend the others first."),
        ),
        FaultKind::TooDeep => (
            say!(words, "values lie within values too deep."),
            say!(words, "A job needs no more than five levels."),
        ),
        FaultKind::NotToml { message } => (
            say!(
                words,
                "this is not TOML: {message}.",
                message = words.given(message)
            ),
            say!(
                words,
                "Text, and a number with its unit, stands in quotation marks (\"3.2 mm\"); a decimal is written with a point (3.2); a section stands in brackets on a line of its own."
            ),
        ),
        FaultKind::KeyTwice => (
            say!(words, "the same key stands here a second time."),
            say!(
                words,
                "Keep one of the two; a list of blocks has double brackets: [[opening]]."
            ),
        ),
        _ => Said::default(),
    }
}

fn unknown_key(words: Language, kind: &FaultKind) -> Said {
    let says = match kind {
        FaultKind::UnknownSection { written } => say!(
            words,
            "`{written}` is not a section of a job.",
            written = words.given(written)
        ),
        FaultKind::UnknownKey { written, section } => say!(
            words,
            "`{written}` is not a key of `{section}`.",
            written = words.given(written),
            section = words.given(section)
        ),
        _ => Text::default(),
    };
    (says, say!(words, "Correct the spelling, or take it out."))
}

fn unknown_word(words: Language, written: &str, names: Named) -> Said {
    let written = words.given(written);
    match names {
        Named::Choice => (
            say!(
                words,
                "`{written}` is not a word taken here.",
                written = written
            ),
            say!(words, "Write one of the words taken."),
        ),
        Named::Liquid => (
            say!(
                words,
                "`{written}` is not a liquid known here.",
                written = written
            ),
            say!(
                words,
                "Write one of the words taken, or leave `kind` out and write the `density`."
            ),
        ),
        Named::Event => (
            say!(
                words,
                "`{written}` is not a standard event and has no figures.",
                written = written
            ),
            say!(
                words,
                "Correct the name, or give figures such as `forward = 0.8` (in g)."
            ),
        ),
        Named::FaceOfJoint => (
            say!(
                words,
                "`{written}` is neither of the two faces.",
                written = written
            ),
            say!(words, "Name the one of the two that runs through."),
        ),
    }
}

fn bare_length(words: Language, more: usize) -> Said {
    let says = match more {
        0 => say!(words, "this length has no unit."),
        1 => say!(words, "this length has no unit, nor has one after it."),
        more => say!(
            words,
            "this length has no unit, nor have {more} after it.",
            more = more
        ),
    };
    let remedy = say!(
        words,
        "Set `lengths = \"mm\"` in [job], or write the unit: \"450 mm\", \"17 3/4 in\"."
    );
    (says, remedy)
}

/// What is wrong with the measures of a space; nothing for the rest.
fn measured(words: Language, kind: &FaultKind) -> Said {
    match *kind {
        FaultKind::HeightsForCorners { heights, corners } => (
            say!(
                words,
                "{heights} heights are given for {corners} corners.",
                heights = heights,
                corners = corners
            ),
            say!(
                words,
                "Give one a corner, in the order of the floor's corners."
            ),
        ),
        FaultKind::StationCorners { first, second } => (
            say!(
                words,
                "neighbouring stations have {first} and {second} corners, so no side joins them corner to corner.",
                first = first,
                second = second
            ),
            say!(
                words,
                "Give each station the same corners in the same order; a corner may lie on a straight side."
            ),
        ),
        FaultKind::StationTwice => (
            say!(words, "two stations lie at the same place."),
            say!(words, "Keep one, or correct its `at`."),
        ),
        _ => Said::default(),
    }
}
