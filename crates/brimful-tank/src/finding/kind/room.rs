//! Findings of a stage: the room about the tank, full and warm.

/// The room about the tank, full and warm.
#[derive(Clone, Debug, PartialEq)]
pub enum RoomKind {}
