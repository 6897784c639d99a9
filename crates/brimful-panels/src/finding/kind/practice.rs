//! Findings of a stage: rules of practice.

use crate::name::{CompartmentId, PanelName};
use brimful_units::{Density, Length, Volume};
use schemars::JsonSchema;
use serde::Serialize;

/// Rules of practice.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(tag = "kind", content = "data", rename_all = "snake_case")]
pub enum PracticeKind {
    /// The tank does not stand on what the job says carries it.
    NotCarried(Bearing),
    /// No liquid for these tanks is as light or as heavy.
    NoSuchLiquid {
        /// Of the liquid.
        #[serde(rename = "density_kg_m3")]
        density: Density,
        /// The least of any.
        #[serde(rename = "least_kg_m3")]
        least: Density,
    },
    /// What a liquid does to the sheet, and to people, is not known.
    LiquidUnknown,
    /// A liquid for which the maker of the sheet has to answer, and has not.
    MakerHasToAnswer {
        /// Whether it oxidises; else it is an acid.
        oxidiser: bool,
    },
    /// The sheet is brittle so cold.
    Brittle {
        /// Whether the tank moves.
        moves: bool,
    },
    /// Whether the sheet is brittle so cold is not known, and the tank moves.
    NearlyBrittle,
    /// The job asks for less than the rule or the table does.
    BelowRule(Rule),
    /// Liquid gets round a divider.
    DividerLeaks,
    /// The panels that a room is said to lie between bound no room together, or several.
    NotOneRoom {
        /// Their names in the job.
        between: [String; 2],
        /// What the job says of the room.
        said: RoomSaid,
    },
    /// The job says two things of one room.
    RoomSaidTwice {
        /// The panels that the room is said to lie between, where that is said for the second time.
        between: [String; 2],
        /// What it says of the room first.
        first: RoomSaid,
    },
    /// A single wall parts drinking water from another liquid.
    DrinkingWaterBesideOther {
        /// The compartment of the drinking water.
        drinking: CompartmentId,
        /// That of the other liquid.
        other: CompartmentId,
    },
    /// Chocks stand against two opposite walls, and the tank grows between them.
    GrowsBetweenChocks {
        /// The walls.
        between: [PanelName; 2],
        /// How much it grows from the coldest to the warmest.
        #[serde(rename = "growth_m")]
        growth: Length,
    },
    /// No opening leads into a room, while others have some, and it is not said to stay dry.
    ClosedRoom,
    /// An opening to fill or draw leads into a room that is said to stay dry.
    DryIsFilled {
        /// The opening, by its name.
        opening: String,
    },
    /// A dry room has no opening: nothing lets out its air when it warms.
    DrySealed,
    /// A baffle without openings closes off part of a compartment.
    BayClosed,
    /// Loads on axles and coupling are not computed.
    AxlesNotComputed,
    /// The tank is not priced.
    NotPriced,
    /// Filled to the brim it weighs more than the vehicle may carry.
    BrimTooHeavy,
    /// Filled to its rated capacity it weighs more than the vehicle may carry.
    RatedTooHeavy {
        /// What may be filled.
        #[serde(rename = "fill_m3")]
        fill: Volume,
    },
    /// How a compartment is filled.
    Filling(FillingKind),
    /// The liquid may freeze.
    Freezes {
        /// Whether antifreeze is in it, how much of it the job does not say.
        guarded: bool,
    },
    /// The liquid may freeze, and ice takes up more than the air space.
    LittleRoomForIce,
    /// Little of the rated capacity is usable.
    LittleUsable,
    /// The tank moves and its job names no event.
    NoEvents,
    /// A long compartment has no baffle.
    LongWithoutBaffle,
    /// How far baffles calm the liquid is not computed.
    BafflesNotComputed,
    /// Four or more seams run together.
    SeamsCross {
        /// At so many corners of the body.
        corners: usize,
    },
    /// There is no hatch.
    NoHatch {
        /// Whether there are baffles, each bay of which wants a way in.
        baffles: bool,
    },
}

/// What a job says of a room.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum RoomSaid {
    /// That it stays dry.
    Dry,
    /// That it holds a liquid, or an amount, of its own.
    Compartment,
}

/// What a job may set lower than the rules.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Rule {
    /// The safety factor.
    SafetyFactor,
    /// How high liquid stands in the filler.
    FillingHead,
    /// The suction of a slow vent.
    Suction,
    /// How hard the road's events push, one way.
    Push(Push),
    /// How often they push so hard in a day, one way.
    PushesPerDay(Push),
    /// How long it serves.
    Years,
    /// The density of the liquid.
    Density {
        /// Of the job.
        #[serde(rename = "own_kg_m3")]
        own: Density,
        /// Of the table.
        #[serde(rename = "table_kg_m3")]
        table: Density,
    },
}

/// The way an event of the road pushes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Push {
    /// As in braking.
    Forward,
    /// As in setting back.
    Rear,
    /// As in a bend.
    Side,
    /// As off a bump.
    Up,
    /// As onto one.
    Down,
}

/// What lets liquid and air in and out of a compartment, and how high it is filled.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum FillingKind {
    /// The largest vent is smaller than the largest fill or draw opening.
    SmallVent,
    /// It is filled and has no overflow.
    NoOverflow,
    /// The overflow is smaller than the fill.
    SmallOverflow,
    /// The overflow keeps the liquid below the level that strength is checked for.
    KeptBelow {
        /// What is left empty below the lid.
        #[serde(rename = "air_m")]
        air: Length,
        /// The overflow, by its name.
        overflow: String,
    },
    /// It does where the tank is filled standing level, and not on a tilt.
    KeptBelowWhenLevel {
        /// What is left empty below the lid.
        #[serde(rename = "air_m")]
        air: Length,
        /// The overflow, by its name.
        overflow: String,
        /// What it lets in beyond that on a tilt.
        #[serde(rename = "more_m3")]
        more: Volume,
    },
    /// Nothing keeps the liquid below the level that strength is checked for.
    NotKeptBelow {
        /// What is left empty below the lid.
        #[serde(rename = "air_m")]
        air: Length,
    },
}

/// What carries a tank.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Bearing {
    /// One of the rails.
    Rail,
    /// One of the straps.
    Strap,
    /// One of the feet.
    Foot,
    /// The floor of the space.
    FloorOfSpace,
}
