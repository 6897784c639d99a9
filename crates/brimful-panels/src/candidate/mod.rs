//! Candidates: bodies that lie wholly in the allowed room, from every facet of it down to a plain
//! box, each with a name that stays the same while the space does.
//!
//! From the room with every facet a bounded beam search takes things away: the far side of a face
//! at an inside corner, the whole reach of an obstacle along an axis, the slope of a leaning side.
//! Every step is a boolean of the body before, so nothing ever leaves the room. Of each count of
//! faces the largest few are kept. Each is kept as far off as it grows by warmth (`warm`). What does
//! not pass the way in is trimmed until it does, and
//! stands beside the whole one, which must then be made in pieces.

mod body;
mod boxes;
mod given_up;
mod moves;
mod names;
mod warm;

use crate::finding::kind::{NoRoomToGrow, Unsearched};
use crate::growth::Growth;
use crate::name::{CandidateName, CandidateShape};
use crate::progress::Progress;
use crate::space::{NO_VOLUME, Room};
use crate::way_in::{Entry, Look, entry, trimmed};
pub use body::Candidate;
use brimful_geom::boolean::pieces;
use brimful_geom::solid::Solid;
use brimful_job::{Space, WayIn};
pub use given_up::GivenUp;
use moves::{Cut, Shadows, steps};
use rayon::prelude::*;
pub use warm::with_room_to_grow;

/// What was looked at.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Looked {
    /// All candidates, largest first.
    pub candidates: Vec<Candidate>,
    /// Names of bodies that bear when warm and could not be made smaller, and why.
    pub left_out: Vec<(CandidateName, NoRoomToGrow)>,
    /// What could not be looked for, and why.
    pub unsearched: Vec<Unsearched>,
}

/// Bodies of each generation that are taken further: enough that a good one is not lost behind
/// several that lose least at once.
const BEAM: usize = 6;
/// Things taken away one after the other; a space with more corners than that is offered with
/// every facet and as boxes.
const DEEPEST: usize = 4;
/// Of each count of faces so many are laid out.
const A_COUNT: usize = 2;
/// Less of the largest than this is no tank for the space.
const LEAST_SHARE: f64 = 0.4;

/// What a trim leaves is no tank for the space where it is less than this of what there is.
const LEAST_TRIMMED: f64 = 0.05;

/// A body on the way, with what was taken away.
#[derive(Clone)]
struct Way {
    solid: Solid,
    volume: f64,
    taken: Vec<GivenUp>,
}

/// All candidates of a room; what there is so far, once nobody waits for them any more.
pub fn candidates(space: &Space, room: &Room, growth: &Growth, progress: &dyn Progress) -> Looked {
    let parts = pieces(&room.allowed).unwrap_or_default();
    let several = parts.len() > 1;
    let within = Within {
        space,
        room,
        growth,
        progress,
    };
    let mut looked = Looked::default();
    for (number, part) in parts.iter().enumerate() {
        let space_piece = several.then_some(number + 1);
        of_piece(within, part, space_piece, &mut looked);
    }
    names::make_unique(&mut looked.candidates);
    looked
        .unsearched
        .sort_by_key(|unsearched| unsearched.largest);
    looked.unsearched.dedup();
    looked
}

/// The largest body that gets in, by the cheapest look: every facet, trimmed where it must be to go
/// in whole, or else as the pieces that it goes in as.
pub fn largest(space: &Space, room: &Room, growth: &Growth, in_one: bool) -> Option<Candidate> {
    let parts = pieces(&room.allowed).ok()?;
    let part = parts
        .into_iter()
        .max_by(|a, b| a.moments().volume.total_cmp(&b.moments().volume))?;
    let (part, _) = with_room_to_grow(space, room, growth, &part).ok()?;
    let way_in = space.way_in.as_ref();
    let (solid, entry) = match in_one {
        true => let_in(room, way_in, &part),
        false => {
            let entry = entry(way_in, room, &part, Look::Quick);
            (part, entry)
        }
    };
    Some(Candidate {
        name: CandidateName::of(CandidateShape::EveryFacet),
        solid,
        given_up: Vec::new(),
        entry,
    })
}

