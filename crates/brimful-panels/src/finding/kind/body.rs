//! Findings of a stage: the tank's outside.

use schemars::JsonSchema;
use serde::Serialize;

/// The tank's outside.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(tag = "kind", content = "data", rename_all = "snake_case")]
pub enum BodyKind {
    /// No body is given, so it takes the whole space less the clearance.
    WholeSpace,
}
