//! Mechanics of plates and folds, and heat through walls; knows nothing of tanks.

pub mod heat;
pub mod plate;
pub mod shell;
