//! The way in of a body, in one or in pieces.

use super::entry::{Entry, Look};
use super::pieces::parted;
use super::whole::whole;
use crate::finding::kind::NoWay;
use crate::space::Room;
use brimful_geom::solid::Solid;
use brimful_job::WayIn;

/// How a body in its place in the room gets there.
pub fn entry(way_in: Option<&WayIn>, room: &Room, body: &Solid, look: Look) -> Entry {
    let Some(way_in) = way_in else {
        return Entry::Free;
    };
    let why = match whole(way_in, room, body, look) {
        Ok(entry) => return entry,
        Err(why) => why,
    };
    match parted(way_in, room, body, look) {
        Some(pieces) => Entry::Pieces(pieces),
        None => Entry::NotFound(NoWay {
            why,
            nor_in_pieces: true,
        }),
    }
}
