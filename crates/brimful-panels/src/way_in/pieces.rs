//! Parted into pieces that each get in, one after the other, as tanks of their own.

use super::entry::{Joint, Look, Passage, Piece, lost};
use super::opening;
use super::whole::{pushed, straight, turned};
use crate::space::Room;
use brimful_geom::basin;
use brimful_geom::boolean::{clip, difference};
use brimful_geom::frame::Plane;
use brimful_geom::passage::Opening;
use brimful_geom::passage::split::{Split, split};
use brimful_geom::solid::Solid;
use brimful_geom::vector::{Point3, Vec3};
use brimful_job::WayIn;
use rayon::prelude::*;
use std::cell::Cell;

/// More tanks than this are no answer to one hole.
const MOST_PIECES: usize = 4;
/// Partings of which the pieces are tried behind the opening.
const PARTINGS: usize = 6;
/// A corner this near to a cut is on it, metres: rounding of a boolean.
const ON_CUT: f64 = 1e-6;

/// The fewest pieces that pass the opening and find their places one after the other, one end first
/// or the other, without turning behind it, and of these the ones with the least to weld; where there
/// are none such, the fewest that pass the opening, turned where they must be, in the order in which
/// more of them find their place.
pub(super) fn parted(way_in: &WayIn, room: &Room, body: &Solid, look: Look) -> Option<Vec<Piece>> {
    let [width, height] = opening::clear(way_in);
    let wanted = match look {
        Look::Planned => PARTINGS,
        Look::Quick => 1,
    };
    let into = |count| split(body, width, height, count, wanted);
    let mut counts = (2..=MOST_PIECES)
        .map(into)
        .filter(|found| !found.is_empty());
    let fewest = counts.next()?;
    let way =
        |solid: &Solid, before: &[&Solid], find: Behind| passage(way_in, room, solid, before, find);
    if look == Look::Quick {
        return Some(one_by_one(room, &fewest[0], false, &|_, _, _| None));
    }
    // Most pieces that do not find their place do not even alone.
    let alone = |parting: &Split, number: usize, find: Behind| {
        way(&kept_apart(room, parting, number), &[], find)
    };
    let numbers = |parting: &Split| (0..parting.pieces.len()).into_par_iter();
    let pushed_in = |partings: &[Split]| {
        let orders: Vec<(&Split, bool)> = partings
            .iter()
            .filter(|parting| {
                numbers(parting).all(|number| alone(parting, number, pushed).is_some())
            })
            .flat_map(|parting| [(parting, false), (parting, true)])
            .collect();
        orders
            .into_par_iter()
            .find_map_first(|(parting, backwards)| {
                let stuck = Cell::new(false);
                let pieces = one_by_one(room, parting, backwards, &|_, solid, before| {
                    // Behind one that is stuck none needs to be looked at.
                    let found = (!stuck.get()).then(|| way(solid, before, pushed)).flatten();
                    stuck.set(found.is_none());
                    found
                });
                (lost(&pieces) == 0).then_some(pieces)
            })
    };
    if let Some(pieces) = pushed_in(&fewest) {
        return Some(pieces);
    }
    let each: Vec<Option<Passage>> = numbers(&fewest[0])
        .map(|number| alone(&fewest[0], number, either))
        .collect();
    let turned = |backwards: bool| {
        one_by_one(
            room,
            &fewest[0],
            backwards,
            &|number, solid, before| match before.is_empty() {
                true => each[number].clone(),
                false if each[number].is_none() => None,
                false => way(solid, before, either),
            },
        )
    };
    let (forwards, backwards) = rayon::join(|| turned(false), || turned(true));
    let turned_in = match lost(&backwards) < lost(&forwards) {
        true => backwards,
        false => forwards,
    };
    if lost(&turned_in) == 0 {
        return Some(turned_in);
    }
    let more = counts.find_map(|partings| pushed_in(&partings));
    Some(more.unwrap_or(turned_in))
}

