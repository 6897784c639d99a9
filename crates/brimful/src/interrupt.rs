//! Ctrl-C: remembered, and asked for between steps, so that nothing is left half done.

use crate::fault::{Failure, Fault};
use brimful_text::{Language, say};
use std::sync::atomic::{AtomicBool, Ordering};

static ASKED: AtomicBool = AtomicBool::new(false);

/// From here on Ctrl-C (and a request to end) is only remembered. Where no handler can be set the
/// process ends at once instead, which leaves no more than a hidden temporary folder behind.
pub(crate) fn remember() {
    let _ = ctrlc::set_handler(|| ASKED.store(true, Ordering::SeqCst));
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
