//! The way in: whether a body gets through the opening and to its place, and how.
//!
//! First pushed straight through in any attitude (`straight`); where the opening has its place in
//! a side of the space, also slid to where it stands, free of everything on the way (`slide`).
//! What does not pass whole is parted into pieces that do (`part`), or trimmed (`trim`).

mod outline;
mod part;
mod slide;
mod straight;
mod trim;

pub use outline::outline;
pub use trim::trimmed;

use crate::job::{Side, WayIn};
use crate::space::Room;
use brimful_geom::frame::Frame;
use brimful_geom::solid::Solid;
use brimful_units::Length;

/// How a body gets in.
#[derive(Clone, Debug, PartialEq)]
pub enum Entry {
    /// No opening limits it.
    Free,
    /// Pushed straight through the opening.
    Straight {
        /// The body's axes seen from the opening: x along its width, y along its height, z the way
        /// it is pushed.
        attitude: Frame,
        /// What is left of the opening at its narrowest, its clearance taken off.
        margin: Length,
    },
    /// Pushed through the opening in its side of the space, then slid to its place.
    Slid {
        /// Where the body is, pose by pose, from outside to its place; each is the place that its
        /// own axes have in the space.
        poses: Vec<Frame>,
        /// As for a straight one.
        margin: Length,
    },
    /// In pieces, each of which passes straight and is a tank of its own.
    Pieces(Vec<Solid>),
    /// No way was found; that there is none is not proven.
    NotFound(String),
}

impl Entry {
    /// Whether it goes in whole.
    pub fn in_one(&self) -> bool {
        matches!(self, Self::Free | Self::Straight { .. } | Self::Slid { .. })
    }

    /// How much work the way in is, for ranking: more for each piece, most where there is none.
    pub fn effort(&self) -> usize {
        match self {
            Self::Free | Self::Straight { .. } | Self::Slid { .. } => 0,
            Self::Pieces(pieces) => pieces.len(),
            Self::NotFound(_) => 100,
        }
    }

    /// The way in, in words.
    pub fn words(&self) -> String {
        match self {
            Self::Free => "lifted in; no opening is stated".to_owned(),
            Self::Straight { attitude, .. } => format!("straight, {}", attitude_words(attitude)),
            Self::Slid { poses, .. } => format!("slid in, {} poses", poses.len()),
            Self::Pieces(pieces) => format!("in {} pieces, each a tank of its own", pieces.len()),
            Self::NotFound(why) => why.clone(),
        }
    }
}

/// How the body lies in the opening: which of its axes goes first, and which is up.
fn attitude_words(attitude: &Frame) -> String {
    let axis = |way: brimful_geom::vector::Vec3| {
        let parts = [("length", way.x), ("depth", way.y), ("height", way.z)];
        let most = parts
            .into_iter()
            .max_by(|a, b| a.1.abs().total_cmp(&b.1.abs()))
            .unwrap_or(parts[0]);
        // Within a degree of it.
        (most.1.abs() > 0.9998).then_some(most.0)
    };
    match (axis(attitude.z), axis(attitude.x), axis(attitude.y)) {
        (Some(first), Some(across), Some(up)) => {
            format!("along its {first}, its {across} across the opening and its {up} up")
        }
        _ => "tilted".to_owned(),
    }
}

/// How a body in its place in the room gets there.
pub fn entry(way_in: Option<&WayIn>, room: &Room, body: &Solid) -> Entry {
    let Some(way_in) = way_in else {
        return Entry::Free;
    };
    if let Some(entry) = whole(way_in, room, body) {
        return entry;
    }
    match part::parted(way_in, body) {
        Some(pieces) => Entry::Pieces(pieces),
        None => Entry::NotFound(
            "no way through the opening was found, whole or in up to four pieces".to_owned(),
        ),
    }
}

/// The way in of the whole body, if one is found.
fn whole(way_in: &WayIn, room: &Room, body: &Solid) -> Option<Entry> {
    match way_in.side {
        Some(side) => slide::slid(way_in, side, room, body),
        None => straight::straight(body, clear(way_in))
            .map(|(attitude, margin)| Entry::Straight { attitude, margin }),
    }
}

/// Width and height of the opening less the clearance kept in it, metres.
fn clear(way_in: &WayIn) -> [f64; 2] {
    way_in
        .size
        .map(|size| size.m() - 2.0 * way_in.clearance.m())
}

/// The way from outside into the space through a side.
fn inward(side: Side) -> brimful_geom::vector::Vec3 {
    use brimful_geom::vector::Vec3;
    match side {
        Side::Front => -Vec3::X,
        Side::Rear => Vec3::X,
        Side::Left => -Vec3::Y,
        Side::Right => Vec3::Y,
        Side::Above => -Vec3::Z,
        Side::Below => Vec3::Z,
    }
}
