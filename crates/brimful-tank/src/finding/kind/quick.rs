//! Findings of a stage: the quick strength check.

/// The quick strength check.
#[derive(Clone, Debug, PartialEq)]
pub enum QuickKind {}
