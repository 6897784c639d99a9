//! `[[dry]]`: rooms between panels that no liquid goes into.

use super::place::Place;
use super::reader::Section;
use super::room::read_between;

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
        Some(Self {
            between: read_between(section)?,
            place: section.place(),
        })
    }
}
