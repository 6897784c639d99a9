//! The way in: whether a body gets through the opening and to its place, and how.
//!
//! The searching and proving is `geom::passage`'s. Where the job does not say in which side of the
//! space the opening is, a body that passes it straight in any attitude gets in. Where it does, the
//! body must come to its place: pushed and shifted without turning, proven leg by leg, or else by a
//! planned slide and turn. What does not get in whole is parted into pieces that do (`pieces`), or
//! trimmed (`trim`).

mod finding;
mod opening;
mod outline;
mod pieces;
mod tank;
mod trim;

pub use crate::finding::kind::{
    Attitude, BodyAxis, EntrySummary, FittingsOnWay, NoWay, NoWayWhole, PieceFittings, PieceNeed,
    PiecesSummary,
};
pub use outline::outline;
pub use pieces::{Joint, Piece};
pub use tank::{TankEntry, of_tank};
pub use trim::trimmed;

use crate::space::Room;
use brimful_geom::frame::Frame;
use brimful_geom::passage::push::push;
use brimful_geom::passage::slide::{Limits, slide};
use brimful_geom::passage::straight::{Straight, passing};
use brimful_geom::passage::{Opening, Way};
use brimful_geom::solid::Solid;
use brimful_geom::vector::Vec3;
use brimful_job::WayIn;
use brimful_units::Length;

/// No corner moves further than this between two poses that are given, metres: what is drawn.
const STEP: f64 = 0.05;
/// Poses tried for a slide and turn: ways that there are were found within a few hundred.
const POSES: usize = 300;
/// Directions a body is looked along where the likely ones do not pass it: enough to prove for
/// nearly all bodies that none does.
const DIRECTIONS: usize = 3000;

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
            Self::Pieces(pieces) => EntrySummary::Pieces(pieces::summary(pieces)),
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

/// How a body in its place in the room gets there.
pub fn entry(way_in: Option<&WayIn>, room: &Room, body: &Solid, look: Look) -> Entry {
    let Some(way_in) = way_in else {
        return Entry::Free;
    };
    let why = match whole(way_in, room, body, look) {
        Ok(entry) => return entry,
        Err(why) => why,
    };
    match pieces::parted(way_in, room, body, look) {
        Some(pieces) => Entry::Pieces(pieces),
        None => Entry::NotFound(NoWay {
            why,
            nor_in_pieces: true,
        }),
    }
}

/// The way in of the whole body.
fn whole(way_in: &WayIn, room: &Room, body: &Solid, look: Look) -> Result<Entry, NoWayWhole> {
    if let Some(entry) = unturned(way_in, room, body) {
        return Ok(entry);
    }
    let [width, height] = opening::clear(way_in);
    let found = passing(body, width, height, DIRECTIONS);
    let Some(side) = way_in.side else {
        return match found.passes() {
            true => Ok(straight(way_in, body)),
            false => Err(no_attitude(&found)),
        };
    };
    if !found.passes() {
        return Err(no_attitude(&found));
    }
    let opening = opening::placed(way_in, side, room);
    let turned = opening::way_room(&opening, room, body)
        .filter(|_| look == Look::Planned)
        .and_then(|around| turned(body, &around, &opening));
    turned.map(Entry::Turned).ok_or(NoWayWhole::NotBehind)
}

fn no_attitude(found: &Straight) -> NoWayWhole {
    let proven = found.is_impossible();
    NoWayWhole::NoAttitude { proven }
}

/// The way in of the whole body by the quick looks that need no turning behind the opening.
fn unturned(way_in: &WayIn, room: &Room, body: &Solid) -> Option<Entry> {
    match way_in.side {
        Some(side) => {
            let opening = opening::placed(way_in, side, room);
            let around = opening::way_room(&opening, room, body)?;
            pushed(body, &around, &opening).map(Entry::Pushed)
        }
        None => {
            let [width, height] = opening::clear(way_in);
            passing(body, width, height, 0)
                .passes()
                .then(|| straight(way_in, body))
        }
    }
}

/// Straight through an opening by itself: before it and behind it.
fn straight(way_in: &WayIn, body: &Solid) -> Entry {
    let opening = opening::alone(way_in);
    let found = passing(body, opening.width, opening.height, DIRECTIONS);
    let (_, high) = body.moved(&found.place).bounds();
    let mut before = found.place;
    before.origin.z -= high.z;
    Entry::Straight(Passage {
        opening,
        poses: vec![before, found.place],
        stations: vec![0, 1],
        margin: Length::from_m(found.margin.max(0.0)),
    })
}

fn pushed(body: &Solid, around: &Solid, opening: &Opening) -> Option<Passage> {
    push(body, around, opening, STEP).map(|way| Passage::of(way, opening))
}

fn turned(body: &Solid, around: &Solid, opening: &Opening) -> Option<Passage> {
    let limits = Limits {
        poses: POSES,
        step: STEP,
        ..Limits::default()
    };
    slide(body, around, opening, &limits)
        .ok()
        .map(|way| Passage::of(way, opening))
}

impl Passage {
    fn of(way: Way, opening: &Opening) -> Self {
        Self {
            opening: *opening,
            poses: way.poses,
            stations: way.stations,
            margin: Length::from_m(way.air),
        }
    }
}
