//! Findings of a stage: rules of practice.

/// Rules of practice.
#[derive(Clone, Debug, PartialEq)]
pub enum PracticeKind {}
