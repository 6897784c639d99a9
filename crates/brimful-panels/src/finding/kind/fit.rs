//! Findings of a stage: bodies offered for a space.

use super::way_in::NoWay;
use crate::name::{CandidateName, PanelName};
use brimful_geom::boolean::BooleanFault;
use brimful_geom::inscribed::InscribedFault;
use brimful_geom::offset::OffsetFault;
use brimful_job::Capacity;
use brimful_units::{Length, Volume};
use schemars::JsonSchema;
use serde::Serialize;

/// Bodies offered for a space.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(tag = "kind", content = "data", rename_all = "snake_case")]
pub enum FitKind {
    /// No body can be offered.
    NothingOffered {
        /// Width and height of the opening on the way in, where there is one.
        #[serde(rename = "opening_m")]
        opening: Option<[Length; 2]>,
        /// The largest body that was looked at, and why it is not offered.
        largest: Option<(CandidateName, NotOffered)>,
    },
    /// A body that may have been worth offering was not looked for.
    Unsearched(Unsearched),
    /// A body may bear on what is beside it when it is full and warm.
    Interferes {
        /// What it takes of its room.
        full: FullSize,
        /// The largest that keeps off by more clearance alone, where one is shown to.
        kept_off: Option<MoreClearance>,
    },
    /// A body goes in as pieces that each need what a tank needs.
    InPieces {
        /// The body.
        body: CandidateName,
        /// How many.
        pieces: usize,
        /// Whether one of them is not shown to get to its place.
        unplaced: bool,
    },
    /// What is wanted cannot be had in one tank.
    TooLittle {
        /// What is wanted.
        #[serde(rename = "wanted_m3")]
        wanted: Volume,
        /// Of which capacity.
        of: Capacity,
        /// The most that one tank holds, and which.
        #[serde(rename = "in_one_m3")]
        in_one: Option<(Volume, CandidateName)>,
        /// What pieces hold, where that is more.
        in_pieces: Option<HeldInPieces>,
        /// Whether the rated capacity is meant, since what the outlet takes is not known.
        rated_instead: bool,
    },
}

/// Why a body is not offered.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum NotOffered {
    /// It bears on what is beside it when warm, and cannot be made smaller.
    NoRoomToGrow(NoRoomToGrow),
    /// The sheet is too thick for it.
    SheetTooThick {
        /// The sheet.
        #[serde(rename = "thickness_m")]
        thickness: Length,
        /// What goes wrong.
        fault: OffsetFault,
    },
    /// It does not get in.
    NoWayIn(NoWay),
    /// It falls into no pieces.
    NoPieces,
    /// Its panels cannot be laid out.
    PanelsNotLaidOut,
    /// Nobody waits for it any more.
    Cancelled,
}

/// Why a body that bears when warm cannot be made smaller.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum NoRoomToGrow {
    /// The room before its sides cannot be measured.
    NotMeasured(BooleanFault),
    /// Its sides cannot be moved in.
    NotMoved(OffsetFault),
    /// A side of it goes.
    SideGone,
    /// What is moved in does not come to an end.
    NotConverged,
}

/// A body that was not looked for.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Unsearched {
    /// Which.
    pub largest: LargestBox,
    /// Why.
    pub fault: InscribedFault,
}

/// A largest box in a space.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum LargestBox {
    /// With its sides along the space.
    AlongSpace,
    /// Turned about the vertical.
    Turned,
}

/// What a body takes of its room when it is full and warm.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct FullSize {
    /// The side that is worst off; none where no side's bulge is known.
    pub worst: Option<SideTaken>,
    /// Sides with something beside them of which it is not known what they take.
    pub unknown: usize,
    /// The most that a side takes which has not so much room; nothing where all have.
    #[serde(rename = "wanting_m")]
    pub wanting: Length,
    /// Whether the inner panels, ribs and fittings of the job stand in it; without them where they do
    /// not find their places in this body.
    pub as_in_job: bool,
}

/// What a side takes of the room before it.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct SideTaken {
    /// Which side.
    pub side: PanelName,
    /// To what is beside it.
    #[serde(rename = "gap_m")]
    pub gap: Length,
    /// Growth by warmth, at most.
    #[serde(rename = "growth_m")]
    pub growth: Length,
    /// What ribs and welds stand out.
    #[serde(rename = "stands_out_m")]
    pub stands_out: Length,
    /// Bulge, with clamped and with hinged edges.
    #[serde(rename = "bulge_m")]
    pub bulge: [Length; 2],
}

/// Whether a body interferes with what is beside it when it is full and warm; edges of a real tank lie
/// between clamped and hinged.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Interference {
    /// Even with clamped edges.
    Interferes,
    /// With hinged edges, and not with clamped ones.
    Doubtful,
    /// What is known of has room, and not all is known.
    Unknown,
    /// Not even with hinged edges.
    Clear,
}

impl SideTaken {
    /// What it takes, with clamped and with hinged edges.
    pub fn takes(&self) -> [Length; 2] {
        self.bulge
            .map(|bulge| bulge + self.growth + self.stands_out)
    }

    /// Whether that is more than there is.
    pub fn interference(&self) -> Interference {
        let [clamped, hinged] = self.takes();
        match (hinged <= self.gap, clamped <= self.gap) {
            (true, _) => Interference::Clear,
            (false, true) => Interference::Doubtful,
            (false, false) => Interference::Interferes,
        }
    }
}

impl FullSize {
    /// Whether it interferes with what is beside it.
    pub fn interference(&self) -> Interference {
        let known = self.worst.as_ref().map(SideTaken::interference);
        match (known, self.unknown) {
            (None, _) => Interference::Unknown,
            (Some(Interference::Clear), 1..) => Interference::Unknown,
            (Some(known), _) => known,
        }
    }
}

/// A tank that keeps further off.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, JsonSchema)]
pub struct MoreClearance {
    /// Clearance all round.
    #[serde(rename = "clearance_m")]
    pub clearance: Length,
    /// What it is rated then.
    #[serde(rename = "rated_m3")]
    pub rated: Volume,
}

/// What a body in pieces holds.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct HeldInPieces {
    /// All of them together.
    #[serde(rename = "volume_m3")]
    pub volume: Volume,
    /// Which body.
    pub body: CandidateName,
    /// Whether every piece is shown to get to its place.
    pub shown: bool,
}
