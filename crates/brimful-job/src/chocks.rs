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
        let names = |field: &Field<'_>| field.all(1..=MOST_IN_A_LIST, Items::Names, Field::text);
        let has_height = section.has("chock_height");
        // A height without chocks is a chock that was forgotten.
        let panels = match has_height {
            true => section.needed("chocks", names).map(Some),
            false => section.optional("chocks", names),
        };
        if !has_height && panels == Some(None) {
            return Some(None);
        }
        let height = section.defaulted("chock_height", |field| field.length(Bound::AboveZero));
        let panels = panels??;
        Some(Some(Self {
            panels,
            height: height?,
            place: section.place(),
        }))
    }
}
