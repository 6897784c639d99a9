//! Findings of a stage: the tank's outside.

/// The tank's outside.
#[derive(Clone, Debug, PartialEq)]
pub enum BodyKind {}
