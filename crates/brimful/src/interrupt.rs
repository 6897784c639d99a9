//! Ctrl-C: remembered, and asked for between steps, so that nothing is left half done. A step may be a long one:
//! what has not ended by itself soon after is ended, which leaves no more than a hidden temporary folder behind.

use crate::fault::{Failure, Fault};
use crate::report;
use brimful_text::{Language, say};
use std::sync::OnceLock;
use std::sync::atomic::{AtomicBool, Ordering};
use std::thread;
use std::time::Duration;

static ASKED: AtomicBool = AtomicBool::new(false);
/// Whether the answer is JSON, and its language.
static ANSWER: OnceLock<(bool, Language)> = OnceLock::new();
/// Nobody feels that he waits for less.
const SOON: Duration = Duration::from_millis(300);

/// How the call is answered, for whoever stops it.
pub(crate) fn answering(json: bool, language: Language) {
    let _ = ANSWER.set((json, language));
}

/// From here on Ctrl-C (and a request to end) is remembered, and ends what does not end by itself soon after.
/// Where no handler can be set the process ends at once.
pub(crate) fn remember() {
    let _ = ctrlc::set_handler(|| {
        ASKED.store(true, Ordering::SeqCst);
        thread::sleep(SOON);
        end();
    });
}

/// Ends the process with what is said of work that was stopped.
fn end() {
    let (json, language) = *ANSWER.get_or_init(|| (false, Language::English));
    let failure = stopped(language);
    report::report(&failure, json, language);
    std::process::exit(i32::from(Failure::OWN));
}

/// Whether Ctrl-C has been pressed.
pub(crate) fn is_asked() -> bool {
    ASKED.load(Ordering::SeqCst)
}

/// A failure once Ctrl-C has been pressed.
pub(crate) fn check(words: Language) -> Result<(), Failure> {
    if is_asked() {
        Err(stopped(words))
    } else {
        Ok(())
    }
}

/// The work was stopped on request.
pub(crate) fn stopped(words: Language) -> Failure {
    Failure::own(Fault::new(
        say!(words, "Stopped on request before it was finished."),
        say!(words, "Nothing was changed; run it again."),
    ))
}
