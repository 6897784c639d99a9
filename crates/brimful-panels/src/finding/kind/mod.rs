//! The kinds of finding, by stage, with their quantities.

mod body;
mod capacity;
mod cut;
mod fit;
mod panels;
mod plan;
mod practice;
mod quick;
mod remedy;
mod room;
mod slosh;
mod space;
mod strength;
mod way_in;
mod weld;

pub use body::BodyKind;
pub use capacity::CapacityKind;
pub use cut::CutKind;
pub use fit::{
    FitKind, FullSize, HeldInPieces, Interference, LargestBox, MoreClearance, NoRoomToGrow,
    NotOffered, SideTaken, Unsearched,
};
pub use panels::PanelsKind;
pub use plan::PlanKind;
pub use practice::{Bearing, FillingKind, PracticeKind, Push, RoomSaid, Rule};
pub use quick::{Governs, QuickKind, Uncovered};
pub use remedy::{Adds, AutoResult, RemedyKind, Variant, What};
pub use room::RoomKind;
pub use slosh::SloshKind;
pub use space::{ScanDefects, SpaceKind, SpacePiece, TankPart};
pub use strength::{NoModel, NoScore, StrengthKind, Toward};
pub use way_in::{
    Attitude, BodyAxis, EntrySummary, FittingsOnWay, NoWay, NoWayWhole, PieceFittings, PieceNeed,
    PiecesSummary, WayInKind,
};
pub use weld::{NoSection, NotReached, OrderCost, OrderMisfit, WeldKind};

use schemars::JsonSchema;
use serde::Serialize;

/// What is found.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(tag = "stage", rename_all = "snake_case")]
pub enum Kind {
    /// What was measured, and whether a body keeps to it.
    Space(SpaceKind),
    /// The tank's outside.
    Body(BodyKind),
    /// Panels, their openings and the proof that they make up the body.
    Panels(PanelsKind),
    /// What it holds.
    Capacity(CapacityKind),
    /// Grooves, rod and the order of work.
    Weld(WeldKind),
    /// The quick strength check.
    Quick(QuickKind),
    /// The whole-tank strength check.
    Strength(StrengthKind),
    /// The room about the tank, full and warm.
    Room(RoomKind),
    /// How it gets to its place.
    WayIn(WayInKind),
    /// How the sheets are cut.
    Cut(CutKind),
    /// Liquid in motion.
    Slosh(SloshKind),
    /// Rules of practice.
    Practice(PracticeKind),
    /// Changes that would make it hold.
    Remedy(RemedyKind),
    /// Bodies offered for a space.
    Fit(FitKind),
    /// The plan as a whole.
    Plan(PlanKind),
}

impl From<SpaceKind> for Kind {
    fn from(kind: SpaceKind) -> Self {
        Self::Space(kind)
    }
}

impl From<BodyKind> for Kind {
    fn from(kind: BodyKind) -> Self {
        Self::Body(kind)
    }
}

impl From<PanelsKind> for Kind {
    fn from(kind: PanelsKind) -> Self {
        Self::Panels(kind)
    }
}

impl From<CapacityKind> for Kind {
    fn from(kind: CapacityKind) -> Self {
        Self::Capacity(kind)
    }
}

impl From<WeldKind> for Kind {
    fn from(kind: WeldKind) -> Self {
        Self::Weld(kind)
    }
}

impl From<QuickKind> for Kind {
    fn from(kind: QuickKind) -> Self {
        Self::Quick(kind)
    }
}

impl From<StrengthKind> for Kind {
    fn from(kind: StrengthKind) -> Self {
        Self::Strength(kind)
    }
}

impl From<RoomKind> for Kind {
    fn from(kind: RoomKind) -> Self {
        Self::Room(kind)
    }
}

impl From<WayInKind> for Kind {
    fn from(kind: WayInKind) -> Self {
        Self::WayIn(kind)
    }
}

impl From<CutKind> for Kind {
    fn from(kind: CutKind) -> Self {
        Self::Cut(kind)
    }
}

impl From<SloshKind> for Kind {
    fn from(kind: SloshKind) -> Self {
        Self::Slosh(kind)
    }
}

impl From<PracticeKind> for Kind {
    fn from(kind: PracticeKind) -> Self {
        Self::Practice(kind)
    }
}

impl From<RemedyKind> for Kind {
    fn from(kind: RemedyKind) -> Self {
        Self::Remedy(kind)
    }
}

impl From<FitKind> for Kind {
    fn from(kind: FitKind) -> Self {
        Self::Fit(kind)
    }
}

impl From<PlanKind> for Kind {
    fn from(kind: PlanKind) -> Self {
        Self::Plan(kind)
    }
}
