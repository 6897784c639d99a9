//! Which words of a text are ours: those that are left when what a person or a source has written is
//! taken out of it.

use brimful_job::Job;
use brimful_panels::finding::{Finding, Origin};
use brimful_panels::table::motion::Motion;
use brimful_panels::table::{Cited, LoadOrigin, Source};
use brimful_tank::plan::Plan;
use brimful_text::{Language, Words};

/// What stands before every word of a template in the pseudo-locale.
const MARK: char = '\u{b7}';
/// Units, axes, marks of blocks, panels and seams, the command: in no language.
const SYMBOLS: &str = "x y z mm m kg L US gal lb in ft lbf N K Hz MPa kPa psi degC degF NL deg min s h g A P S brimful";

/// Calls that an answer sends to.
const CALLS: [&str; 4] = [
    "brimful check",
    "brimful weld",
    "brimful slosh",
    "brimful new",
];
/// Keys of a job file that hold a person's own words.
const OWN_KEYS: [&str; 6] = ["name", "customer", "notes", "source", "material", "kind"];

/// What others have written: of a job, of its plan, of sources.
#[derive(Default)]
pub struct Given(Vec<String>);

impl Given {
    /// What is written in a job, and of its sources.
    pub fn of_plan(text: &str, plan: &Plan) -> Self {
        let mut given = Self::default();
        given.add_job(text, &plan.job);
        given.add_findings(&plan.findings, &plan.job);
        let rows = plan.quick.rows.iter().flat_map(|row| &row.sources);
        let settings = plan.welds.settings.iter().map(|it| &it.source);
        for source in rows.chain(settings) {
            given.add_source(source);
        }
        for source in Motion::ALL.iter().flat_map(|it| it.band().sources) {
            given.add_source(&source);
        }
        given
    }

    /// The names in a job.
    pub fn add_job(&mut self, text: &str, job: &Job) {
        let written: toml::Table = text.parse().unwrap();
        self.add_written(&toml::Value::Table(written));
        // Some names and events are defaults.
        self.0
            .extend(job.inner.iter().map(|inner| inner.name.clone()));
        self.0.extend(job.ribs.iter().map(|rib| rib.name.clone()));
        for event in &job.events {
            self.0.extend([event.name.clone(), event.source.clone()]);
        }
        self.0.push(job.stock.material.clone());
        self.0.extend(job.liquid.kind.clone());
    }

    fn add_written(&mut self, value: &toml::Value) {
        match value {
            toml::Value::Table(table) => {
                for (key, value) in table {
                    match value.as_str() {
                        Some(text) if OWN_KEYS.contains(&key.as_str()) => self.add(text),
                        _ => self.add_written(value),
                    }
                }
            }
            toml::Value::Array(items) => items.iter().for_each(|item| self.add_written(item)),
            _ => {}
        }
    }

    /// Sources of findings, and what their cures are called in a job file.
    pub fn add_findings(&mut self, findings: &[Finding], job: &Job) {
        let words = Words::new(job, Language::English);
        for finding in findings {
            self.add(words.finding(finding).entry);
            match &finding.source {
                Some(Origin::Table(source)) => self.add_source(source),
                Some(Origin::Given(source)) => self.add(source),
                None => {}
            }
        }
    }

    fn add_source(&mut self, source: &Source) {
        match &source.cited {
            Cited::Row(text) => self.add(text),
            Cited::Load(LoadOrigin::Event(text)) => self.add(text),
            Cited::Job | Cited::Load(_) => {}
        }
    }

    /// One more text.
    pub fn add(&mut self, text: &str) {
        self.0
            .push(text.split_whitespace().collect::<Vec<_>>().join(" "));
    }

    /// A text in one line, without what is given.
    pub fn taken_out_of(&self, text: &str) -> String {
        let given = self.0.iter().map(String::as_str).chain(CALLS);
        let mut given: Vec<&str> = given.filter(|it| !it.is_empty()).collect();
        given.sort_by_key(|it| std::cmp::Reverse(it.len()));
        let mut text = text.split_whitespace().collect::<Vec<_>>().join(" ");
        for phrase in given {
            text = without(&text, phrase);
        }
        text
    }
}

/// A text without a phrase, where that is not part of a longer word.
fn without(text: &str, phrase: &str) -> String {
    let mut kept = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(at) = rest.find(phrase) {
        let end = at + phrase.len();
        let before = rest[..at].chars().next_back().or(kept.chars().next_back());
        let after = rest[end..].chars().next();
        let inside = |c: Option<char>| c.is_some_and(|c| c.is_alphanumeric() || c == MARK);
        let whole = !inside(before) && !inside(after);
        kept.push_str(&rest[..if whole { at } else { end }]);
        kept.push_str(if whole { "\u{1}" } else { "" });
        rest = &rest[end..];
    }
    kept + rest
}

/// Words of letters that have no mark and are no symbols, each with what stands before it.
pub fn unmarked(text: &str) -> Vec<String> {
    let letters: Vec<char> = text.chars().collect();
    let mut found = Vec::new();
    let mut at = 0;
    while at < letters.len() {
        let length = letters[at..]
            .iter()
            .take_while(|c| c.is_alphabetic())
            .count();
        let word: String = letters[at..at + length].iter().collect();
        let marked = at > 0 && letters[at - 1] == MARK;
        if length > 0 && !marked && !SYMBOLS.split(' ').any(|symbol| symbol == word) {
            let before = &letters[at.saturating_sub(60)..at + length];
            found.push(before.iter().collect());
        }
        at += length.max(1);
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_word_without_a_mark_is_found() {
        assert_eq!(
            unmarked("·nothing ·stops ·the build."),
            ["·nothing ·stops ·the build"]
        );
        assert!(unmarked("·rod 3 mm (P1 ·to P12), 1.2 kg/m3").is_empty());
    }

    #[test]
    fn what_is_given_is_taken_out_where_it_stands_by_itself() {
        let mut given = Given::default();
        given.add("rain  tank");
        given.add("tap");
        let left = |text: &str| unmarked(&given.taken_out_of(text));
        assert!(left("rain\n tank, tap").is_empty());
        assert_eq!(left("rain").len(), 1);
        assert_eq!(left("·of tape").len(), 1);
        assert!(left("·tap").is_empty());
    }
}
