//! The reference of the job file in words: a key by itself, and the page of all of them.

use crate::default::Values;
use crate::{Language, Text, say};
use brimful_job::{
    DefaultOfKey, KeyReference, LONGEST_LENGTH, Presence, SectionReference, reference,
};
use brimful_units::{UnitSystem, show};

/// A key of the job file in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct KeyText {
    /// What it means.
    pub meaning: Text,
    /// What may stand there.
    pub form: Text,
    /// What it means to leave it out.
    pub left_out: Text,
    /// How it is written.
    pub examples: Vec<&'static str>,
}

impl Language {
    /// A key of the job file in words.
    pub fn key(self, key: &KeyReference) -> KeyText {
        KeyText {
            meaning: self.data(key.meaning),
            form: self.key_forms(&key.forms),
            left_out: left_out(self, key),
            examples: key.examples.clone(),
        }
    }

    /// The page of all keys, as Markdown.
    pub fn reference_page(self) -> Text {
        let mut page = intro(self);
        for section in reference() {
            page.push_str(&section_part(self, section));
        }
        Text::verbatim(page)
    }
}

fn left_out(words: Language, key: &KeyReference) -> Text {
    match key.presence {
        Presence::Needed => say!(words, "must be written"),
        Presence::Conditional => say!(words, "must be written where it has a meaning"),
        Presence::Optional => say!(words, "may be left out"),
        Presence::Defaulted => {
            let defaults = key.defaults.iter();
            Text::join(defaults.map(|it| default_of_key(words, it)), " ")
        }
    }
}

fn default_of_key(words: Language, default: &DefaultOfKey) -> Text {
    let value = Values::metric(words).value(&default.value);
    let reason = words.default_reason(default.reason);
    let source = words.default_source(default.source);
    match default.choice {
        "" => say!(
            words,
            "{value}. {reason} ({source})",
            value = value,
            reason = reason,
            source = source
        ),
        choice => say!(
            words,
            "{value} for {choice}. {reason} ({source})",
            value = value,
            choice = words.given(choice),
            reason = reason,
            source = source
        ),
    }
}

fn intro(words: Language) -> String {
    let title = say!(words, "The job file");
    let about = say!(
        words,
        "A job file is TOML: sections in brackets, and keys with their values. A heading in double brackets begins one block of a list, and may stand several times. What a job leaves out has a default, which the build pack lists with its reason and source."
    );
    let lengths = say!(
        words,
        "A length is written with its unit in quotation marks (\"450 mm\", \"1.2 m\", \"17 3/4 in\", \"4' 2-1/2\\\"\"), or as a bare number in the unit that `lengths` names in [job]. None may be over {most}.",
        most = Text::verbatim(show::long_length(LONGEST_LENGTH, UnitSystem::Metric))
    );
    let generated = say!(
        words,
        "This page is written by `cargo run --release -p brimful-text --example job_file > docs/job-file.md` out of what the reader of job files takes. `brimful new --explain KEY` prints one key of it."
    );
    format!("# {title}\n\n{about}\n\n{lengths}\n\n{generated}\n")
}

fn section_part(words: Language, section: &SectionReference) -> String {
    let meaning = words.data(section.meaning);
    let mut part = format!("\n## `{}`\n\n{meaning}\n", section.heading);
    for key in &section.keys {
        part.push_str(&key_part(words, key));
    }
    part
}

fn key_part(words: Language, key: &KeyReference) -> String {
    let KeyText {
        meaning,
        form,
        left_out,
        examples,
    } = words.key(key);
    let [form_label, left_out_label, example_label] = labels(words);
    let mut part = format!(
        "\n### `{}`\n\n{meaning}\n\n- {form_label}: {form}\n- {left_out_label}: {left_out}\n",
        key.path
    );
    for example in examples {
        let lines: Vec<String> = example.lines().map(|line| format!("`{line}`")).collect();
        part.push_str(&format!("- {example_label}: {}\n", lines.join(", ")));
    }
    part
}

/// What stands before the form, what it means to leave a key out, and an example.
fn labels(words: Language) -> [Text; 3] {
    [
        say!(words, "Form"),
        say!(words, "Left out"),
        say!(words, "Example"),
    ]
}

impl KeyText {
    /// The lines of it for a terminal, each with what it tells.
    pub fn lines(&self, words: Language) -> Vec<(Text, Text)> {
        let [form, left_out, example] = labels(words);
        let mut lines = vec![(form, self.form.clone()), (left_out, self.left_out.clone())];
        let examples = self.examples.iter().flat_map(|it| it.lines());
        lines.extend(examples.map(|line| (example.clone(), words.given(line))));
        lines
    }
}
