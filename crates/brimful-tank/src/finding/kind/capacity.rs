//! Findings of a stage: what it holds.

/// What it holds.
#[derive(Clone, Debug, PartialEq)]
pub enum CapacityKind {}
