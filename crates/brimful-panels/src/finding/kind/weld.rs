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
    /// An extruder does not get there, and the sheet is thicker than hot gas is known to weld.
    TooThickByHand {
        /// Whether it lays all of a run, or the short ones through corners alone.
        all_of_it: bool,
    },
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
    /// Four runs or more would meet at one place.
    RunsCross {
        /// How many such places there are.
        places: usize,
        /// The most runs at one of them.
        most: usize,
    },
    /// What the shop welds with takes two hands.
    NeedsTwoHands,
    /// Seams have inside runs that are laid once everything stands, through a hatch.
    ThroughHatch,
    /// Seams that are welded from outside alone, their inside being out of reach.
    OutsideOnly(NotReached),
    /// Seams that are welded from outside through the whole sheet, and from inside where that is in reach.
    InsideInPart(NotReached),
    /// Seams that are welded from inside alone, their outside being out of reach past what stands.
    InsideOnly,
    /// Seams of an inner panel or a rib that are reached on one of its faces alone.
    OneFaceOnly(NotReached),
    /// Seams of which no side that could be welded is in reach.
    CannotBeLaid(NotReached),
    /// Seams of which a stretch is laid by hot gas, since the shop's extruder does not get there.
    ByHotGas,
    /// A divider is joined by tongues in slots, with its foot open between them.
    NotTight,
    /// Length and mass of rod on hand do not go with its diameter.
    RodDisagrees,
    /// There is not enough rod on hand.
    RodShort {
        /// What is short.
        #[serde(rename = "short_m")]
        short: Length,
        /// Coils to buy; none where the job does not say what one weighs.
        coils: Option<usize>,
    },
    /// No rod on hand is of the plastic of the sheet.
    UnlikeRod {
        /// The plastic of the rod, as the job has it.
        rod: String,
        /// That of the sheet.
        sheet: String,
    },
    /// A fitting of another plastic is to be welded in.
    UnlikeFitting {
        /// The plastic of the fitting, as the job has it.
        fitting: String,
        /// That of the sheet.
        sheet: String,
    },
    /// No nozzle takes any of the rods on hand.
    RodFitsNoNozzle {
        /// The first of them.
        #[serde(rename = "rod_m")]
        rod: Length,
        /// What the nozzles take.
        #[serde(rename = "nozzles_m")]
        nozzles: Vec<Length>,
        /// Whether they are those that the shop has named, and not the usual ones.
        is_own: bool,
    },
    /// The extruder takes none of the rods on hand.
    RodFitsNoExtruder {
        /// The first of them.
        #[serde(rename = "rod_m")]
        rod: Length,
        /// The thinnest and the thickest that it takes.
        #[serde(rename = "takes_m")]
        takes: [Length; 2],
    },
    /// Two rods on hand are sold as one size.
    OneNominalSize {
        /// As the job has it.
        #[serde(rename = "sizes_m")]
        sizes: [Length; 2],
    },
    /// Sheet that is seldom welded by an extruder.
    UnusualForExtruder,
    /// Welds take more runs than any published lay-up has.
    ManyRuns {
        /// Of one weld, at most.
        runs: usize,
    },
}

/// What an order of setting the panels costs.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, JsonSchema)]
pub struct OrderCost {
    /// Length of runs that are never in reach, their very ends and the lid's own apart.
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
    /// Inner panels are set once all about them stands.
    ShutsOut(Vec<PanelName>),
}

/// Why a side of a seam is not reached when it is to be welded.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum NotReached {
    /// Everything stands, and there is no hatch.
    NoHatch,
    /// Everything stands, and hand and gun do not get to all of it through the hatches.
    ThroughHatches,
    /// What stands is in the way of gun, hand or arm.
    PastWhatStands,
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
