//! The opening that a tank must pass to get into its space.

use super::super::place::Place;
use super::super::reader::{Bound, Field, Section};
use brimful_units::Length;

/// The opening that a tank must pass to get into its space.
#[derive(Clone, Debug, PartialEq)]
pub struct WayIn {
    /// Width and height; from above or below, sizes along x and y.
    pub size: [Length; 2],
    /// Air kept at each edge of the opening while the tank passes.
    pub clearance: Length,
    /// The side of the space it lies in; none: somewhere before the space, with a straight run
    /// after it.
    pub side: Option<Side>,
    /// Its lower corner in the plane of that side: (y, z), (x, z) or (x, y).
    pub at: Option<[Length; 2]>,
    /// Where it is written.
    pub place: Place,
}

/// A side of the space.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Side {
    /// Where x is greatest.
    Front,
    /// Where x is least.
    Rear,
    /// Where y is greatest.
    Left,
    /// Where y is least.
    Right,
    /// The top.
    Above,
    /// The bottom.
    Below,
}

pub(super) const SIDES: [(&str, Side); 6] = [
    ("front", Side::Front),
    ("rear", Side::Rear),
    ("left", Side::Left),
    ("right", Side::Right),
    ("above", Side::Above),
    ("below", Side::Below),
];

impl Side {
    /// The word for it.
    #[must_use]
    pub fn word(self) -> &'static str {
        SIDES
            .iter()
            .find(|(_, side)| *side == self)
            .map_or("", |(word, _)| word)
    }
}

impl WayIn {
    /// The opening of a section that has one: two sizes in a list, or a table.
    pub(super) fn read(space: &Section<'_>, field: &Field<'_>) -> Option<Self> {
        if field.is_list() {
            return Some(Self {
                size: field.lengths(Bound::AboveZero)?,
                clearance: Length::ZERO,
                side: None,
                at: None,
                place: field.place(),
            });
        }
        let section = space.section("way_in");
        let size = |field: &Field<'_>| field.length(Bound::AboveZero);
        let width = section.needed("width", size);
        let height = section.needed("height", size);
        let clearance = section.defaulted("clearance", |field| field.length(Bound::NotNegative));
        let side = section.optional("side", |field| field.choice(&SIDES));
        let at = section.optional("at", |field| field.lengths(Bound::Any));
        section.refuse_unknown_keys();
        Some(Self {
            size: [width?, height?],
            clearance: clearance?,
            side: side?,
            at: at?,
            place: field.place(),
        })
    }
}
