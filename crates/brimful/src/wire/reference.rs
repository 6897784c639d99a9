//! The reference of the job file as JSON, in words.

use brimful_job::{KeyReference, SectionReference};
use brimful_text::Language;
use schemars::JsonSchema;
use serde::Serialize;

/// Every key of the job file.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct Reference {
    /// In the order of the file.
    sections: Vec<Section>,
}

/// A section of the job file.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "SectionOfJob")]
struct Section {
    /// As `space.wall`.
    path: &'static str,
    /// As `[[space.wall]]`; double brackets: there may be several.
    heading: &'static str,
    /// What it is for.
    meaning: String,
    keys: Vec<Key>,
}

/// A key of the job file.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "KeyOfJob")]
struct Key {
    /// As `space.wall.lean`.
    path: String,
    /// What it means.
    meaning: String,
    /// What may stand there, whether it must, its default and examples.
    facts: Vec<Fact>,
}

/// A line about a key.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "FactOfKey")]
struct Fact {
    /// What it tells, such as `Form`.
    label: String,
    says: String,
}

/// The reference in the words of a language.
pub(crate) fn reference(language: Language) -> Reference {
    let sections = brimful_job::reference().iter();
    Reference {
        sections: sections.map(|it| section(it, language)).collect(),
    }
}

fn section(section: &SectionReference, language: Language) -> Section {
    Section {
        path: section.path,
        heading: section.heading,
        meaning: language.data(section.meaning).into(),
        keys: section.keys.iter().map(|it| key(it, language)).collect(),
    }
}

fn key(key: &KeyReference, language: Language) -> Key {
    let words = language.key(key);
    let fact = |(label, says): (brimful_text::Text, brimful_text::Text)| Fact {
        label: label.into(),
        says: says.into(),
    };
    Key {
        path: key.path.clone(),
        facts: words.lines(language).into_iter().map(fact).collect(),
        meaning: words.meaning.into(),
    }
}
