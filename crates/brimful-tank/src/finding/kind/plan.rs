//! Findings of a stage: the plan as a whole.

/// The plan as a whole.
#[derive(Clone, Debug, PartialEq)]
pub enum PlanKind {}
