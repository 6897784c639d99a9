//! The words of a kind of finding.

use crate::text::Text;

/// The words of a kind of finding.
pub(crate) struct Said {
    pub(super) says: Text,
    pub(super) cure: Text,
    pub(super) entry: &'static str,
    pub(super) source: Text,
}

impl Said {
    pub(crate) fn new(says: Text) -> Self {
        Self {
            says,
            cure: Text::default(),
            entry: "",
            source: Text::default(),
        }
    }

    pub(crate) fn cure(self, cure: Text) -> Self {
        Self { cure, ..self }
    }

    pub(crate) fn entry(self, entry: &'static str) -> Self {
        Self { entry, ..self }
    }

    pub(crate) fn source(self, source: Text) -> Self {
        Self { source, ..self }
    }
}
