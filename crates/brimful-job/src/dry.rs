//! `[[dry]]`: rooms between panels that no liquid goes into.

use super::fault::Items;
use super::place::Place;
use super::reader::{Field, Section};

/// A room that stays dry: the gap of a double wall, or a bay that is shut off.
#[derive(Clone, Debug, PartialEq)]
pub struct DryRoom {
    /// The names of two panels that bound it, one of them a divider.
    pub between: [String; 2],
    /// Where it is written.
    pub place: Place,
}

impl DryRoom {
    /// Reads one `[[dry]]`.
    pub(super) fn read(section: &Section<'_>) -> Option<Self> {
        let between = section.needed("between", |field| {
            let panels = field.all(2..=2, Items::Names, Field::text)?;
            <[String; 2]>::try_from(panels).ok()
        });
        Some(Self {
            between: between?,
            place: section.place(),
        })
    }
}
