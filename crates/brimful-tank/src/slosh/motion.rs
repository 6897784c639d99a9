//! What is known of a liquid in motion.

use brimful_panels::finding::Finding;
use brimful_panels::name::CompartmentId;
use brimful_panels::table::motion::{Direction, Motion};
use brimful_units::{Frequency, Length, Volume};
use schemars::JsonSchema;
use serde::Serialize;

/// What the liquid does in small waves.
#[derive(Clone, Debug, PartialEq)]
pub struct Slosh {
    /// Every room that holds liquid.
    pub rooms: Vec<RoomMotion>,
    /// The motions of its vehicle that it is held against; none for a tank that goes on no road.
    pub motions: Vec<Motion>,
    /// Where it swings as its vehicle moves.
    pub findings: Vec<Finding>,
}

/// What the liquid of one room does.
#[derive(Clone, Debug, PartialEq)]
pub struct RoomMotion {
    /// The room.
    pub compartment: CompartmentId,
    /// The cells are about so wide.
    pub spacing: Length,
    /// From a little in it to nearly full.
    pub fills: Vec<FillMotion>,
    /// At a few fills, without each of its baffles, and without any where it has several.
    pub without: Vec<Without>,
}

/// The same at a few fills without some baffles.
#[derive(Clone, Debug, PartialEq)]
pub struct Without {
    /// Numbers of the panels that are left out.
    pub baffles: Vec<usize>,
    /// At some of the fills of the room.
    pub fills: Vec<FillMotion>,
}

/// What the liquid does at one fill.
#[derive(Clone, Debug, PartialEq)]
pub struct FillMotion {
    /// How full the room is, as a share of what it holds brim-full.
    pub fill: f64,
    /// What is in it.
    pub volume: Volume,
    /// How deep, over the lowest place of the room.
    pub depth: Length,
    /// Along and across, or why that is not known.
    pub swings: Result<Swings, NotComputed>,
}

/// How the liquid of a room swings.
#[derive(Clone, Debug, PartialEq)]
pub struct Swings {
    /// How many bodies it is in: within one, liquid is joined below its surface.
    pub bodies: usize,
    /// Along, then across.
    pub directions: [Directed; 2],
}

/// How the liquid swings along a direction.
#[derive(Clone, Debug, PartialEq)]
pub struct Directed {
    /// Which direction.
    pub direction: Direction,
    /// The swings that move a twentieth of the liquid or more, from the slowest on.
    pub swings: Vec<Swing>,
    /// How much of the liquid moves with the tank as if frozen, as a share of it.
    pub frozen: f64,
}

/// One way in which the liquid swings.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Swing {
    /// How often.
    pub frequency: Frequency,
    /// How far that may be off, as a share of it; none where two grids tell nothing.
    pub error: Option<f64>,
    /// How much of the liquid takes part, as a share of it.
    pub moves: f64,
    /// How high over the lowest place of the room that mass pushes; it may be below it.
    pub height: Length,
}

/// Why it is not known how the liquid swings.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum NotComputed {
    /// There is no liquid to speak of.
    Nothing,
    /// It has no surface that could move: the room is full, or what stands in it lies on the surface.
    NoSurface,
    /// A baffle or a stay is square neither to x nor to y nor to z.
    Oblique,
    /// The numbers did not settle.
    NotSettled,
}

impl Directed {
    /// The swing that most of the liquid takes part in; of equals the slowest.
    pub fn main(&self) -> Option<&Swing> {
        let most = |a: &&Swing, b: &&Swing| a.moves.total_cmp(&b.moves);
        self.swings.iter().rev().max_by(most)
    }
}

impl FillMotion {
    /// How the liquid swings along a direction, where that is known.
    pub fn along(&self, direction: Direction) -> Option<&Directed> {
        let mut directions = self.swings.as_ref().ok()?.directions.iter();
        directions.find(|it| it.direction == direction)
    }
}
