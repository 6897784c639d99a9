//! What is behind the findings, as JSON.

use crate::words;
use brimful_panels::finding::kind::Adds;
use brimful_panels::finding::{self, Finding};
use brimful_tank::remedy::{Remedies, Remedy};
use brimful_text::{Words, change_entry};
use schemars::JsonSchema;
use serde::Serialize;

/// Findings of one cause and grade: one cure is for all of them.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct Cause {
    /// `stop`, `mend` or `note`.
    #[schemars(extend("enum" = ["stop", "mend", "note"]))]
    grade: &'static str,
    /// Places in `findings`, from 0, worst first.
    findings: Vec<usize>,
    /// What they are about: the worst by name, the others counted.
    about: String,
    /// What is found, in a sentence: of the worst.
    says: String,
    /// What would cure it; empty for a note that needs nothing.
    cure: String,
    /// What the cure is called in the job file; empty where it has no entry of its own.
    entry: &'static str,
    /// The change that was worked out and cures it at the least cost; null where none was.
    remedy: Option<WorkedOut>,
}

/// A change that was worked out, and makes the tank hold.
#[derive(Debug, Serialize, JsonSchema)]
struct WorkedOut {
    /// What is changed.
    says: String,
    /// Where in a job file it is written.
    entry: &'static str,
    /// What it costs; null where that is not known.
    adds: Option<Adds>,
}

/// Causes by grade, and within a grade the one furthest past its limit first.
pub(super) fn causes(findings: &[Finding], remedies: &Remedies, words: &Words<'_>) -> Vec<Cause> {
    let of_cause = |cause: &finding::cause::Cause<'_>| {
        let told = words.cause(cause);
        Cause {
            grade: words::grade(cause.grade),
            findings: cause.places.clone(),
            about: told.about.into(),
            says: told.worst.says.into(),
            cure: told.worst.cure.into(),
            entry: told.worst.entry,
            remedy: remedies.cure_of(cause).map(|it| worked_out(it, words)),
        }
    };
    finding::cause::causes(findings)
        .iter()
        .map(of_cause)
        .collect()
}

fn worked_out(remedy: &Remedy, words: &Words<'_>) -> WorkedOut {
    WorkedOut {
        says: words.change(&remedy.change.what).into(),
        entry: change_entry(&remedy.change.what),
        adds: remedy.adds,
    }
}
