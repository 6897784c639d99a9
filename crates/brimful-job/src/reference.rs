//! The reference of the job file: every key with its meaning, form, default and example.
//!
//! Meanings and examples are a table ([`keys`](super::keys)); forms, limits, words and defaults are what
//! the reader asks for when it is given the examples. So the reference cannot tell of a form that the
//! reader does not take.

use super::default::{DefaultReason, DefaultSource, DefaultValue};
use super::form::{KeyForm, Presence};
use super::keys::{KeyRow, SectionRow, TABLE};
use super::parse;
use super::reader::{LONGEST, MOST_IN_A_LIST, Trace};
use brimful_units::Length;
use brimful_units::spelling::nearest;
use std::sync::LazyLock;

/// No length of a job is greater.
pub const LONGEST_LENGTH: Length = LONGEST;
/// No list of a job is longer.
pub const LONGEST_LIST: usize = MOST_IN_A_LIST;

/// A section of the job file.
#[derive(Clone, Debug, PartialEq)]
pub struct SectionReference {
    /// Its path, as `space.wall`.
    pub path: &'static str,
    /// Its heading in the file, as `[[space.wall]]`; double brackets: there may be several.
    pub heading: &'static str,
    /// What it is for, in a sentence of the table.
    pub meaning: &'static str,
    /// What stands in for it where it is left out.
    pub defaults: Vec<DefaultOfKey>,
    /// Its keys.
    pub keys: Vec<KeyReference>,
}

/// A key of the job file.
#[derive(Clone, Debug, PartialEq)]
pub struct KeyReference {
    /// Its path, as `space.wall.lean`.
    pub path: String,
    /// What it means, in a sentence of the table.
    pub meaning: &'static str,
    /// Whether it must be written where its section stands in the file.
    pub presence: Presence,
    /// The forms that its value takes.
    pub forms: Vec<KeyForm>,
    /// What stands in for it.
    pub defaults: Vec<DefaultOfKey>,
    /// How it is written, an example for every form.
    pub examples: Vec<&'static str>,
}

impl KeyReference {
    /// The key without its section.
    #[must_use]
    pub fn name(&self) -> &str {
        self.path.rsplit('.').next().unwrap_or_default()
    }
}

/// A default of a key.
#[derive(Clone, Debug, PartialEq)]
pub struct DefaultOfKey {
    /// The word of another key that it belongs to, as `saw`; empty where there is one default alone.
    pub choice: &'static str,
    /// Its value.
    pub value: DefaultValue,
    /// Why this value.
    pub reason: DefaultReason,
    /// Where it comes from.
    pub source: DefaultSource,
}

/// Every section of the job file with its keys, in the order of the file.
pub fn reference() -> &'static [SectionReference] {
    static REFERENCE: LazyLock<Vec<SectionReference>> = LazyLock::new(|| {
        let trace = traced_examples();
        let sections = TABLE.sections.iter();
        sections.map(|row| section(row, &trace)).collect()
    });
    &REFERENCE
}

fn section(row: &SectionRow, trace: &Trace) -> SectionReference {
    let keys = TABLE
        .keys
        .iter()
        .filter(|key| key.sections.contains(&row.path()));
    SectionReference {
        path: row.path(),
        heading: row.heading,
        meaning: row.meaning,
        defaults: defaults(row.path(), trace),
        keys: keys.map(|key| key_of(row, key, trace)).collect(),
    }
}

fn key_of(section: &SectionRow, row: &KeyRow, trace: &Trace) -> KeyReference {
    let path = format!("{}.{}", section.path(), row.key);
    KeyReference {
        presence: trace.presence(&path),
        forms: forms(&path, trace),
        defaults: defaults(&path, trace),
        meaning: row.meaning,
        examples: row.examples.clone(),
        path,
    }
}

/// What stands in for a key or section by itself, whatever else is written.
fn defaults(path: &str, trace: &Trace) -> Vec<DefaultOfKey> {
    if trace.presence(path) != Presence::Defaulted && path != EVENTS {
        return Vec::new();
    }
    let all = trace.defaults.iter();
    let own = all.filter(|((key, _), _)| key == path);
    own.map(|((_, choice), used)| DefaultOfKey {
        choice,
        value: used.value.clone(),
        reason: used.reason,
        source: used.source,
    })
    .collect()
}

