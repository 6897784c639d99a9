//! Findings of a stage: changes that would make it hold, and what a job leaves to be chosen.

use super::strength::NoScore;
use brimful_job::Axis;
use brimful_units::{Length, Mass, Time, Volume};
use schemars::JsonSchema;
use serde::Serialize;

/// Changes that would make it hold.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(tag = "kind", content = "data", rename_all = "snake_case")]
pub enum RemedyKind {
    /// A fitting stands where a change puts something.
    FittingInTheWay,
    /// Of the changes that were tried none makes the tank hold.
    NoneHolds {
        /// How many were tried.
        tried: usize,
    },
    /// A change makes the tank hold but breaks something else, and so do all others that do.
    HoldsButBreaks {
        /// How many were tried.
        tried: usize,
        /// The one that costs least.
        what: What,
        /// What it adds.
        adds: Option<Adds>,
    },
    /// Changes make the tank hold, and break nothing.
    Hold {
        /// How many were tried.
        tried: usize,
        /// Those that do and cost least, cheapest first, with what each adds.
        cheapest: Vec<(What, Option<Adds>)>,
    },
    /// What the job left to be chosen is chosen.
    AutoSelected {
        /// What was tried, cheapest first.
        tried: Vec<(Variant, AutoResult)>,
        /// The number of the one that is taken.
        taken: usize,
    },
}

/// What is changed in a job.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum What {
    /// Thicker walls, floor and lid.
    #[serde(rename = "outer_sheets_m")]
    OuterSheets(Length),
    /// Thicker baffles and dividers.
    #[serde(rename = "inner_sheets_m")]
    InnerSheets(Length),
    /// Baffles, in place of those that stood across.
    Baffles {
        /// The axis they stand square to.
        across: Axis,
        /// Where, in the body's axes.
        #[serde(rename = "at_m")]
        at: Vec<Length>,
    },
    /// These inner panels joined by tongues through slots in what they stand on, welded outside.
    SlotThrough {
        /// Their names in the job.
        names: Vec<String>,
    },
    /// Without these baffles.
    WithoutBaffles {
        /// Their names in the job.
        names: Vec<String>,
    },
    /// Bands round the walls.
    Bands {
        /// Whether the tank has ribs, which they replace.
        instead: bool,
        /// How far they stand out.
        #[serde(rename = "depth_m")]
        depth: Length,
        /// Their heights.
        #[serde(rename = "at_m")]
        at: Vec<Length>,
    },
    /// Pairs of strips from wall to wall.
    Stays {
        /// How wide the strips are.
        #[serde(rename = "width_m")]
        width: Length,
        /// Their heights.
        #[serde(rename = "at_m")]
        at: Vec<Length>,
    },
    /// Hatches through which the seams of the lid can be welded inside.
    Hatches {
        /// The lid, by its name.
        panel: String,
        /// How wide they are.
        #[serde(rename = "diameter_m")]
        diameter: Length,
        /// Their middles, from the lid's lower-left corner.
        #[serde(rename = "at_m")]
        at: Vec<[Length; 2]>,
        /// Hatches that they replace.
        instead: Vec<String>,
    },
    /// Rails in these places.
    #[serde(rename = "rails_m")]
    Rails(Vec<Length>),
    /// A board under all of the floor.
    Board,
    /// Welds laid with an extruder instead of hot gas.
    Extrusion,
    /// A body that keeps further off what is beside it.
    #[serde(rename = "clearance_m")]
    Clearance(Length),
    /// Less liquid.
    LowerFill {
        /// Air over it.
        #[serde(rename = "air_space_m")]
        air_space: Length,
    },
    /// One and then the other.
    Both(Box<What>, Box<What>),
}

/// What a change adds to the tank and to the work; less than zero where it saves.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Adds {
    /// Weight of sheet.
    #[serde(rename = "sheet_kg")]
    pub sheet: Mass,
    /// Length of rod, m of rod as laid.
    #[serde(rename = "rod_m")]
    pub rod: Length,
    /// Working time.
    #[serde(rename = "hours_s")]
    pub hours: Time,
    /// What it holds below its air space.
    #[serde(rename = "rated_m3")]
    pub rated: Volume,
    /// In the currency of the quote, where the job gives prices.
    pub money: Option<f64>,
}

impl Adds {
    /// For ranking: money, or where the job gives no prices kilograms and hours, an hour for two
    /// kilograms of sheet (a judgement, common practice).
    pub fn weight(&self) -> f64 {
        self.money
            .unwrap_or(self.sheet.kg() + 2.0 * self.hours.hours())
    }
}

/// A sheet and places of baffles, where they are free.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Variant {
    /// Thickness of the sheet; none: as the job has it.
    #[serde(rename = "sheet_m")]
    pub sheet: Option<Length>,
    /// Places of baffles; none: as the job has them.
    #[serde(rename = "baffles_m")]
    pub baffles: Option<Vec<Length>>,
}

/// What a trial of a variant came to.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum AutoResult {
    /// It holds.
    Holds,
    /// Something is over its limit.
    Over {
        /// Greatest use of a panel: stress over allowed.
        panel: f64,
        /// Greatest use of a seam.
        seam: f64,
    },
    /// At rest it has no answer.
    NoAnswer(NoScore),
    /// More than the mesh is sure of is asked, or a load case has no answer.
    Unsure,
}
