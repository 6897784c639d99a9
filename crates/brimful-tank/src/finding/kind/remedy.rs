//! Findings of a stage: changes that would make it hold.

/// Changes that would make it hold.
#[derive(Clone, Debug, PartialEq)]
pub enum RemedyKind {}
