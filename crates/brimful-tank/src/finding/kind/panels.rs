//! Findings of a stage: panels, their openings and the proof that they make up the body.

/// Panels, their openings and the proof that they make up the body.
#[derive(Clone, Debug, PartialEq)]
pub enum PanelsKind {}
