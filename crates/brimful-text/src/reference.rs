//! The reference of the job file in words: a key by itself, and the page of all of them.

use crate::default::Values;
use crate::text::{Language, Text};
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
    /// Whether it must be written, or its default: what it tells, and that.
    pub left_out: (Text, Text),
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

fn left_out(words: Language, key: &KeyReference) -> (Text, Text) {
    let needed = match key.presence {
        Presence::Needed => say!(words, "always"),
        Presence::Conditional => say!(words, "where what stands beside it asks for it"),
        Presence::Optional => say!(words, "no"),
        Presence::Defaulted => return defaults(words, &key.defaults),
    };
    (say!(words, "Needed"), needed)
}

fn defaults(words: Language, defaults: &[DefaultOfKey]) -> (Text, Text) {
    let defaults = defaults.iter().map(|it| default_of_key(words, it));
    (say!(words, "Default"), Text::join(defaults, "; "))
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
    if !section.defaults.is_empty() {
        let (label, default) = defaults(words, &section.defaults);
        part.push_str(&format!("\n- {label}: {default}\n"));
    }
    for key in &section.keys {
        part.push_str(&key_part(words, key));
    }
    part
}

fn key_part(words: Language, key: &KeyReference) -> String {
    let said = words.key(key);
    let mut part = format!("\n### `{}`\n\n{}\n\n", key.path, said.meaning);
    for (label, told) in said.facts(words) {
        part.push_str(&format!("- {label}: {told}\n"));
    }
    for example in said.examples {
        let lines: Vec<String> = example.lines().map(|line| format!("`{line}`")).collect();
        part.push_str(&format!(
            "- {}: {}\n",
            example_label(words),
            lines.join(", ")
        ));
    }
    part
}

fn example_label(words: Language) -> Text {
    say!(words, "Example")
}

impl KeyText {
    /// Its form, and its default or whether it must be written.
    fn facts(&self, words: Language) -> [(Text, Text); 2] {
        [
            (say!(words, "Form"), self.form.clone()),
            self.left_out.clone(),
        ]
    }

    /// All but its meaning in lines, each after what it tells.
    pub fn lines(&self, words: Language) -> Vec<(Text, Text)> {
        let examples = self.examples.iter().flat_map(|it| it.lines());
        let examples = examples.map(|line| (example_label(words), words.given(line)));
        self.facts(words).into_iter().chain(examples).collect()
    }
}
