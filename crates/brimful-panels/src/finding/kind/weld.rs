//! Findings of a stage: grooves, rod and the order of work.

use crate::name::PanelName;
use crate::table::NotCovered;
use brimful_units::{Length, Speed};
use schemars::JsonSchema;
use serde::Serialize;

/// Grooves, rod and the order of work.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(tag = "kind", content = "data", rename_all = "snake_case")]
pub enum WeldKind {
    /// No table has the density of the rod.
    RodNotWeighed(NotCovered),
    /// A joint has no groove at the angle of its seam.
    NoGroove(NoSection),
    /// A sheet is thicker than the process is known to weld.
    SheetTooThick {
        /// Whether the material is known to be welded by an extruder.
        by_extruder: bool,
    },
    /// A sheet is thinner than the process is known to weld.
    SheetTooThin,
    /// The shop welds at another speed than is published.
    SpeedOutside {
        /// Of the shop.
        #[serde(rename = "speed_m_s")]
        speed: Speed,
        /// The least and the greatest that is published.
        #[serde(rename = "published_m_s")]
        published: [Speed; 2],
    },
    /// At the shop's speed the faces of a groove do not melt as deep as they have to.
    MeltsTooLittle {
        /// Of the shop.
        #[serde(rename = "speed_m_s")]
        speed: Speed,
        /// At which they do; none where no published speed is slow enough.
        #[serde(rename = "slower_m_s")]
        slower: Option<Speed>,
    },
    /// Nobody has shown that hand and gun get to every run.
    ReachUnproven,
    /// The order of work was searched for.
    OrderFound {
        /// Panels that are set, ribs apart.
        panels: usize,
        /// What stays out of reach in it.
        #[serde(rename = "unreached_m")]
        unreached: Length,
        /// What stays out of reach in every order, at least.
        #[serde(rename = "bound_m")]
        bound: Length,
    },
    /// The maker's own order of work is followed.
    OwnOrder {
        /// Panels that are set, ribs apart.
        panels: usize,
        /// Whether it costs more than the best order found.
        is_worse: bool,
        /// What it costs.
        own: OrderCost,
        /// What the best order found costs.
        best: OrderCost,
    },
    /// The maker's own order is followed, and nobody has shown yet what it costs.
    OwnOrderUnproven,
    /// The maker's own order cannot be followed.
    OwnOrderNotUsed(OrderMisfit),
    /// A stretch of a run is out of reach in the order that is followed.
    OutOfReach {
        /// Whether it is the inside run.
        inside: bool,
        /// Length of what is out of reach.
        #[serde(rename = "length_m")]
        length: Length,
        /// From where to where it lies along the seam.
        #[serde(rename = "stretch_m")]
        stretch: [Length; 2],
        /// The fewest panels that are in the way; none where it is the seam's own two.
        in_the_way: Vec<PanelName>,
    },
    /// The very ends of runs are out of reach.
    EndsOutOfReach {
        /// Length of them together.
        #[serde(rename = "length_m")]
        length: Length,
    },
    /// Stretches are within reach of gun and hand, and hidden from the eye.
    OutOfSight {
        /// Length of them together.
        #[serde(rename = "length_m")]
        length: Length,
    },
    /// Stretches are laid with the round nozzle, since the shop's own does not get there.
    ByRoundNozzle {
        /// Length of them together.
        #[serde(rename = "length_m")]
        length: Length,
    },
    /// Gun, hand and arm do not get to most runs, whatever stands.
    KitDoesNotFit {
        /// Length of runs that they do not get to with nothing but their own two panels standing.
        #[serde(rename = "alone_m")]
        alone: Length,
        /// Length of all runs.
        #[serde(rename = "all_m")]
        all: Length,
    },
    /// What the shop welds with takes two hands.
    NeedsTwoHands,
    /// Seams have inside runs that lie behind the lid, within an arm's reach of a hatch.
    ThroughHatch,
    /// Seams whose inside lies behind the lid, out of reach: they are welded from outside alone.
    OutsideOnly(HatchReach),
    /// Seams of an inner panel with the lid that are reached on one of its faces alone.
    OneFaceOnly(HatchReach),
    /// Seams that lie behind the lid, out of reach, and have no outside: nothing can be laid.
    CannotBeLaid(HatchReach),
    /// A divider is joined by tongues in slots, with its foot open between them.
    NotTight,
    /// Length and mass of rod on hand do not go with its diameter.
    RodDisagrees,
    /// There is not enough rod on hand.
    RodShort,
}

/// What an order of setting the panels costs; the first in which two orders differ decides.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, JsonSchema)]
pub struct OrderCost {
    /// Length of runs that are never in reach, their very ends apart.
    #[serde(rename = "unreached_m")]
    pub unreached: Length,
    /// Length of runs that are never seen.
    #[serde(rename = "unseen_m")]
    pub unseen: Length,
    /// Panels that meet nothing when they are set.
    pub loose: u32,
    /// Panels that are held by one seam alone when they are set, and so not square.
    pub not_square: u32,
    /// Pairs of panels that custom sets the other way round.
    pub against_custom: u32,
}

/// Why an order of the panels cannot be followed.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum OrderMisfit {
    /// Panels are left out that are no ribs.
    LeavesOut(Vec<PanelName>),
    /// A lid is set before what it closes.
    LidTooEarly {
        /// The lid.
        lid: PanelName,
        /// What is set after it.
        before: Vec<PanelName>,
    },
}

/// Whether the inside of a seam behind the lid can be welded through a hatch.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum HatchReach {
    /// There is none.
    NoHatch,
    /// No hatch lets an arm with a gun through.
    TooSmall {
        /// What lets one through.
        #[serde(rename = "least_m")]
        least: Length,
    },
    /// Part of the seam is further from every hatch than an arm reaches.
    TooFar {
        /// The arm's reach.
        #[serde(rename = "reach_m")]
        reach: Length,
    },
    /// It lies within an arm's reach of a hatch.
    Near,
}

/// Why there is no section.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum NoSection {
    /// The sheets meet at too flat or too sharp an angle for the joint.
    Angle,
    /// A size is not a number above zero.
    Size,
}