/// A solid that gets in whole, trimmed where it must be.
fn let_in(room: &Room, way_in: Option<&WayIn>, solid: &Solid) -> (Solid, Entry) {
    let whole = entry(way_in, room, solid, Look::Quick);
    match (way_in, whole.in_one()) {
        (Some(way_in), false) => match trimmed(way_in, room, solid) {
            Some((smaller, entry)) => (smaller, entry),
            None => (solid.clone(), whole),
        },
        _ => (solid.clone(), whole),
    }
}

/// What bodies are looked for in, and for whom.
#[derive(Clone, Copy)]
struct Within<'a> {
    space: &'a Space,
    room: &'a Room,
    growth: &'a Growth,
    progress: &'a dyn Progress,
}

fn of_piece(within: Within<'_>, part: &Solid, space_piece: Option<usize>, looked: &mut Looked) {
    let (room, way_in) = (within.room, within.space.way_in.as_ref());
    let named = |shape| CandidateName {
        space_piece,
        ..CandidateName::of(shape)
    };
    let every = Way::new(part.clone(), Vec::new());
    let mut start = every.clone();
    let mut all: Vec<Candidate> = Vec::new();
    let name = named(CandidateShape::EveryFacet);
    let grown = within.grown(part);
    let whole = entry(
        way_in,
        room,
        grown.as_ref().map_or(part, |(largest, _)| largest),
        Look::Planned,
    );
    if !whole.in_one() {
        let smaller = way_in.and_then(|way_in| trimmed(way_in, room, part));
        let smaller = smaller
            .map(|(solid, _)| Way::new(solid, vec![GivenUp::ToPassWayIn]))
            .filter(|way| way.volume >= LEAST_TRIMMED * every.volume);
        start = smaller.unwrap_or(start);
    }
    match grown {
        Err(why) => looked.left_out.push((name, why)),
        Ok((solid, taken)) => all.push(match whole.in_one() {
            true => Candidate {
                name,
                solid,
                given_up: taken,
                entry: whole,
            },
            // It stays on offer, to be made in pieces.
            false => Candidate {
                name: CandidateName {
                    in_pieces: true,
                    ..name
                },
                solid,
                given_up: vec![GivenUp::PassingWhole],
                entry: whole,
            },
        }),
    }
    let untouched = start.taken.len();
    let ways = search(within, start, &every, &mut looked.unsearched);
    let grown: Vec<_> = ways
        .par_iter()
        .map(|way| within.grown(&way.solid))
        .collect();
    let mut more: Vec<Body> = Vec::new();
    for (way, grown) in ways.into_iter().zip(grown) {
        let known = |solid: &Solid| {
            let bodies = all.iter().map(|other| &other.solid);
            bodies
                .chain(more.iter().map(|other| &other.solid))
                .any(|other| other == solid)
        };
        let name = named(names::shape_of(&way.solid, way.taken.len() == untouched));
        match grown {
            Err(why) if !looked.left_out.iter().any(|(other, _)| *other == name) => {
                looked.left_out.push((name, why));
            }
            Err(_) => {}
            Ok((solid, _)) if known(&solid) => {}
            Ok((solid, taken)) => more.push(Body {
                name,
                given_up: [way.taken, taken].concat(),
                solid,
            }),
        }
    }
    looked.candidates.extend(all);
    looked.candidates.extend(with_entries(within, more));
}

/// A candidate whose way in is not known yet.
struct Body {
    name: CandidateName,
    given_up: Vec<GivenUp>,
    solid: Solid,
}

/// Bodies with their ways in, found side by side; what there is so far, once nobody waits for them any
/// more.
fn with_entries(within: Within<'_>, bodies: Vec<Body>) -> Vec<Candidate> {
    let way_in = within.space.way_in.as_ref();
    let all: Vec<Option<Candidate>> = bodies
        .into_par_iter()
        .map(|body| {
            (!within.progress.is_cancelled()).then(|| Candidate {
                entry: entry(way_in, within.room, &body.solid, Look::Planned),
                name: body.name,
                given_up: body.given_up,
                solid: body.solid,
            })
        })
        .collect();
    all.into_iter().flatten().collect()
}

