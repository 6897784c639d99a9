//! Being watched at long work: where it is, and whether it is still wanted.

/// Whoever waits for long work.
///
/// Work that is no longer wanted may be ended anywhere; what it gives is then of no use.
pub trait Watch: Sync {
    /// Whether the work is no longer wanted.
    fn is_cancelled(&self) -> bool;
    /// What is being done now, in a few words.
    fn step(&self, doing: &str);
}

/// Nobody waits: the work goes on to its end.
#[derive(Clone, Copy, Debug)]
pub struct Unwatched;

impl Watch for Unwatched {
    fn is_cancelled(&self) -> bool {
        false
    }

    fn step(&self, _doing: &str) {}
}
