//! Findings of a stage: the plan as a whole.

use schemars::JsonSchema;
use serde::Serialize;

/// The plan as a whole.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(tag = "kind", content = "data", rename_all = "snake_case")]
pub enum PlanKind {
    /// Strength is by the quick check alone.
    Draft,
}
