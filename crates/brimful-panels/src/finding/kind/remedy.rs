//! Findings of a stage: changes that would make it hold, and what a job leaves to be chosen.

use super::strength::NoScore;
use brimful_job::Axis;
use brimful_units::{Length, Mass, Time, Volume};

/// Changes that would make it hold.
#[derive(Clone, Debug, PartialEq)]
pub enum RemedyKind {
    /// Of the changes that were tried none by itself makes the tank hold.
    NoneHolds {
        /// How many were tried.
        tried: usize,
    },
    /// Changes make the tank hold.
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
#[derive(Clone, Debug, PartialEq)]
pub enum What {
    /// Thicker walls, floor and lid.
    OuterSheets(Length),
    /// Thicker baffles and dividers.
    InnerSheets(Length),
    /// Baffles, in place of those that stood across.
    Baffles {
        /// The axis they stand square to.
        across: Axis,
        /// Where, in the body's axes.
        at: Vec<Length>,
    },
    /// Bands round the walls.
    Bands {
        /// Whether the tank has ribs, which they replace.
        instead: bool,
        /// How far they stand out.
        depth: Length,
        /// Their heights.
        at: Vec<Length>,
    },
    /// Pairs of strips from wall to wall.
    Stays {
        /// How wide the strips are.
        width: Length,
        /// Their heights.
        at: Vec<Length>,
    },
    /// Rails in these places.
    Rails(Vec<Length>),
    /// A board under all of the floor.
    Board,
    /// Less liquid.
    LowerFill {
        /// Air over it.
        air_space: Length,
    },
    /// One and then the other.
    Both(Box<What>, Box<What>),
}

/// What a change adds to the tank and to the work; less than zero where it saves.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Adds {
    /// Weight of sheet.
    pub sheet: Mass,
    /// Length of rod, m of rod as laid.
    pub rod: Length,
    /// Work without sawing.
    pub hours: Time,
    /// What it holds below its air space.
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
#[derive(Clone, Debug, PartialEq)]
pub struct Variant {
    /// Thickness of the sheet; none: as the job has it.
    pub sheet: Option<Length>,
    /// Places of baffles; none: as the job has them.
    pub baffles: Option<Vec<Length>>,
}

/// What a trial of a variant came to.
#[derive(Clone, Debug, PartialEq)]
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
