//! Writing to standard output and standard error: whole answers, colours only on a terminal. A
//! reader who has left (a closed pipe) is no fault.

use crate::fault::{Failure, Fault};
use brimful_text::{Language, say};
use serde::Serialize;
use std::io::{self, ErrorKind, Write};

/// Writes text to standard output.
pub(crate) fn text(text: &str, words: Language) -> Result<(), Failure> {
    let mut out = anstream::stdout().lock();
    let written = out.write_all(text.as_bytes()).and_then(|()| out.flush());
    ended(written, words)
}

/// Writes JSON to standard output.
pub(crate) fn json(answer: &impl Serialize, words: Language) -> Result<(), Failure> {
    text(&json_text(answer, words)?, words)
}

/// JSON as it is written to standard output and into the pack.
pub(crate) fn json_text(answer: &impl Serialize, words: Language) -> Result<String, Failure> {
    let mut text = serde_json::to_string_pretty(answer).map_err(|fault| {
        Failure::own(Fault::new(
            say!(
                words,
                "The answer cannot be written as JSON: {fault}.",
                fault = words.given(&fault.to_string())
            ),
            say!(words, "Please report it with the job file."),
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

fn ended(written: io::Result<()>, words: Language) -> Result<(), Failure> {
    match written {
        Err(fault) if fault.kind() != ErrorKind::BrokenPipe => Err(Failure::own(Fault::new(
            say!(
                words,
                "The answer cannot be written to standard output: {fault}.",
                fault = words.given(&fault.to_string())
            ),
            say!(
                words,
                "See where the output goes, and whether there is room."
            ),
        ))),
        _ => Ok(()),
    }
}
