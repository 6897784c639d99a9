//! Keys of the job file for a terminal.

use super::layout::{HEADING, Label, labelled, line, paragraph};
use brimful_job::{KeyReference, SectionReference};
use brimful_text::{Language, say};

/// Under the name of a key or section what it means stands in.
const INDENT: usize = 2;

/// The sections.
pub(crate) fn sections(sections: &[SectionReference], words: Language) -> String {
    let mut text = String::new();
    for section in sections {
        text.push_str(&named(section.heading, section.meaning, words));
    }
    text
}

/// A section with the meaning of each key.
pub(crate) fn section(section: &SectionReference, words: Language) -> String {
    let mut text = named(section.heading, section.meaning, words);
    for key in &section.keys {
        text.push_str(&named(&key.path, key.meaning, words));
    }
    text
}

/// All there is to tell of some keys.
pub(crate) fn keys(keys: &[&KeyReference], words: Language) -> String {
    let mut text = String::new();
    for key in keys {
        text.push_str(&named(&key.path, key.meaning, words));
        for (label, told) in words.key(key).lines(words) {
            let label = say!(words, "{label}:", label = label);
            let label = Label::new(INDENT, &label);
            text.push_str(&labelled(label, label.end() + 1, &told));
        }
    }
    text
}

fn named(name: &str, meaning: &str, words: Language) -> String {
    line(HEADING, 0, &words.given(name)) + &paragraph(INDENT, INDENT, &words.data(meaning))
}
