//! Rooms of a tank, each told by two panels that bound it.

use super::fault::Items;
use super::reader::{Field, Section};

/// Reads `between`: the names of two panels that bound a room, one of them a divider.
pub(super) fn read_between(section: &Section<'_>) -> Option<[String; 2]> {
    section.needed("between", |field| {
        let panels = field.all(2..=2, Items::Names, Field::text)?;
        <[String; 2]>::try_from(panels).ok()
    })
}
