//! Findings of a stage: how it gets to its place.

/// How it gets to its place.
#[derive(Clone, Debug, PartialEq)]
pub enum WayInKind {}
