//! Findings of a stage: how the sheets are cut.

/// How the sheets are cut.
#[derive(Clone, Debug, PartialEq)]
pub enum CutKind {}
