//! What long work is at, on a terminal; nothing in a pipe. Ctrl-C is noticed between steps.

use crate::interrupt;
use brimful_panels::progress::{self, Step};
use brimful_text::{Text, Words};
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
    pub(crate) fn step(&self, name: Text) {
        self.0.set_message(String::from(name));
    }

    /// The line for work on a job, whose words it says the steps in.
    pub(crate) fn of<'a>(&'a self, words: Words<'a>) -> JobProgress<'a> {
        JobProgress { line: self, words }
    }
}

/// The line for work on a job.
pub(crate) struct JobProgress<'a> {
    line: &'a Progress,
    words: Words<'a>,
}

impl progress::Progress for JobProgress<'_> {
    fn is_cancelled(&self) -> bool {
        interrupt::is_asked()
    }

    fn step(&self, step: Step) {
        self.line.step(self.words.progress(&step));
    }
}

impl Drop for Progress {
    fn drop(&mut self) {
        self.0.finish_and_clear();
    }
}
