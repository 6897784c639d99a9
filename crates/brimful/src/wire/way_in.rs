//! How a body or a tank gets in, as JSON.

use super::point::point;
use super::solid::{Solid, solid};
use brimful_geom::frame::Frame;
use brimful_panels::way_in;
use brimful_text::Words;
use schemars::JsonSchema;
use serde::Serialize;

/// How a body gets in.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct WayIn {
    /// `free`, `straight`, `pushed`, `turned`, `pieces` or `not found`.
    kind: &'static str,
    says: String,
    passage: Option<Passage>,
    /// In the order in which they go in.
    pieces: Vec<Piece>,
}

/// A way through the opening.
#[derive(Debug, Serialize, JsonSchema)]
struct Passage {
    /// The clear opening: its middle and axes, x along its width, y along its height, z the way in.
    opening: Pose,
    width_m: f64,
    height_m: f64,
    /// What is left of the opening at its narrowest; where the body turns, the least air all round.
    margin_m: f64,
    /// Motions of the body from where it stands: a point p of it comes to
    /// origin + x p.x + y p.y + z p.z. From before the opening to its place. For `straight` in the
    /// opening's own axes, and to behind it.
    poses: Vec<Pose>,
    /// Numbers of the poses between which it moves straight.
    stations: Vec<usize>,
}

/// A tank of its own.
#[derive(Debug, Serialize, JsonSchema)]
struct Piece {
    says: String,
    body: Solid,
    /// Null where no way to its place was found.
    passage: Option<Passage>,
    joints: Vec<Joint>,
    /// Its highest place.
    vent_at_m: [f64; 3],
    /// Its lowest place.
    drain_at_m: [f64; 3],
}

/// Hoses to another piece.
#[derive(Debug, Serialize, JsonSchema)]
struct Joint {
    /// Number of the other piece, from 0.
    to: usize,
    liquid_at_m: [f64; 3],
    air_at_m: [f64; 3],
}

/// Axes and their origin.
#[derive(Debug, Serialize, JsonSchema)]
struct Pose {
    origin_m: [f64; 3],
    x: [f64; 3],
    y: [f64; 3],
    z: [f64; 3],
}

/// How the tank gets in, with what on it.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct TankWayIn {
    #[serde(flatten)]
    way: WayIn,
    /// Fittings that are on it on its way.
    on: Vec<String>,
    /// Fittings that go on when it is in its place.
    after: Vec<String>,
    /// Fittings that were to be on it and must come off.
    must_come_off: Vec<String>,
    /// Fittings left out of it, since how far they stand out is not said.
    unstated: Vec<String>,
    /// The fittings of each piece, where it goes in in pieces.
    piece_fittings: Vec<PieceFittings>,
}

/// The fittings of a piece.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "PieceFittingsInWords")]
struct PieceFittings {
    fittings: Vec<String>,
    /// What it lacks to be a tank of its own.
    lacks: Vec<String>,
}

/// `free` where the job states no way in.
pub(super) fn of_tank(tank: Option<&way_in::TankEntry>, words: &Words<'_>) -> TankWayIn {
    let names =
        |of: fn(&way_in::TankEntry) -> &Vec<String>| tank.map_or(Vec::new(), |it| of(it).clone());
    TankWayIn {
        way: way_in(tank.map_or(&way_in::Entry::Free, |tank| &tank.entry), words),
        on: names(|tank| &tank.fittings.on),
        after: names(|tank| &tank.fittings.after),
        must_come_off: names(|tank| &tank.must_come_off),
        unstated: names(|tank| &tank.fittings.unstated),
        piece_fittings: tank
            .map_or(&[][..], |tank| &tank.pieces)
            .iter()
            .map(|piece| PieceFittings {
                fittings: piece.names.clone(),
                lacks: piece
                    .lacks
                    .iter()
                    .map(|need| words.piece_need(*need).into())
                    .collect(),
            })
            .collect(),
    }
}

pub(super) fn way_in(entry: &way_in::Entry, words: &Words<'_>) -> WayIn {
    use way_in::Entry;
    let (kind, pieces): (_, &[way_in::Piece]) = match entry {
        Entry::Free => ("free", &[]),
        Entry::Straight(_) => ("straight", &[]),
        Entry::Pushed(_) => ("pushed", &[]),
        Entry::Turned(_) => ("turned", &[]),
        Entry::Pieces(pieces) => ("pieces", pieces),
        Entry::NotFound(_) => ("not found", &[]),
    };
    WayIn {
        kind,
        says: words.way_in(&entry.summary()).into(),
        passage: entry.passage().map(passage),
        pieces: pieces.iter().map(|it| piece(it, words)).collect(),
    }
}

fn passage(passage: &way_in::Passage) -> Passage {
    Passage {
        opening: pose(&passage.opening.frame),
        width_m: passage.opening.width,
        height_m: passage.opening.height,
        margin_m: passage.margin.m(),
        poses: passage.poses.iter().map(pose).collect(),
        stations: passage.stations.clone(),
    }
}

fn piece(piece: &way_in::Piece, words: &Words<'_>) -> Piece {
    Piece {
        says: words.piece(piece).into(),
        vent_at_m: point(piece.vent_at),
        drain_at_m: point(piece.drain_at),
        body: solid(&piece.solid),
        passage: piece.passage.as_ref().map(passage),
        joints: piece
            .joints
            .iter()
            .map(|joint| Joint {
                to: joint.to,
                liquid_at_m: point(joint.liquid_at),
                air_at_m: point(joint.air_at),
            })
            .collect(),
    }
}

fn pose(frame: &Frame) -> Pose {
    Pose {
        origin_m: point(frame.origin),
        x: frame.x.to_array(),
        y: frame.y.to_array(),
        z: frame.z.to_array(),
    }
}
