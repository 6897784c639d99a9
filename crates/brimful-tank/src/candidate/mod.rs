//! Candidates: bodies that lie wholly in the allowed room, from every facet of it down to a plain
//! box, each with a name that stays the same while the space does.
//!
//! From the room with every facet a bounded beam search takes things away: the far side of a face
//! at an inside corner, the whole reach of an obstacle along an axis, the slope of a leaning side.
//! Every step is a boolean of the body before, so nothing ever leaves the room. Of each count of
//! faces the largest few are kept. Each is kept as far off as it grows by warmth (`warm`). What does
//! not pass the way in is trimmed until it does, and
//! stands beside the whole one, which must then be made in pieces.

mod boxes;
mod moves;
mod names;
mod warm;

use crate::growth::Growth;
use crate::space::{NO_VOLUME, Room};
use crate::watch::Watch;
use crate::way_in::{Entry, Look, entry, trimmed};
use brimful_geom::boolean::pieces;
use brimful_geom::solid::Solid;
use brimful_job::{Space, WayIn};
use moves::{Cut, Shadows, steps};
use rayon::prelude::*;
pub use warm::with_room_to_grow;

/// A body that lies in the allowed room.
#[derive(Clone, Debug, PartialEq)]
pub struct Candidate {
    /// Its name among its fellows.
    pub name: String,
    /// The body, in the axes of the space.
    pub solid: Solid,
    /// What was given up to make it plainer, in words; empty where nothing was.
    pub because: String,
    /// How it gets in.
    pub entry: Entry,
}

/// What was looked at.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Looked {
    /// All candidates, largest first.
    pub candidates: Vec<Candidate>,
    /// Names of bodies that bear when warm and could not be made smaller, and why.
    pub left_out: Vec<(String, String)>,
    /// What could not be looked for, and why.
    pub unsearched: Vec<String>,
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
    taken: Vec<String>,
}

/// All candidates of a room; what there is so far, once nobody waits for them any more.
pub fn candidates(space: &Space, room: &Room, growth: &Growth, watch: &dyn Watch) -> Looked {
    let parts = pieces(&room.allowed).unwrap_or_default();
    let several = parts.len() > 1;
    let within = Within {
        space,
        room,
        growth,
        watch,
    };
    let mut looked = Looked::default();
    for (number, part) in parts.iter().enumerate() {
        let place = several.then(|| format!(" in piece {}", number + 1));
        of_piece(within, part, &place.unwrap_or_default(), &mut looked);
    }
    names::make_unique(&mut looked.candidates);
    looked.unsearched.sort();
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
        name: names::EVERY_FACET.to_owned(),
        solid,
        because: String::new(),
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
    watch: &'a dyn Watch,
}

fn of_piece(within: Within<'_>, part: &Solid, place: &str, looked: &mut Looked) {
    let (room, way_in) = (within.room, within.space.way_in.as_ref());
    let every = Way::new(part.clone(), Vec::new());
    let mut start = every.clone();
    let mut all: Vec<Candidate> = Vec::new();
    let name = format!("{}{place}", names::EVERY_FACET);
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
            .map(|(solid, _)| Way::new(solid, vec!["trimmed to pass the way in".to_owned()]))
            .filter(|way| way.volume >= LEAST_TRIMMED * every.volume);
        start = smaller.unwrap_or(start);
    }
    match grown {
        Err(why) => looked.left_out.push((name, why)),
        Ok((solid, taken)) => all.push(match whole.in_one() {
            true => Candidate {
                name,
                solid,
                because: taken.join(", "),
                entry: whole,
            },
            // It stays on offer, to be made in pieces.
            false => Candidate {
                name: format!("{name}, in pieces"),
                solid,
                because: "takes all the room there is, and does not pass the way in whole"
                    .to_owned(),
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
    let mut more: Vec<(String, String, Solid)> = Vec::new();
    for (way, grown) in ways.into_iter().zip(grown) {
        let known = |solid: &Solid| {
            let bodies = all.iter().map(|other| &other.solid);
            bodies
                .chain(more.iter().map(|(.., other)| other))
                .any(|other| other == solid)
        };
        let name = names::name_of(&way.solid, way.taken.len() == untouched);
        let name = format!("{name}{place}");
        match grown {
            Err(why) if !looked.left_out.iter().any(|(other, _)| *other == name) => {
                looked.left_out.push((name, why));
            }
            Err(_) => {}
            Ok((solid, _)) if known(&solid) => {}
            Ok((solid, taken)) => {
                more.push((name, [way.taken, taken].concat().join(", "), solid));
            }
        }
    }
    looked.candidates.extend(all);
    looked.candidates.extend(with_entries(within, more));
}

/// Bodies (name, what was given up, solid) with their ways in, found side by side; what there is so far, once
/// nobody waits for them any more.
fn with_entries(within: Within<'_>, bodies: Vec<(String, String, Solid)>) -> Vec<Candidate> {
    let way_in = within.space.way_in.as_ref();
    let all: Vec<Option<Candidate>> = bodies
        .into_par_iter()
        .map(|(name, because, solid)| {
            (!within.watch.is_cancelled()).then(|| Candidate {
                entry: entry(way_in, within.room, &solid, Look::Planned),
                name,
                because,
                solid,
            })
        })
        .collect();
    all.into_iter().flatten().collect()
}

impl Within<'_> {
    /// A body with room to grow, and what was taken of it for that.
    ///
    /// # Errors
    /// Why it cannot be offered, as the rest of a sentence about it.
    fn grown(self, body: &Solid) -> Result<(Solid, Vec<String>), String> {
        match with_room_to_grow(self.space, self.room, self.growth, body) {
            Ok((solid, false)) => Ok((solid, Vec::new())),
            Ok((solid, true)) => Ok((
                solid,
                vec!["kept further off than the clearance, to have room when warm".to_owned()],
            )),
            Err(why) => Err(format!(
                "bears when warm, and how it is to be made smaller was not found ({why})"
            )),
        }
    }
}

impl Way {
    fn new(solid: Solid, taken: Vec<String>) -> Self {
        Self {
            volume: solid.moments().volume,
            solid,
            taken,
        }
    }
}

/// The beam search: the largest few of each count of faces, largest first; what could not be looked
/// for is told.
fn search(within: Within<'_>, start: Way, every: &Way, unsearched: &mut Vec<String>) -> Vec<Way> {
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
        if within.watch.is_cancelled() {
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
    let taken = |(way, (cut, how)): (&Way, (Cut, String))| {
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
