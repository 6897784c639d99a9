//! `[support]`: what carries the tank.

use super::axis::{AXES, Axis};
use super::fault::{Conflict, Items};
use super::reader::{Bound, MOST_IN_A_LIST, Section};
use brimful_units::Length;

/// What carries the tank. Places are in the body's own axes.
#[derive(Clone, Debug, PartialEq)]
pub enum Support {
    /// A flat floor under all of it.
    Floor,
    /// A bed shaped to the floor, level or sloping, that carries all of it.
    Bed,
    /// Bearers under the floor.
    Rails {
        /// The direction they run in: x or y.
        along: Axis,
        /// Their middle lines on the other axis; at least two.
        at: Vec<Length>,
        /// Their width.
        width: Length,
    },
    /// Straps round the tank, hung from above.
    Straps {
        /// The axis they stand square to: x or y.
        across: Axis,
        /// Their middle planes on that axis; at least two.
        at: Vec<Length>,
        /// Their width.
        width: Length,
    },
    /// Pads under the floor.
    Feet {
        /// Their middles (x, y); at least three.
        at: Vec<[Length; 2]>,
        /// Their sizes along x and y.
        size: [Length; 2],
    },
}

#[derive(Clone, Copy)]
enum Kind {
    Floor,
    Bed,
    Rails,
    Straps,
    Feet,
}

const KINDS: [(&str, Kind); 5] = [
    ("floor", Kind::Floor),
    ("bed", Kind::Bed),
    ("rails", Kind::Rails),
    ("straps", Kind::Straps),
    ("feet", Kind::Feet),
];

impl Support {
    /// The word of the job file.
    pub(super) fn word(&self) -> &'static str {
        match self {
            Self::Floor => "floor",
            Self::Bed => "bed",
            Self::Rails { .. } => "rails",
            Self::Straps { .. } => "straps",
            Self::Feet { .. } => "feet",
        }
    }

    /// Reads `[support]`.
    pub(super) fn read(section: &Section<'_>) -> Option<Self> {
        let kind = section.defaulted("kind", |field| field.choice(&KINDS));
        let support = match kind? {
            Kind::Floor => Self::read_whole(section, Self::Floor),
            Kind::Bed => Self::read_whole(section, Self::Bed),
            Kind::Rails => Self::read_rails(section),
            Kind::Straps => Self::read_straps(section),
            Kind::Feet => Self::read_feet(section),
        };
        section.refuse_unknown_keys();
        support
    }

    fn read_whole(section: &Section<'_>, support: Self) -> Option<Self> {
        let keys = ["along", "across", "at", "width", "size"];
        section.expect_keys(&keys);
        match keys.into_iter().find(|key| section.has(key)) {
            Some(key) => section.refuse_key(key, Conflict::WholeSupport),
            None => Some(support),
        }
    }

    fn read_rails(section: &Section<'_>) -> Option<Self> {
        let along = section.needed("along", |field| field.choice(&AXES[..2]));
        let (at, width) = read_bands(section);
        Some(Self::Rails {
            along: along?,
            at: at?,
            width: width?,
        })
    }

    fn read_straps(section: &Section<'_>) -> Option<Self> {
        let across = section.needed("across", |field| field.choice(&AXES[..2]));
        let (at, width) = read_bands(section);
        Some(Self::Straps {
            across: across?,
            at: at?,
            width: width?,
        })
    }

    fn read_feet(section: &Section<'_>) -> Option<Self> {
        let at = section.needed("at", |field| {
            field.all(3..=MOST_IN_A_LIST, Items::Points, |item| {
                item.lengths(Bound::Any)
            })
        });
        let size = section.needed("size", |field| field.lengths(Bound::AboveZero));
        Some(Self::Feet {
            at: at?,
            size: size?,
        })
    }
}

/// The places and the width of rails or straps.
fn read_bands(section: &Section<'_>) -> (Option<Vec<Length>>, Option<Length>) {
    let at = section.needed("at", |field| {
        field.all(2..=MOST_IN_A_LIST, Items::Lengths, |item| {
            item.length(Bound::Any)
        })
    });
    let width = section.needed("width", |field| field.length(Bound::AboveZero));
    (at, width)
}
