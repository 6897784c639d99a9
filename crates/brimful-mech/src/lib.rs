//! Mechanics of plates and folds; knows nothing of tanks.

pub mod plate;
pub mod shell;
