//! A room as a tape gives it: the sides of its floor, diagonals, corner heights, leaning walls.

use super::super::fault::FaultKind;
use super::super::place::Place;
use super::super::reader::{Bound, Complaint, Field, Section};
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
        for key in ["side", "front", "length", "width"] {
            if section.has(key) {
                return section.refuse_key(
                    key,
                    Complaint::new(
                        FaultKind::NotTogether,
                        format!("`{key}` and measures of a taped room are both given"),
                    )
                    .remedy("Give lean and heights by the outlines of the views, or by the tape."),
                );
            }
        }
        let height = height.or(size.map(|[_, _, z]| z));
        let base = base(section, size, plan, sides, diagonals)?;
        if matches!(base, Base::Plan(_)) && !walls.is_empty() {
            return section.refuse_key(
                "wall",
                Complaint::new(
                    FaultKind::NotTogether,
                    "leaning walls are taken for a floor of four sides alone",
                )
                .remedy(
                    "Give `side` or `front` as outlines that lean, or [[space.station]] sections.",
                ),
            );
        }
        let corners = base.corners();
        let heights = match (corner_heights, height) {
            (Some(heights), _) if heights.len() != corners => {
                let says = format!("{} heights are given for {corners} corners", heights.len());
                return section.refuse_key(
                    "corner_heights",
                    Complaint::new(FaultKind::WrongCount, says)
                        .remedy("Give one a corner, in the order of the floor's corners."),
                );
            }
            (Some(heights), _) => heights,
            (None, Some(height)) => vec![height; corners],
            (None, None) => {
                return section.refuse(
                    Complaint::new(
                        FaultKind::Missing,
                        "nothing closes the space above: its height is missing",
                    )
                    .allowed(["height", "corner_heights"])
                    .remedy("Write the `height`, or one height a corner."),
                );
            }
        };
        Some(Self {
            base,
            heights,
            walls,
            place: section.place(),
        })
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
        return section.refuse(
            Complaint::new(
                FaultKind::NotTogether,
                "the floor is given in more than one way",
            )
            .remedy("Keep one of `box`, `sides` and `plan`."),
        );
    }
    let of_box = size.map(|[x, y, _]| [x, y, x, y]);
    match (sides.or(of_box), plan) {
        (Some(sides), _) => Some(Base::Sides {
            sides,
            diagonals: diagonals.unwrap_or_default(),
        }),
        (None, Some(_)) if diagonals.is_some() => section.refuse_key(
            "diagonals",
            Complaint::new(
                FaultKind::NotTogether,
                "diagonals are taken for a floor of four sides alone",
            )
            .remedy("Give the four `sides` instead of `plan`."),
        ),
        (None, Some(outline)) => Some(Base::Plan(outline)),
        (None, None) => section.refuse(
            Complaint::new(FaultKind::Missing, "nothing gives the floor of the space")
                .allowed(["box", "sides", "plan"])
                .remedy("Give a box, its four sides or its outline from above."),
        ),
    }
}

fn read_one_or_two(field: &Field<'_>) -> Option<Vec<Length>> {
    let items = field.list(1..=2)?;
    items
        .iter()
        .map(|item| item.length(Bound::AboveZero))
        .collect()
}

fn read_heights(field: &Field<'_>) -> Option<Vec<Length>> {
    /// More corners than any floor measured by hand; it bounds the search for the lid's plane.
    const MOST_CORNERS: usize = 40;
    let items = field.list(3..=MOST_CORNERS)?;
    items
        .iter()
        .map(|item| item.length(Bound::AboveZero))
        .collect()
}

impl LeaningWall {
    fn read(section: &Section<'_>) -> Option<Self> {
        let wall = section.needed("name", "Name the wall.", |field| field.choice(&SIDES[..4]));
        let lean = section.needed("lean", "Write how far it leans in.", |field| {
            field.length(Bound::Any)
        });
        let at = section.needed(
            "at",
            "Write the height at which it was measured.",
            |field| field.length(Bound::AboveZero),
        );
        Some(Self {
            wall: wall?,
            lean: lean?,
            at: at?,
            place: section.place(),
        })
    }
}
