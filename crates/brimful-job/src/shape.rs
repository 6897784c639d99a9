//! Shapes as a tape gives them: boxes, the outlines of three views, prisms.

use super::fault::{Conflict, Items, Missing, OutOfRange};
use super::place::Place;
use super::reader::{Bound, Field, MOST_IN_A_LIST, Section};
use brimful_units::Length;
use schemars::JsonSchema;
use serde::Serialize;

/// A direction: x along (forward), y to the left, z up.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Axis {
    /// Along; for a moving tank, forward.
    X,
    /// To the left.
    Y,
    /// Up.
    Z,
}

impl Axis {
    /// The word of the job file.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::X => "x",
            Self::Y => "y",
            Self::Z => "z",
        }
    }
}

/// A closed outline: its corners in order, the last joined to the first. Not yet checked for
/// crossing itself.
#[derive(Clone, Debug, PartialEq)]
pub struct Outline {
    /// At least three corners.
    pub points: Vec<[Length; 2]>,
    /// Where the outline is written.
    pub place: Place,
}

/// A solid as measured or wished for, its lowest corner of a box at the origin.
#[derive(Clone, Debug, PartialEq)]
pub enum ShapeSpec {
    /// A box from the origin to `size`, every size above zero.
    Box {
        /// Sizes along x, y and z.
        size: [Length; 3],
        /// Where the box is written.
        place: Place,
    },
    /// What the three views have in common; a view that is missing does not limit.
    Outlines {
        /// From above: (x, y).
        plan: Option<Outline>,
        /// From the side: (x, z).
        side: Option<Outline>,
        /// From the front: (y, z).
        front: Option<Outline>,
        /// From z = 0 up; always there for a plan alone.
        height: Option<Length>,
        /// The length along x; always there for a front alone.
        length: Option<Length>,
        /// The width along y; always there for a side alone.
        width: Option<Length>,
    },
}

/// Something that sticks into the space, or is taken off the body.
#[derive(Clone, Debug, PartialEq)]
pub struct Obstacle {
    /// What the shop calls it.
    pub name: String,
    /// Its shape, in the axes of the space (or of the body, for a cut).
    pub shape: ObstacleShape,
    /// Where it is written.
    pub place: Place,
}

/// The shape of an obstacle.
#[derive(Clone, Debug, PartialEq)]
pub enum ObstacleShape {
    /// A box between two corners, each of `from` below its fellow in `to`.
    Box {
        /// The corner lowest in x, y and z.
        from: [Length; 3],
        /// The opposite corner.
        to: [Length; 3],
    },
    /// An outline drawn out along an axis. The outline's points are (y, z) for x, (x, z) for y
    /// and (x, y) for z, as in the three views.
    Prism {
        /// The cross-section.
        outline: Outline,
        /// The direction it is drawn out in.
        along: Axis,
        /// Where it begins.
        from: Length,
        /// Where it ends, above `from`.
        to: Length,
    },
}

pub(super) const AXES: [(&str, Axis); 3] = [("x", Axis::X), ("y", Axis::Y), ("z", Axis::Z)];

impl Outline {
    pub(super) fn read(field: &Field<'_>) -> Option<Self> {
        const FEWEST: usize = 3;
        let points = field.all(FEWEST..=MOST_IN_A_LIST, Items::Points, |item| {
            item.lengths(Bound::Any)
        });
        Some(Self {
            points: points?,
            place: field.place(),
        })
    }
}

