//! Keys of the job file for a terminal.

use super::layout::{HEADING, styled, wrapped};
use brimful_job::{KeyReference, SectionReference};
use brimful_text::Language;

/// Under the name of a key or section what it means stands in.
const INDENT: usize = 2;
const LANGUAGE: Language = Language::English;

/// The sections.
pub(crate) fn sections(sections: &[SectionReference]) -> String {
    let mut text = String::new();
    for section in sections {
        text.push_str(&named(section.heading, section.meaning));
    }
    text
}

/// A section with the meaning of each key.
pub(crate) fn section(section: &SectionReference) -> String {
    let mut text = named(section.heading, section.meaning);
    for key in &section.keys {
        text.push_str(&named(&key.path, key.meaning));
    }
    text
}

/// All there is to tell of some keys.
pub(crate) fn keys(keys: &[&KeyReference]) -> String {
    let mut text = String::new();
    for key in keys {
        text.push_str(&named(&key.path, key.meaning));
        for (label, told) in LANGUAGE.key(key).lines(LANGUAGE) {
            let lead = format!("{}{label}: ", " ".repeat(INDENT));
            text.push_str(&wrapped(&lead, lead.chars().count(), told.as_str()));
        }
    }
    text
}

fn named(name: &str, meaning: &str) -> String {
    let lead = " ".repeat(INDENT);
    let meaning = LANGUAGE.data(meaning);
    let heading = styled(HEADING, name);
    format!("{heading}\n{}", wrapped(&lead, INDENT, meaning.as_str()))
}
