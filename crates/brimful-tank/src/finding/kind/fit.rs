//! Findings of a stage: bodies offered for a space.

/// Bodies offered for a space.
#[derive(Clone, Debug, PartialEq)]
pub enum FitKind {}
