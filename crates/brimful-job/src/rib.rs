//! `[[rib]]`: level bands welded round the outside of the walls.

use super::fault::Items;
use super::place::Place;
use super::reader::{Bound, Field, MOST_IN_A_LIST, Section};
use brimful_units::Length;

/// Level bands round the walls, alike but for their heights.
#[derive(Clone, Debug, PartialEq)]
pub struct Rib {
    /// What the shop calls it.
    pub name: String,
    /// The middle of each band, z in the body's axes.
    pub heights: Vec<Length>,
    /// How far it stands out from the wall.
    pub depth: Length,
    /// Its sheet thickness; none: that of the body's thickest panel.
    pub thickness: Option<Length>,
    /// The walls it runs along; none: all upright ones.
    pub panels: Option<Vec<String>>,
    /// Where it is written.
    pub place: Place,
}

impl Rib {
    /// Reads one `[[rib]]`.
    pub(super) fn read(section: &Section<'_>, index: usize) -> Option<Self> {
        let name = section.optional("name", |field| field.text());
        let heights = section.needed("heights", |field| {
            field.all(1..=MOST_IN_A_LIST, Items::Lengths, |item| {
                item.length(Bound::Any)
            })
        });
        let depth = section.needed("depth", |field| field.length(Bound::AboveZero));
        let thickness = section.optional("thickness", |field| field.length(Bound::AboveZero));
        let panels = section.optional("panels", |field| {
            field.all(1..=MOST_IN_A_LIST, Items::Names, Field::text)
        });
        Some(Self {
            name: name?.unwrap_or_else(|| format!("rib {}", index + 1)),
            heights: heights?,
            depth: depth?,
            thickness: thickness?,
            panels: panels?,
            place: section.place(),
        })
    }
}
