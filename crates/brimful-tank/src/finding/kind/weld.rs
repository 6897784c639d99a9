//! Findings of a stage: grooves, rod and the order of work.

/// Grooves, rod and the order of work.
#[derive(Clone, Debug, PartialEq)]
pub enum WeldKind {}
