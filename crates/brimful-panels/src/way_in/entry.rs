//! How a body gets in, as a value.

use crate::finding::kind::{Attitude, BodyAxis, EntrySummary, NoWay, PiecesSummary};
use brimful_geom::frame::Frame;
use brimful_geom::passage::{Opening, Way};
use brimful_geom::solid::Solid;
use brimful_geom::vector::{Point3, Vec3};
use brimful_units::Length;

/// How far a way in is looked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Look {
    /// Without turning behind the opening, and pieces only through it: to compare many spaces.
    Quick,
    /// To the place, by a planned slide and turn where it needs one.
    Planned,
}

/// How a body gets in.
#[derive(Clone, Debug, PartialEq)]
pub enum Entry {
    /// No opening limits it.
    Free,
    /// Pushed straight through an opening that lies somewhere before the space.
    Straight(Passage),
    /// Pushed through the opening in its side of the space and shifted to its place, without
    /// turning; proven all the way.
    Pushed(Passage),
    /// Slid and turned through the opening to its place; proven all the way.
    Turned(Passage),
    /// In pieces, each a tank of its own.
    Pieces(Vec<Piece>),
    /// No way was found.
    NotFound(NoWay),
}

/// A way through an opening.
#[derive(Clone, Debug, PartialEq)]
pub struct Passage {
    /// The clear opening, in the axes that the poses are given in: the space's, or for a straight
    /// passage the opening's own.
    pub opening: Opening,
    /// Motions of the body from where it stands in its space (`body.moved(&pose)`), from before the
    /// opening to its place, or for a straight passage to behind the opening.
    pub poses: Vec<Frame>,
    /// Numbers of the poses between which the motion is straight: those to draw.
    pub stations: Vec<usize>,
    /// What is left of the opening at its narrowest, its clearance taken off; for one that turns,
    /// the least air to all that stands round.
    pub margin: Length,
}

impl Entry {
    /// Whether it goes in whole.
    pub fn in_one(&self) -> bool {
        !matches!(self, Self::Pieces(_) | Self::NotFound(_))
    }

    /// Whether it is shown to get to its place, whole or piece by piece.
    pub fn is_shown(&self) -> bool {
        match self {
            Self::Pieces(pieces) => pieces.iter().all(|piece| piece.passage.is_some()),
            Self::NotFound(_) => false,
            _ => true,
        }
    }

    /// How much work the way in is, for ranking: more for each piece, most where there is none.
    pub fn effort(&self) -> usize {
        match self {
            Self::Pieces(pieces) => pieces.len(),
            Self::NotFound(_) => 100,
            _ => 0,
        }
    }

    /// The way through the opening of a body that goes in whole.
    pub fn passage(&self) -> Option<&Passage> {
        match self {
            Self::Straight(passage) | Self::Pushed(passage) | Self::Turned(passage) => {
                Some(passage)
            }
            Self::Free | Self::Pieces(_) | Self::NotFound(_) => None,
        }
    }

    /// How it gets in, without the way itself.
    pub fn summary(&self) -> EntrySummary {
        let moves = |passage: &Passage| passage.stations.len().saturating_sub(1);
        match self {
            Self::Free => EntrySummary::Free,
            Self::Straight(passage) => EntrySummary::Straight(attitude(&passage.poses[0])),
            Self::Pushed(passage) => EntrySummary::Pushed {
                moves: moves(passage),
            },
            Self::Turned(passage) => EntrySummary::Turned {
                moves: moves(passage),
            },
            Self::Pieces(pieces) => EntrySummary::Pieces(summary(pieces)),
            Self::NotFound(why) => EntrySummary::NotFound(why.clone()),
        }
    }
}

/// How the body lies in the opening: which of its axes goes first, and which is up.
fn attitude(place: &Frame) -> Attitude {
    // Within a degree of it.
    const ALONG: f64 = 0.9998;
    // The opening's axes seen from the body.
    let along = |pick: fn(Vec3) -> f64| {
        let parts = [
            (BodyAxis::Length, pick(place.x)),
            (BodyAxis::Depth, pick(place.y)),
            (BodyAxis::Height, pick(place.z)),
        ];
        let mut parts = parts.into_iter();
        parts.find_map(|(axis, along)| (along.abs() > ALONG).then_some(axis))
    };
    match (along(|v| v.z), along(|v| v.x), along(|v| v.y)) {
        (Some(first), Some(across), Some(up)) => Attitude::Square { first, across, up },
        _ => Attitude::Tilted,
    }
}

impl Passage {
    pub(super) fn of(way: Way, opening: &Opening) -> Self {
        Self {
            opening: *opening,
            poses: way.poses,
            stations: way.stations,
            margin: Length::from_m(way.air),
        }
    }
}

/// A piece of a body: a tank of its own.
#[derive(Clone, Debug, PartialEq)]
pub struct Piece {
    /// The piece, where it stands; it goes in after those before it.
    pub solid: Solid,
    /// Its way in past the pieces before it; none where no way to its place was found, though it
    /// passes the opening.
    pub passage: Option<Passage>,
    /// What joins it to the pieces next to it.
    pub joints: Vec<Joint>,
    /// Where its vent goes: its highest place, on a level tank.
    pub vent_at: Point3,
    /// Where its drain goes: its lowest.
    pub drain_at: Point3,
}

/// Where two pieces face each other, and what links them there.
#[derive(Clone, Debug, PartialEq)]
pub struct Joint {
    /// Number of the other piece.
    pub to: usize,
    /// Where the link for the liquid goes: the lowest place of the faces that meet, metres.
    pub liquid_at: Point3,
    /// Where the link for the air goes: the highest.
    pub air_at: Point3,
}

/// How pieces go in.
fn summary(pieces: &[Piece]) -> PiecesSummary {
    PiecesSummary {
        count: pieces.len(),
        lost: lost(pieces),
    }
}

/// How many found no way to their place.
pub(super) fn lost(pieces: &[Piece]) -> usize {
    let without = pieces.iter().filter(|piece| piece.passage.is_none());
    without.count()
}
