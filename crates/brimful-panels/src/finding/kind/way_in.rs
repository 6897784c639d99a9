//! Findings of a stage: how it gets to its place.

use brimful_geom::boolean::BooleanFault;
use schemars::JsonSchema;
use serde::Serialize;

/// How it gets to its place.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(tag = "kind", content = "data", rename_all = "snake_case")]
pub enum WayInKind {
    /// It goes in.
    GoesIn {
        /// How.
        entry: EntrySummary,
        /// What is on it on its way.
        fittings: FittingsOnWay,
    },
    /// It goes in, but only without fittings that are to be on it.
    FittingsMustComeOff {
        /// How.
        entry: EntrySummary,
        /// Their names in the job.
        fittings: Vec<String>,
    },
    /// It is not shown to go in whole, and could be made in pieces.
    InPieces {
        /// How many of how many are not shown to get to their places.
        pieces: PiecesSummary,
        /// The fittings of each.
        fittings: Vec<PieceFittings>,
    },
    /// It is not shown to get in.
    NotFound(NoWay),
}

/// How a body gets in, without the way itself.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum EntrySummary {
    /// No opening limits it.
    Free,
    /// Straight through an opening somewhere before the space.
    Straight(Attitude),
    /// Pushed to its place without turning.
    Pushed {
        /// In so many straight moves.
        moves: usize,
    },
    /// Slid and turned to its place.
    Turned {
        /// In so many moves.
        moves: usize,
    },
    /// In pieces.
    Pieces(PiecesSummary),
    /// No way was found.
    NotFound(NoWay),
}

/// How a body in pieces gets in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct PiecesSummary {
    /// How many there are.
    pub count: usize,
    /// Of how many no way behind the opening was found.
    pub lost: usize,
}

/// How a body lies in an opening.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Attitude {
    /// Along its own axes.
    Square {
        /// The one that goes first.
        first: BodyAxis,
        /// The one across the opening.
        across: BodyAxis,
        /// The one that stands up in it.
        up: BodyAxis,
    },
    /// Tilted.
    Tilted,
}

/// An axis of a body.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum BodyAxis {
    /// Along x.
    Length,
    /// Along y.
    Depth,
    /// Along z.
    Height,
}

/// Why no way in was found.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct NoWay {
    /// Why not whole.
    pub why: NoWayWhole,
    /// Whether pieces were looked for too.
    pub nor_in_pieces: bool,
}

/// Why no way in was found of a whole body.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum NoWayWhole {
    /// Body, ribs and fittings cannot be put together.
    NotCombined(BooleanFault),
    /// In no attitude it passes the opening straight.
    NoAttitude {
        /// Whether that is proven; else none was found.
        proven: bool,
    },
    /// It passes the opening, but no way to its place was found.
    NotBehind,
}

/// The fittings of a tank on its way, by their names in the job.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, JsonSchema)]
pub struct FittingsOnWay {
    /// On it.
    pub on: Vec<String>,
    /// That go on when it is in its place.
    pub after: Vec<String>,
    /// That are to be on it, but nobody has said how far they stand out.
    pub unstated: Vec<String>,
}

/// The fittings of a piece.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct PieceFittings {
    /// Those of the tank's that are in it, by their names in the job.
    pub names: Vec<String>,
    /// What it lacks to be a tank of its own.
    pub lacks: Vec<PieceNeed>,
}

/// What every piece needs to be a tank of its own.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum PieceNeed {
    /// A vent.
    Vent,
    /// A drain.
    Drain,
    /// A way in for a hand.
    Hatch,
}
