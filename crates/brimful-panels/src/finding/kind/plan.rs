//! Findings of a stage: the plan as a whole.

/// The plan as a whole.
#[derive(Clone, Debug, PartialEq)]
pub enum PlanKind {
    /// Strength is by the quick check alone.
    Draft,
}
