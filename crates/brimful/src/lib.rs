//! The command: a small file a verb. The only room that touches disk and terminal; it works no
//! figure of the trade out, and asks the plan for each.
//!
//! A verb reads the job (`input`), has the plan made, and answers in words (`say`) or as JSON
//! ([`wire`]). What keeps it from answering is a `fault::Failure`, which knows its exit code.

mod call;
mod fault;
mod file;
mod folder;
mod input;
mod interrupt;
mod jobfile;
mod locale;
mod output;
mod pack_list;
mod progress;
mod say;
mod scan;
mod serve;
mod verb;
pub mod wire;
mod words;

use fault::{Failure, Fault};
pub use serve::openapi;
use std::panic::{self, AssertUnwindSafe};
use std::process::ExitCode;
use std::sync::Mutex;

/// How a verb ends when it is done.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Outcome {
    /// Nothing stops the build.
    Clear,
    /// A finding of grade stop.
    Stopped,
}

/// Runs the command with the arguments of the process.
///
/// Exit codes: 0 done and nothing stops the build; 1 done, and a finding of grade stop; 2 the job
/// file or the call cannot be used; 3 Brimful itself failed.
pub fn run() -> ExitCode {
    let call = match call::read() {
        Ok(call) => call,
        Err(code) => return code,
    };
    let json = call.json();
    match caught(|| call.answer()) {
        Ok(Outcome::Clear) => ExitCode::SUCCESS,
        Ok(Outcome::Stopped) => ExitCode::from(1),
        Err(failure) => {
            failure.report(json);
            failure.exit_code()
        }
    }
}

/// Does the work; a panic in it becomes a failure of Brimful's own, with its place.
fn caught(work: impl FnOnce() -> Result<Outcome, Failure>) -> Result<Outcome, Failure> {
    static PLACE: Mutex<String> = Mutex::new(String::new());
    panic::set_hook(Box::new(|info| {
        if let (Ok(mut place), Some(location)) = (PLACE.lock(), info.location()) {
            *place = format!("{}, line {}", location.file(), location.line());
        }
    }));
    panic::catch_unwind(AssertUnwindSafe(work)).unwrap_or_else(|payload| {
        let message = payload
            .downcast_ref::<&str>()
            .map(|text| (*text).to_owned())
            .or_else(|| payload.downcast_ref::<String>().cloned())
            .unwrap_or_else(|| "no reason was given".to_owned());
        let place = PLACE.lock().map(|place| place.clone()).unwrap_or_default();
        let says = format!("Brimful itself failed ({message}; {place}).");
        let remedy =
            "This is a fault of the program, not of the job: please report it with the job file.";
        Err(Failure::own(Fault::new(says, remedy)))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_panic_becomes_a_failure_of_brimfuls_own() {
        let failure = caught(|| panic!("a corner was lost")).unwrap_err();
        let shown = format!("{failure:?}");
        assert_eq!(failure.exit_code(), ExitCode::from(3));
        assert!(shown.contains("a corner was lost") && shown.contains("lib.rs, line"));
    }
}
