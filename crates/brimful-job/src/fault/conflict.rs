//! Keys and words that exclude each other.

use crate::inner_kind::InnerKind;

/// Keys and words that exclude each other.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Conflict {
    /// Two keys that say the same in two ways.
    BothGiven {
        /// The one.
        one: &'static str,
        /// The other.
        other: &'static str,
    },
    /// A floor given in more than one way.
    FloorTwice,
    /// A view or size beside the measures of a taped room.
    TapeAndViews {
        /// The key of the view or size.
        key: &'static str,
    },
    /// Diagonals of a floor that is an outline.
    DiagonalsOfPlan,
    /// Leaning walls round a floor that is an outline.
    WallsOfPlan,
    /// A panel that runs through, at a joint where none does.
    NothingRunsThrough,
    /// Height and width of an inner panel that is no stay.
    NotAStrip,
    /// Openings in an inner panel that has none.
    NoOpenings {
        /// What it is.
        kind: InnerKind,
    },
    /// A stay that is to be placed by rule.
    StayByRule,
    /// An axis for a panel that is placed by rule.
    AcrossByRule,
    /// A hole that is both round and rectangular.
    RoundAndRectangular,
    /// Places or sizes of a support that has none.
    WholeSupport,
}
