//! A job as the page gets it: its text, what is written in it, and what is wrong with it.

use super::state::AppState;
use super::text::Text;
use crate::fault::Fault;
use crate::wire;
use brimful_job::Job;
use schemars::JsonSchema;
use serde::Serialize;
use serde_json::{Map, Value};

/// One job.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct JobAnswer {
    name: String,
    /// Its title: the name in the job itself.
    title: String,
    etag: String,
    text: String,
    /// What is written, as typed; null where the text is no TOML.
    written: Option<Map<String, Value>>,
    /// The job with every default filled in; null where there are faults.
    job: Option<wire::WrittenJob>,
    faults: Vec<Fault>,
    can_undo: bool,
    can_redo: bool,
}

/// The answer for a job's text.
pub(super) fn job_answer(app: &AppState, name: &str, text: Text) -> JobAnswer {
    let [can_undo, can_redo] = app.jobs.steps(name, &text.text);
    let (job, faults) = match Job::parse(&text.text) {
        Ok(job) => (Some(job), Vec::new()),
        Err(faults) => (None, faults.into_iter().map(Fault::from).collect()),
    };
    let written = written(&text.text);
    JobAnswer {
        name: name.to_owned(),
        title: title(written.as_ref(), name),
        etag: text.etag,
        written,
        job: job.as_ref().map(wire::written_job),
        faults,
        can_undo,
        can_redo,
        text: text.text,
    }
}

/// The name in the job itself; that of the file where there is none.
pub(super) fn title(written: Option<&Map<String, Value>>, name: &str) -> String {
    let own = written.and_then(|written| written.get("job")?.get("name")?.as_str());
    own.unwrap_or(name).to_owned()
}

/// The entries of a text as JSON, numbers as numbers and texts as texts.
pub(super) fn written(text: &str) -> Option<Map<String, Value>> {
    let table: toml::Table = toml::from_str(text).ok()?;
    match serde_json::to_value(table) {
        Ok(Value::Object(entries)) => Some(entries),
        _ => None,
    }
}
