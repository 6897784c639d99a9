//! A room as a tape gives it: the sides of its floor, diagonals, corner heights, leaning walls.

use super::super::fault::{Conflict, FaultKind, Items, Missing};
use super::super::place::Place;
use super::super::reader::{Bound, Field, Section};
use super::super::shape::Outline;
use super::way_in::{SIDES, Side};
use brimful_units::Length;

/// A room as a tape gives it.
#[derive(Clone, Debug, PartialEq)]
pub struct TapedRoom {
    /// The floor.
    pub base: Base,
    /// Heights at the corners of the floor, in their order.
    pub heights: Vec<Length>,
    /// Walls that lean; the others stand square to the floor.
    pub walls: Vec<LeaningWall>,
    /// Where it is written.
    pub place: Place,
}

/// The floor of a taped room.
#[derive(Clone, Debug, PartialEq)]
pub enum Base {
    /// Four sides in plan, walked round from the origin: along x at y = 0, then the front, the
    /// left and the rear; with none, one or both diagonals (from the origin, then the other).
    Sides {
        /// Right, front, left and rear side.
        sides: [Length; 4],
        /// None: the floor is taken to be square.
        diagonals: Vec<Length>,
    },
    /// An outline (x, y).
    Plan(Outline),
}

/// A wall that leans.
#[derive(Clone, Debug, PartialEq)]
pub struct LeaningWall {
    /// Which wall.
    pub wall: Side,
    /// How far it leans into the space at the height `at`; negative: out of it.
    pub lean: Length,
    /// The height at which that was measured.
    pub at: Length,
    /// Where it is written.
    pub place: Place,
}

impl TapedRoom {
    /// Reads a room, of which at least one key of the tape is there.
    pub(super) fn read(section: &Section<'_>) -> Option<Self> {
        let size = section.optional("box", |field| field.lengths::<3>(Bound::AboveZero));
        let plan = section.optional("plan", Outline::read);
        let height = section.optional("height", |field| field.length(Bound::AboveZero));
        let sides = section.optional("sides", |field| field.lengths::<4>(Bound::AboveZero));
        let diagonals = section.optional("diagonals", read_one_or_two);
        let corner_heights = section.optional("corner_heights", read_heights);
        let walls = section.each("wall", |item, _| LeaningWall::read(item));
        let (size, plan, height, sides) = (size?, plan?, height?, sides?);
        let (diagonals, corner_heights, walls) = (diagonals?, corner_heights?, walls?);
        let views = ["side", "front", "length", "width"];
        if let Some(key) = views.into_iter().find(|key| section.has(key)) {
            return section.refuse_key(key, Conflict::TapeAndViews { key });
        }
        let height = height.or(size.map(|[_, _, z]| z));
        let base = base(section, size, plan, sides, diagonals)?;
        if matches!(base, Base::Plan(_)) && !walls.is_empty() {
            return section.refuse_key("wall", Conflict::WallsOfPlan);
        }
        let heights = heights(section, base.corners(), corner_heights, height)?;
        Some(Self {
            base,
            heights,
            walls,
            place: section.place(),
        })
    }
}

/// The height at each corner of the floor.
fn heights(
    section: &Section<'_>,
    corners: usize,
    at_corners: Option<Vec<Length>>,
    height: Option<Length>,
) -> Option<Vec<Length>> {
    match (at_corners, height) {
        (Some(heights), _) if heights.len() != corners => section.refuse_key(
            "corner_heights",
            FaultKind::HeightsForCorners {
                heights: heights.len(),
                corners,
            },
        ),
        (Some(heights), _) => Some(heights),
        (None, Some(height)) => Some(vec![height; corners]),
        (None, None) => section.refuse(Missing::Height),
    }
}

impl Base {
    /// How many corners the floor has.
    #[must_use]
    pub fn corners(&self) -> usize {
        match self {
            Self::Sides { .. } => 4,
            Self::Plan(outline) => outline.points.len(),
        }
    }
}

fn base(
    section: &Section<'_>,
    size: Option<[Length; 3]>,
    plan: Option<Outline>,
    sides: Option<[Length; 4]>,
    diagonals: Option<Vec<Length>>,
) -> Option<Base> {
    let given = [size.is_some(), plan.is_some(), sides.is_some()];
    if given.iter().filter(|given| **given).count() > 1 {
        return section.refuse(Conflict::FloorTwice);
    }
    let of_box = size.map(|[x, y, _]| [x, y, x, y]);
    match (sides.or(of_box), plan) {
        (Some(sides), _) => Some(Base::Sides {
            sides,
            diagonals: diagonals.unwrap_or_default(),
        }),
        (None, Some(_)) if diagonals.is_some() => {
            section.refuse_key("diagonals", Conflict::DiagonalsOfPlan)
        }
        (None, Some(outline)) => Some(Base::Plan(outline)),
        (None, None) => section.refuse(Missing::Floor),
    }
}

fn read_one_or_two(field: &Field<'_>) -> Option<Vec<Length>> {
    field.all(1..=2, Items::Lengths, |item| item.length(Bound::AboveZero))
}

fn read_heights(field: &Field<'_>) -> Option<Vec<Length>> {
    /// More corners than any floor measured by hand; it bounds the search for the lid's plane.
    const MOST_CORNERS: usize = 40;
    field.all(3..=MOST_CORNERS, Items::Lengths, |item| {
        item.length(Bound::AboveZero)
    })
}

impl LeaningWall {
    fn read(section: &Section<'_>) -> Option<Self> {
        let wall = section.needed("name", |field| field.choice(&SIDES[..4]));
        let lean = section.needed("lean", |field| field.length(Bound::Any));
        let at = section.needed("at", |field| field.length(Bound::AboveZero));
        Some(Self {
            wall: wall?,
            lean: lean?,
            at: at?,
            place: section.place(),
        })
    }
}
