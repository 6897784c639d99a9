//! What long work is at, on a terminal; nothing in a pipe. Ctrl-C is noticed between steps.

use crate::interrupt;
use brimful_tank::watch::Watch;
use indicatif::{ProgressBar, ProgressStyle};
use std::time::Duration;

/// A line on standard error that names the step in hand; gone when dropped.
pub(crate) struct Progress(ProgressBar);

impl Progress {
    /// Begins to show.
    pub(crate) fn new() -> Self {
        let bar = ProgressBar::new_spinner();
        if let Ok(style) = ProgressStyle::with_template("{spinner} {msg} ({elapsed})") {
            bar.set_style(style);
        }
        bar.enable_steady_tick(Duration::from_millis(120));
        Self(bar)
    }

    /// Names the step in hand.
    pub(crate) fn step(&self, name: &'static str) {
        self.0.set_message(name);
    }
}

impl Watch for Progress {
    fn is_cancelled(&self) -> bool {
        interrupt::is_asked()
    }

    fn step(&self, doing: &str) {
        self.0.set_message(doing.to_owned());
    }
}

impl Drop for Progress {
    fn drop(&mut self) {
        self.0.finish_and_clear();
    }
}