/// Events have a default on the road alone, so that they are optional too.
const EVENTS: &str = "event";

/// The forms of a value with those of its items.
fn forms(path: &str, trace: &Trace) -> Vec<KeyForm> {
    let read = trace.forms.get(path).into_iter().flatten();
    let with_items = read.map(|form| match form {
        KeyForm::List { least, most, .. } => KeyForm::List {
            least: *least,
            most: *most,
            items: forms(&format!("{path}[]"), trace),
        },
        KeyForm::Named { .. } => KeyForm::Named {
            items: named_items(path, trace),
        },
        other => other.clone(),
    });
    let all: Vec<KeyForm> = with_items.collect();
    // A table whose keys are names is asked for as a table first.
    let is_named = all.iter().any(|form| matches!(form, KeyForm::Named { .. }));
    all.into_iter()
        .filter(|form| !(is_named && *form == KeyForm::Table))
        .collect()
}

fn named_items(path: &str, trace: &Trace) -> Vec<KeyForm> {
    let below = format!("{path}.");
    let named = trace.forms.keys().filter(|key| key.starts_with(&below));
    let mut items: Vec<KeyForm> = Vec::new();
    for form in named.flat_map(|key| forms(key, trace)) {
        if !items.contains(&form) {
            items.push(form);
        }
    }
    items
}

/// What the reader asks for when it reads every example.
fn traced_examples() -> Trace {
    let mut all = Trace::default();
    for (_, text) in example_jobs() {
        all.merge(parse::traced(&text).1);
    }
    for shop in CHOICES {
        all.merge(parse::traced(&format!("{BODY}{LIQUID}{shop}")).1);
    }
    all
}

/// Shops of which each has a default of its own for some key.
const CHOICES: [&str; 7] = [
    "[shop]\ncutting = \"saw\"\n",
    "[shop]\ncutting = \"router\"\n",
    "[shop]\nprocess = \"extrusion\"\n",
    "[shop]\nnozzle = \"round\"\n",
    "[shop]\nextruder = \"small\"\n",
    "[shop]\nextruder = \"large\"\n",
    "[job]\nduty = \"road\"\n",
];

const JOB: &str = "[job]\nlengths = \"mm\"\n";
const BODY: &str = "[body]\nbox = [\"700 mm\", \"400 mm\", \"350 mm\"]\n";
const LIQUID: &str = "[liquid]\nkind = \"water\"\n";

/// A whole job for every example, each with the path of its key.
pub(super) fn example_jobs() -> Vec<(String, String)> {
    let mut jobs = Vec::new();
    for row in &TABLE.keys {
        for path in &row.sections {
            let section = TABLE.sections.iter().find(|other| other.path() == *path);
            for example in &row.examples {
                let key = format!("{path}.{}", row.key);
                jobs.push((
                    key,
                    section.map_or_else(String::new, |it| job(it, row, example)),
                ));
            }
        }
    }
    jobs
}

/// The text of a job with one example in it.
fn job(section: &SectionRow, row: &KeyRow, example: &str) -> String {
    let root = section.path().split('.').next().unwrap_or_default();
    // An example of several lines brings along what it needs.
    let beside = match example.contains('\n') {
        true => "",
        false => row.beside.unwrap_or(section.beside),
    };
    let mut text = String::new();
    let preamble = [
        (JOB, root != "job"),
        (BODY, root != "body" && root != "space"),
        (LIQUID, root != "liquid"),
    ];
    for (part, _) in preamble.into_iter().filter(|(_, wanted)| *wanted) {
        text.push_str(part);
    }
    for part in [section.before, section.heading, beside, example] {
        text.push_str(part);
        text.push('\n');
    }
    text
}

/// The section or key whose spelling is nearest to one that is not known, written with or without its
/// section.
pub fn nearest_key(written: &str) -> Option<&'static str> {
    let sections = reference().iter();
    let keys = || reference().iter().flat_map(|section| &section.keys);
    let paths = sections.map(|section| section.path);
    let paths = paths.chain(keys().map(|key| key.path.as_str()));
    let names = keys().map(KeyReference::name);
    nearest(written, paths).or_else(|| nearest(written, names))
}