/// The pieces in order, each with its way past those before it.
fn one_by_one(room: &Room, parting: &Split, backwards: bool, find: &Find<'_>) -> Vec<Piece> {
    let mut order: Vec<usize> = (0..parting.pieces.len()).collect();
    if backwards {
        order.reverse();
    }
    let mut pieces: Vec<Piece> = Vec::new();
    for &number in &order {
        let solid = kept_apart(room, parting, number);
        let before: Vec<&Solid> = pieces.iter().map(|piece| &piece.solid).collect();
        let passage = find(number, &solid, &before);
        pieces.push(Piece {
            vent_at: furthest(&solid, Vec3::Z),
            drain_at: furthest(&solid, -Vec3::Z),
            solid,
            passage,
            joints: Vec::new(),
        });
    }
    let half = room.clearance.m() / 2.0;
    let place = |number: usize| order.iter().position(|&it| it == number);
    for cut in &parting.cuts {
        if let [Some(a), Some(b)] = cut.pieces.map(place)
            && let Some([low, high]) = ends(&pieces[a].solid, &cut.plane.moved(-half))
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
    let sides = parting.cuts.iter().filter_map(|cut| match cut.pieces {
        [behind, _] if behind == number => Some(cut.plane.moved(-half)),
        [_, before] if before == number => Some(cut.plane.flipped().moved(-half)),
        _ => None,
    });
    sides.fold(parting.pieces[number].clone(), |solid, plane| {
        clip(&solid, &plane).unwrap_or(solid)
    })
}

/// The middle of what lies furthest along `way`, or a corner of it where the middle is not on the
/// solid.
fn furthest(solid: &Solid, way: Vec3) -> Point3 {
    let along = |p: &Point3| p.to_vec().dot(way);
    let most = solid
        .vertices
        .iter()
        .map(along)
        .fold(f64::NEG_INFINITY, f64::max);
    let corners = solid.vertices.iter().filter(|p| along(p) > most - ON_CUT);
    let corners: Vec<Point3> = corners.copied().collect();
    let sum = corners.iter().fold(Vec3::ZERO, |sum, p| sum + p.to_vec());
    let middle = Point3::ORIGIN + sum / corners.len().max(1) as f64;
    match corners.first() {
        Some(&corner) if basin::distance(solid, middle) > ON_CUT => corner,
        _ => middle,
    }
}

/// The lowest and the highest corner of a solid on a plane.
fn ends(solid: &Solid, plane: &Plane) -> Option<[Point3; 2]> {
    let on = |p: &&Point3| plane.distance(**p).abs() < ON_CUT;
    let corners = || solid.vertices.iter().filter(on).copied();
    let low = corners().min_by(|a, b| a.z.total_cmp(&b.z))?;
    let high = corners().max_by(|a, b| a.z.total_cmp(&b.z))?;
    Some([low, high])
}

/// How the way of a piece, by its number, past those before it is found.
type Find<'a> = dyn Fn(usize, &Solid, &[&Solid]) -> Option<Passage> + 'a;
/// How a way behind an opening is looked for.
type Behind = fn(&Solid, &Solid, &Opening) -> Option<Passage>;

fn either(solid: &Solid, around: &Solid, opening: &Opening) -> Option<Passage> {
    pushed(solid, around, opening).or_else(|| turned(solid, around, opening))
}

/// The way of a piece past those before it.
fn passage(
    way_in: &WayIn,
    room: &Room,
    solid: &Solid,
    before: &[&Solid],
    find: Behind,
) -> Option<Passage> {
    let Some(side) = way_in.side else {
        return straight(way_in, solid).passage().cloned();
    };
    let opening = opening::placed(way_in, side, room);
    let around = opening::way_room(&opening, room, solid)?;
    let around = match before.is_empty() {
        true => around,
        false => difference(&around, before).ok()?,
    };
    find(solid, &around, &opening)
}
