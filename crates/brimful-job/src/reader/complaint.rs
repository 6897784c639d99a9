//! A fault before it has its place.

use super::super::fault::{Conflict, FaultKind, Missing, OutOfRange};

/// A fault without its place.
pub(crate) struct Complaint {
    pub(super) kind: FaultKind,
    pub(super) allowed: Vec<String>,
    pub(super) nearest: Option<String>,
}

impl From<FaultKind> for Complaint {
    fn from(kind: FaultKind) -> Self {
        Self::new(kind)
    }
}

impl From<Missing> for Complaint {
    fn from(missing: Missing) -> Self {
        Self::new(FaultKind::Missing(missing))
    }
}

impl From<Conflict> for Complaint {
    fn from(conflict: Conflict) -> Self {
        Self::new(FaultKind::Conflict(conflict))
    }
}

impl From<OutOfRange> for Complaint {
    fn from(out_of_range: OutOfRange) -> Self {
        Self::new(FaultKind::OutOfRange(out_of_range))
    }
}

impl Complaint {
    pub(crate) fn new(kind: FaultKind) -> Self {
        Self {
            kind,
            allowed: Vec::new(),
            nearest: None,
        }
    }

    pub(crate) fn allowed<'w>(mut self, words: impl IntoIterator<Item = &'w str>) -> Self {
        self.allowed = words.into_iter().map(str::to_owned).collect();
        self
    }

    /// Offers the allowed word nearest to `written`.
    pub(crate) fn nearest_to(mut self, written: &str) -> Self {
        let words = self.allowed.iter().map(String::as_str);
        self.nearest = brimful_units::spelling::nearest(written, words).map(str::to_owned);
        self
    }

    pub(crate) fn nearest(mut self, word: Option<&str>) -> Self {
        self.nearest = word.map(str::to_owned);
        self
    }
}

/// What was written, cut short where nobody would read on.
pub(crate) fn shortened(written: &str) -> String {
    const LONGEST: usize = 40;
    if written.chars().count() <= LONGEST {
        return written.escape_debug().to_string();
    }
    let start: String = written.chars().take(LONGEST).collect();
    format!("{}...", start.escape_debug())
}