impl ShapeSpec {
    /// Reads a box, or the outlines of one to three views.
    pub(super) fn read(section: &Section<'_>) -> Option<Self> {
        let size = section.optional("box", |field| {
            Some((field.lengths(Bound::AboveZero)?, field.place()))
        });
        let plan = section.optional("plan", Outline::read);
        let side = section.optional("side", Outline::read);
        let front = section.optional("front", Outline::read);
        let above_zero = |field: &Field<'_>| field.length(Bound::AboveZero);
        let height = section.optional("height", above_zero);
        let length = section.optional("length", above_zero);
        let width = section.optional("width", above_zero);
        let outlined = ["plan", "side", "front", "height", "length", "width"];
        if let Some((size, place)) = size? {
            return match outlined.into_iter().find(|key| section.has(key)) {
                Some(other) => section.refuse_key("box", Conflict::BothGiven { one: "box", other }),
                None => Some(Self::Box { size, place }),
            };
        }
        let shape = Self::Outlines {
            plan: plan?,
            side: side?,
            front: front?,
            height: height?,
            length: length?,
            width: width?,
        };
        shape.refuse_open_direction(section)?;
        Some(shape)
    }

    /// Where it is written.
    #[must_use]
    pub fn place(&self) -> Place {
        match self {
            Self::Box { place, .. } => place.clone(),
            Self::Outlines {
                plan, side, front, ..
            } => [plan, side, front]
                .into_iter()
                .flatten()
                .next()
                .map(|outline| outline.place.clone())
                .unwrap_or_default(),
        }
    }

    /// Every direction must be limited by a view or by a size.
    fn refuse_open_direction(&self, section: &Section<'_>) -> Option<()> {
        let Self::Outlines {
            plan,
            side,
            front,
            height,
            length,
            width,
        } = self
        else {
            return Some(());
        };
        let (plan, side, front) = (plan.is_some(), side.is_some(), front.is_some());
        if !(plan || side || front) {
            return section.refuse(Missing::Shape);
        }
        let open = [
            ("length", plan || side || length.is_some()),
            ("width", plan || front || width.is_some()),
            ("height", side || front || height.is_some()),
        ];
        match open.into_iter().find(|(_, limited)| !limited) {
            Some((key, _)) => section.refuse(Missing::Extent { key }),
            None => Some(()),
        }
    }
}

impl Obstacle {
    /// Reads a list of obstacles, or of cuts; `called` names those without a name.
    pub(super) fn read_all(
        section: &Section<'_>,
        key: &'static str,
        called: &str,
    ) -> Option<Vec<Self>> {
        section.each(key, |item, index| {
            let name = item.optional("name", |field| field.text());
            let shape = ObstacleShape::read(item);
            Some(Self {
                name: name?.unwrap_or_else(|| format!("{called} {}", index + 1)),
                shape: shape?,
                place: item.place(),
            })
        })
    }
}

impl ObstacleShape {
    fn read(section: &Section<'_>) -> Option<Self> {
        if section.has("outline") || section.has("along") {
            Self::read_prism(section)
        } else {
            Self::read_box(section)
        }
    }

    fn read_box(section: &Section<'_>) -> Option<Self> {
        let corner = |field: &Field<'_>| field.lengths(Bound::Any);
        let from = section.needed("from", corner);
        let to = section.needed("to", corner);
        // Offered as spellings only; with one of them it is a prism.
        section.expect_keys(&["outline", "along"]);
        let (from, to): ([Length; 3], [Length; 3]) = (from?, to?);
        match (0..3).find(|axis| from[*axis] >= to[*axis]) {
            Some(axis) => {
                let axis = Some([Axis::X, Axis::Y, Axis::Z][axis]);
                section.refuse_key("to", OutOfRange::NotBeyond { axis })
            }
            None => Some(Self::Box { from, to }),
        }
    }

    fn read_prism(section: &Section<'_>) -> Option<Self> {
        let outline = section.needed("outline", Outline::read);
        let along = section.needed("along", |field| field.choice(&AXES));
        let from = section.needed("from", |field| field.length(Bound::Any));
        let to = section.needed("to", |field| field.length(Bound::Any));
        let (from, to) = (from?, to?);
        if from >= to {
            return section.refuse_key("to", OutOfRange::NotBeyond { axis: None });
        }
        Some(Self::Prism {
            outline: outline?,
            along: along?,
            from,
            to,
        })
    }
}
