//! What other programs read: drawings at full size, the model, the lists.

mod deck;
mod drawing;
mod lists;
mod model;

pub use deck::deck;
pub use drawing::{panel_drawings, sheet_drawings};
pub use lists::lists;
pub use model::{glb, step};
