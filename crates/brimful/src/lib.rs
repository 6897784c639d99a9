//! The command: a small file a verb. The only crate that touches disk and terminal; it works no
//! figure of the trade out, and asks the plan for each.
//!
//! A verb reads the job (`input`), has the plan made, and answers in words (`say`) or as JSON
//! ([`wire`]). What keeps it from answering is a `fault::Failure`, which knows its exit code.

// The page's server and the papers share the command's calls; what only they ask for is unused without them.
#![cfg_attr(not(feature = "serve"), allow(dead_code))]

mod call;
mod edit;
mod fault;
mod file;
mod folder;
mod input;
mod interrupt;
mod jobfile;
mod locale;
mod named_bytes;
mod outcome;
mod output;
mod pack_list;
mod progress;
mod report;
mod say;
mod scan;
#[cfg(feature = "serve")]
mod serve;
mod verb;
pub mod wire;
mod words;

use brimful_text::Language;
use fault::{Failure, Fault};
use outcome::Outcome;
#[cfg(feature = "serve")]
pub use serve::openapi;
use std::panic::{self, AssertUnwindSafe};
use std::process::ExitCode;
use std::sync::Mutex;

/// Runs the command with the arguments of the process.
///
/// Exit codes: 0 done and nothing stops the build; 1 done, and a finding of grade stop; 2 the job
/// file or the call cannot be used; 3 Brimful itself failed.
pub fn run() -> ExitCode {
    let call = match call::read() {
        Ok(call) => call,
        Err(code) => return code,
    };
    let (json, language) = (call.json(), call.language());
    interrupt::answering(json, language);
    match caught(language, || call.answer()) {
        Ok(Outcome::Clear) => ExitCode::SUCCESS,
        Ok(Outcome::Stopped) => ExitCode::from(1),
        Err(failure) => {
            report::report(&failure, json, language);
            failure.exit_code()
        }
    }
}

/// Does the work; a panic in it becomes a failure of Brimful's own, with its place.
fn caught(
    words: Language,
    work: impl FnOnce() -> Result<Outcome, Failure>,
) -> Result<Outcome, Failure> {
    static PLACE: Mutex<String> = Mutex::new(String::new());
    panic::set_hook(Box::new(|info| {
        if let (Ok(mut place), Some(location)) = (PLACE.lock(), info.location()) {
            *place = format!("{}, line {}", location.file(), location.line());
        }
    }));
    panic::catch_unwind(AssertUnwindSafe(work)).unwrap_or_else(|payload| {
        let message = payload
            .downcast_ref::<&str>()
            .copied()
            .or_else(|| payload.downcast_ref::<String>().map(String::as_str));
        let place = PLACE.lock().map(|place| place.clone()).unwrap_or_default();
        let says = brimful_text::say!(
            words,
            "Brimful itself failed ({message}; {place}).",
            message = message.map_or_else(
                || brimful_text::say!(words, "no reason was given"),
                |message| words.given(message)
            ),
            place = words.given(&place)
        );
        let remedy = brimful_text::say!(
            words,
            "This is a fault of the program, not of the job: please report it with the job file."
        );
        Err(Failure::own(Fault::new(says, remedy)))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_panic_becomes_a_failure_of_brimfuls_own() {
        let failure = caught(Language::English, || panic!("a corner was lost")).unwrap_err();
        let shown = format!("{failure:?}");
        assert_eq!(failure.exit_code(), ExitCode::from(3));
        assert!(shown.contains("a corner was lost") && shown.contains("lib.rs, line"));
    }
}
