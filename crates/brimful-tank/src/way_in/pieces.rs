//! Parted into pieces that each get in, one after the other, as tanks of their own.

use super::{Look, Passage, opening, pushed, straight, turned};
use crate::job::WayIn;
use crate::space::Room;
use brimful_geom::boolean::{clip, difference};
use brimful_geom::frame::Plane;
use brimful_geom::passage::split::{Split, split};
use brimful_geom::solid::Solid;
use brimful_geom::vector::Point3;

/// More tanks than this are no answer to one hole.
const MOST_PIECES: usize = 4;
/// A corner this near to a cut is on it, metres: rounding of a boolean.
const ON_CUT: f64 = 1e-6;

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

/// How it goes in, in words.
pub(super) fn words(pieces: &[Piece]) -> String {
    let ways = match lost(pieces) {
        0 => "the way of each to its place is shown".to_owned(),
        lost => format!("each passes the opening, but for {lost} no way behind it was found"),
    };
    format!("in {} pieces, each a tank of its own; {ways}", pieces.len())
}

/// The fewest pieces that pass the opening, of these the ones with the least to weld; in the order,
/// one end first or the other, in which more of them find their place.
pub(super) fn parted(way_in: &WayIn, room: &Room, body: &Solid, look: Look) -> Option<Vec<Piece>> {
    let [width, height] = opening::clear(way_in);
    let parting = split(body, width, height, MOST_PIECES, 1).pop()?;
    let forwards = one_by_one(way_in, room, &parting, false, look);
    if look == Look::Quick || lost(&forwards) == 0 {
        return Some(forwards);
    }
    let backwards = one_by_one(way_in, room, &parting, true, look);
    Some(match lost(&backwards) < lost(&forwards) {
        true => backwards,
        false => forwards,
    })
}

/// How many found no way to their place.
fn lost(pieces: &[Piece]) -> usize {
    let without = pieces.iter().filter(|piece| piece.passage.is_none());
    without.count()
}

/// The pieces in order, each with its way past those before it.
fn one_by_one(
    way_in: &WayIn,
    room: &Room,
    parting: &Split,
    backwards: bool,
    look: Look,
) -> Vec<Piece> {
    let mut order: Vec<usize> = (0..parting.pieces.len()).collect();
    if backwards {
        order.reverse();
    }
    let mut pieces: Vec<Piece> = Vec::new();
    for &number in &order {
        let solid = kept_apart(room, parting, number);
        let before: Vec<&Solid> = pieces.iter().map(|piece| &piece.solid).collect();
        let passage = match look {
            Look::Planned => passage(way_in, room, &solid, &before),
            Look::Quick => None,
        };
        pieces.push(Piece {
            solid,
            passage,
            joints: Vec::new(),
        });
    }
    let half = room.clearance.m() / 2.0;
    for (cut, plane) in parting.cuts.iter().enumerate() {
        let place = |number: usize| order.iter().position(|&it| it == number);
        if let (Some(a), Some(b)) = (place(cut), place(cut + 1))
            && let Some([low, high]) = ends(&pieces[a].solid, &plane.moved(-half))
        {
            for (from, to) in [(a, b), (b, a)] {
                pieces[from].joints.push(Joint {
                    to,
                    liquid_at: low,
                    air_at: high,
                });
            }
        }
    }
    pieces
}

/// A piece less half of the clearance at each cut.
fn kept_apart(room: &Room, parting: &Split, number: usize) -> Solid {
    let half = room.clearance.m() / 2.0;
    let ahead = parting.cuts.get(number).map(|cut| cut.moved(-half));
    let behind = number.checked_sub(1).and_then(|it| parting.cuts.get(it));
    let behind = behind.map(|cut| cut.flipped().moved(-half));
    let planes = ahead.into_iter().chain(behind);
    planes.fold(parting.pieces[number].clone(), |solid, plane| {
        clip(&solid, &plane).unwrap_or(solid)
    })
}

/// The lowest and the highest corner of a solid on a plane.
fn ends(solid: &Solid, plane: &Plane) -> Option<[Point3; 2]> {
    let on = |p: &&Point3| plane.distance(**p).abs() < ON_CUT;
    let corners = || solid.vertices.iter().filter(on).copied();
    let low = corners().min_by(|a, b| a.z.total_cmp(&b.z))?;
    let high = corners().max_by(|a, b| a.z.total_cmp(&b.z))?;
    Some([low, high])
}

fn passage(way_in: &WayIn, room: &Room, solid: &Solid, before: &[&Solid]) -> Option<Passage> {
    let Some(side) = way_in.side else {
        return straight(way_in, solid).passage().cloned();
    };
    let opening = opening::placed(way_in, side, room);
    let around = opening::way_room(&opening, room, solid)?;
    let around = match before.is_empty() {
        true => around,
        false => difference(&around, before).ok()?,
    };
    pushed(solid, &around, &opening).or_else(|| turned(solid, &around, &opening))
}
