//! What puts a worked-out change into a job file.

use brimful_job::{Entry, Job, Write, Written};
use brimful_tank::remedy::Change;
use serde_json::{Value, json};

/// What puts a change into the file of `job`, as a `PATCH` takes it.
pub(crate) fn edits(change: &Change, job: &Job) -> Vec<Value> {
    change.writes(job).iter().map(edit).collect()
}

fn edit(write: &Write) -> Value {
    match write {
        Write::Set(path, value) => json!({ "path": path, "set": written(value) }),
        Write::Append(path, entries) => json!({ "path": path, "append": block(entries) }),
        Write::Remove(path) => json!({ "path": path, "remove": true }),
    }
}

fn block(entries: &[Entry]) -> Value {
    let entries = entries.iter();
    entries
        .map(|(key, value)| ((*key).to_owned(), written(value)))
        .collect()
}

fn written(value: &Written) -> Value {
    match value {
        Written::Number(number) => whole_or_not(*number),
        Written::Text(text) => json!(text),
        Written::Flag(flag) => json!(flag),
        Written::List(values) => values.iter().map(written).collect(),
        Written::Block(entries) => block(entries),
    }
}

/// A number without `.0` where it is whole.
fn whole_or_not(number: f64) -> Value {
    #[expect(
        clippy::cast_possible_truncation,
        reason = "it is whole and below 2^53"
    )]
    if number.fract() == 0.0 && number.abs() < 1e15 {
        json!(number as i64)
    } else {
        json!(number)
    }
}