impl Within<'_> {
    /// A body with room to grow, and what was taken of it for that.
    ///
    /// # Errors
    /// Why it cannot be offered.
    fn grown(self, body: &Solid) -> Result<(Solid, Vec<GivenUp>), NoRoomToGrow> {
        let (solid, smaller) = with_room_to_grow(self.space, self.room, self.growth, body)?;
        let taken = smaller.then_some(GivenUp::RoomToGrow);
        Ok((solid, taken.into_iter().collect()))
    }
}

impl Way {
    fn new(solid: Solid, taken: Vec<GivenUp>) -> Self {
        Self {
            volume: solid.moments().volume,
            solid,
            taken,
        }
    }
}

/// The beam search: the largest few of each count of faces, largest first; what could not be looked
/// for is noted.
fn search(
    within: Within<'_>,
    start: Way,
    every: &Way,
    unsearched: &mut Vec<Unsearched>,
) -> Vec<Way> {
    let least = LEAST_SHARE * every.volume;
    let mut found = vec![start.clone()];
    let (boxes, failed) = boxes::largest_boxes(&start.solid);
    unsearched.extend(failed);
    found.extend(
        boxes
            .into_iter()
            .map(|(solid, how)| Way::new(solid, [start.taken.clone(), vec![how]].concat())),
    );
    let mut front = vec![start];
    let mut shadows = Shadows::default();
    for _ in 0..DEEPEST {
        let mut next: Vec<Way> = Vec::new();
        if within.progress.is_cancelled() {
            break;
        }
        for way in one_step_on(within.room, &front, &mut shadows, least) {
            if way.volume > least && !next.iter().chain(&found).any(|other| alike(other, &way)) {
                next.push(way);
            }
        }
        next.sort_by(by_volume);
        found.extend(next.iter().cloned());
        front = best_of_counts(&next, 1);
        front.truncate(BEAM);
    }
    found.sort_by(by_volume);
    best_of_counts(&found, A_COUNT)
}

/// Every way taken one step on, in order, however many threads work on it.
fn one_step_on(room: &Room, front: &[Way], shadows: &mut Shadows, least: f64) -> Vec<Way> {
    let mut all = Vec::new();
    for way in front {
        all.extend(
            steps(room, &way.solid, shadows)
                .into_iter()
                .map(|step| (way, step)),
        );
    }
    let taken = |(way, (cut, how)): (&Way, (Cut, GivenUp))| {
        let rest = cut.rest(&way.solid, least)?;
        Some(Way::new(rest, [way.taken.clone(), vec![how]].concat()))
    };
    all.into_par_iter().filter_map(taken).collect()
}

/// Of each count of faces the first few.
fn best_of_counts(ways: &[Way], of_each: usize) -> Vec<Way> {
    let mut kept: Vec<Way> = Vec::new();
    for way in ways {
        let count = way.solid.faces.len();
        let same = kept.iter().filter(|other| other.solid.faces.len() == count);
        if same.count() < of_each {
            kept.push(way.clone());
        }
    }
    kept
}

/// Largest first; among equals the one with fewer faces, then the lower one.
fn by_volume(a: &Way, b: &Way) -> std::cmp::Ordering {
    let faces = |way: &Way| way.solid.faces.len();
    let rounded = |way: &Way| (way.volume / SAME).round();
    rounded(b)
        .total_cmp(&rounded(a))
        .then(faces(a).cmp(&faces(b)))
        .then(a.taken.len().cmp(&b.taken.len()))
}

/// Volumes that differ by less are the same, m3: a cube of a millimetre.
const SAME: f64 = 1e-9;

/// Whether two ways led to the same body.
fn alike(a: &Way, b: &Way) -> bool {
    let same_bounds = || {
        let ((al, ah), (bl, bh)) = (a.solid.bounds(), b.solid.bounds());
        al.distance(bl) < NO_VOLUME.cbrt() && ah.distance(bh) < NO_VOLUME.cbrt()
    };
    a.solid.faces.len() == b.solid.faces.len()
        && (a.volume - b.volume).abs() < SAME
        && same_bounds()
}
