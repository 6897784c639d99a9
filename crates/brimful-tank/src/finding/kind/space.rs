//! Findings of a stage: what was measured, and whether a body keeps to it.

/// What was measured, and whether a body keeps to it.
#[derive(Clone, Debug, PartialEq)]
pub enum SpaceKind {}
