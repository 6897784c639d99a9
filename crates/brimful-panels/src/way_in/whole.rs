//! The way in of a body in one: pushed straight, pushed and shifted, or slid and turned.

use super::entry::{Entry, Look, Passage};
use super::opening;
use crate::finding::kind::NoWayWhole;
use crate::space::Room;
use brimful_geom::passage::Opening;
use brimful_geom::passage::push::push;
use brimful_geom::passage::slide::{Limits, slide};
use brimful_geom::passage::straight::{Straight, passing};
use brimful_geom::solid::Solid;
use brimful_job::WayIn;
use brimful_units::Length;

/// No corner moves further than this between two poses that are given, metres: what is drawn.
const STEP: f64 = 0.05;

/// Poses tried for a slide and turn: ways that there are were found within a few hundred.
const POSES: usize = 300;

/// Directions a body is looked along where the likely ones do not pass it: enough to prove for
/// nearly all bodies that none does.
const DIRECTIONS: usize = 3000;

/// The way in of the whole body.
pub(super) fn whole(
    way_in: &WayIn,
    room: &Room,
    body: &Solid,
    look: Look,
) -> Result<Entry, NoWayWhole> {
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
pub(super) fn unturned(way_in: &WayIn, room: &Room, body: &Solid) -> Option<Entry> {
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
pub(super) fn straight(way_in: &WayIn, body: &Solid) -> Entry {
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

pub(super) fn pushed(body: &Solid, around: &Solid, opening: &Opening) -> Option<Passage> {
    push(body, around, opening, STEP).map(|way| Passage::of(way, opening))
}

pub(super) fn turned(body: &Solid, around: &Solid, opening: &Opening) -> Option<Passage> {
    let limits = Limits {
        poses: POSES,
        step: STEP,
        ..Limits::default()
    };
    slide(body, around, opening, &limits)
        .ok()
        .map(|way| Passage::of(way, opening))
}
