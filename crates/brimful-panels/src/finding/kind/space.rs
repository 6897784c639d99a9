//! Findings of a stage: what was measured, and whether a body keeps to it.

use brimful_geom::vector::Point3;
use brimful_job::Twisted;
use brimful_units::{Length, Volume};
use schemars::JsonSchema;
use serde::Serialize;

/// What was measured, and whether a body keeps to it.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(tag = "kind", content = "data", rename_all = "snake_case")]
pub enum SpaceKind {
    /// No diagonal of the floor was measured, so it is taken to be square.
    TakenSquare,
    /// The floor is out of square.
    Racked {
        /// How far its rear left corner stands off square along x.
        #[serde(rename = "rear_m")]
        rear: Length,
        /// How far its front left corner does.
        #[serde(rename = "front_m")]
        front: Length,
    },
    /// A second diagonal of the floor was measured.
    SecondDiagonal {
        /// As it was measured.
        #[serde(rename = "measured_m")]
        measured: Length,
        /// As the other measures make it.
        #[serde(rename = "computed_m")]
        computed: Length,
        /// Whether they are too far apart for the reading of a tape.
        misfit: bool,
    },
    /// The top of a taped room is twisted.
    TwistedTop {
        /// How it is faced.
        faced: Twisted,
        /// How far the fourth corner is off the plane of the other three.
        #[serde(rename = "by_m")]
        by: Length,
        /// What is lost of the space under a ruled top.
        #[serde(rename = "lost_m3")]
        lost: Volume,
        /// What two triangles hold more than one flat.
        #[serde(rename = "between_m3")]
        between: Volume,
    },
    /// The tops of the corners lie in no one plane.
    UnevenTop {
        /// The most height that is lost above the flat below all of them.
        #[serde(rename = "by_m")]
        by: Length,
    },
    /// Sides between two stations are twisted.
    TwistedSides {
        /// Where the stations stand.
        #[serde(rename = "x_m")]
        x: [Length; 2],
        /// Each such side by the number of its corner in the section, from 1, and how far its fourth
        /// corner is off the plane of the other three.
        #[serde(rename = "sides_m")]
        sides: Vec<(usize, Length)>,
        /// What is lost of the ruled space with two triangles a side.
        #[serde(rename = "lost_m3")]
        lost: Volume,
        /// How the job wants them faced.
        wanted: Twisted,
        /// Whether one flat a side was found.
        flat: bool,
    },
    /// The space is made of flats that were found in a scan.
    ScanFlats {
        /// The file.
        file: String,
        /// How many flats.
        flats: usize,
        /// The share of the surface that lies on none.
        rough: f64,
    },
    /// The scanned surface has defects.
    ScanDefects {
        /// The file.
        file: String,
        /// What they are.
        defects: ScanDefects,
    },
    /// Of part of the space a scan does not say whether it is inside.
    ScanDoubtful {
        /// The file.
        file: String,
    },
    /// Points scatter more than the noise that is stated for the scan.
    ScanScatter {
        /// The file.
        file: String,
    },
    /// Obstacles cut the space into pieces; bodies are offered for each.
    CutUp {
        /// The pieces.
        pieces: Vec<SpacePiece>,
    },
    /// Part of the tank lies outside the space, or in an obstacle.
    OutOfSpace {
        /// What does.
        tank: TankPart,
        /// How far it reaches past a side of the space, where that can be told.
        #[serde(rename = "past_m")]
        past: Option<Length>,
    },
    /// The tank reaches into what is kept free.
    InKeptFree {
        /// What does.
        tank: TankPart,
        /// The name of the zone.
        zone: String,
    },
    /// The tank fits, but not with the room that is to be kept.
    TooLittleKept {
        /// What does.
        tank: TankPart,
    },
}

/// How many defects a scanned surface has of each kind.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, JsonSchema)]
pub struct ScanDefects {
    /// Holes.
    pub holes: usize,
    /// Triangles that faced the wrong way.
    pub flipped: usize,
    /// Edges of more than two triangles.
    pub non_manifold: usize,
    /// Loose pieces that were left out.
    pub loose: usize,
}

/// One of the pieces that obstacles cut a space into.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct SpacePiece {
    /// What it holds.
    #[serde(rename = "volume_m3")]
    pub volume: Volume,
    /// The least of its coordinates, metres.
    #[serde(rename = "low_m")]
    pub low: Point3,
    /// The greatest of its coordinates, metres.
    #[serde(rename = "high_m")]
    pub high: Point3,
}

/// What of a tank is put to the space.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum TankPart {
    /// Its body.
    Body,
    /// Its body with the ribs that stand out from it.
    BodyWithRibs,
}
