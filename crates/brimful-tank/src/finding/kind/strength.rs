//! Findings of a stage: the whole-tank strength check.

/// The whole-tank strength check.
#[derive(Clone, Debug, PartialEq)]
pub enum StrengthKind {}
