//! Findings of a stage: the tank's outside.

/// The tank's outside.
#[derive(Clone, Debug, PartialEq)]
pub enum BodyKind {
    /// No body is given, so it takes the whole space less the clearance.
    WholeSpace,
}
