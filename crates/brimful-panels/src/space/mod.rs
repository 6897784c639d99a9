//! The space: from what was measured to the room that a tank may take.
//!
//! Three solids, each within the one before: the `shell`, as measured, with flat sides inside any
//! twisted one; the `free` inside, less obstacles; the `allowed` inside, less clearance, the room
//! above and below, and zones that are kept free. A body must lie within the last.

mod check;
mod flats;
mod kept;
mod measured;
mod measurement;
mod room;
mod scan;
mod shell;
mod stations;
mod stretch;
mod taped;
mod tolerance;

pub use kept::{is_stood_on, kept_at};
pub use room::{Named, Room};
pub use scan::solid_inside;
pub use tolerance::NO_VOLUME;
