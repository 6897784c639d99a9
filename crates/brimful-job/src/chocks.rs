//! The chocks of `[support]`: what keeps the tank from sliding.

use super::fault::Items;
use super::place::Place;
use super::reader::{Bound, Field, MOST_IN_A_LIST, Section};
use brimful_units::Length;

/// Chocks or strips of a bulkhead that stand against the foot of outer walls, over all of their width.
#[derive(Clone, Debug, PartialEq)]
pub struct Chocks {
    /// The walls that they stand against.
    pub panels: Vec<String>,
    /// How high they reach from the foot of each wall.
    pub height: Length,
    /// Where they are written.
    pub place: Place,
}

impl Chocks {
    /// Reads the chocks of `[support]`: `Some(None)` where there are none, `None` after a fault.
    pub(super) fn read(section: &Section<'_>) -> Option<Option<Self>> {
        let panels = section.optional("chocks", |field| {
            field.all(1..=MOST_IN_A_LIST, Items::Names, Field::text)
        })?;
        let Some(panels) = panels else {
            return Some(None);
        };
        let height = section.defaulted("chock_height", |field| field.length(Bound::AboveZero));
        Some(Some(Self {
            panels,
            height: height?,
            place: section.place(),
        }))
    }
}
