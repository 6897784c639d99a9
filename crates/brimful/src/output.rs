//! Writing to standard output and standard error: whole answers, colours only on a terminal. A
//! reader who has left (a closed pipe) is no fault.

use crate::fault::{Failure, Fault};
use serde::Serialize;
use std::io::{self, ErrorKind, Write};

/// Writes text to standard output.
pub(crate) fn text(text: &str) -> Result<(), Failure> {
    let mut out = anstream::stdout().lock();
    ended(out.write_all(text.as_bytes()).and_then(|()| out.flush()))
}

/// Writes JSON to standard output.
pub(crate) fn json(answer: &impl Serialize) -> Result<(), Failure> {
    text(&json_text(answer)?)
}

/// JSON as it is written to standard output and into the pack.
pub(crate) fn json_text(answer: &impl Serialize) -> Result<String, Failure> {
    let mut text = serde_json::to_string_pretty(answer).map_err(|fault| {
        Failure::own(Fault::new(
            format!("The answer cannot be written as JSON: {fault}."),
            "Please report it with the job file.",
        ))
    })?;
    text.push('\n');
    Ok(text)
}

/// Writes text to standard error. Where even that fails there is nobody left to tell.
pub(crate) fn error(text: &str) {
    let mut out = anstream::stderr().lock();
    let _ = out.write_all(text.as_bytes()).and_then(|()| out.flush());
}

fn ended(written: io::Result<()>) -> Result<(), Failure> {
    match written {
        Err(fault) if fault.kind() != ErrorKind::BrokenPipe => Err(Failure::own(Fault::new(
            format!("The answer cannot be written to standard output: {fault}."),
            "See where the output goes, and whether there is room.",
        ))),
        _ => Ok(()),
    }
}
