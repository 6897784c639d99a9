//! The way in of a tank that is laid out: the body with its ribs, and the fittings that go on before
//! as far as the job says how far they stand out.

use super::{Entry, Look, NoWay, Piece, entry, whole};
use crate::fitting::{Fitting, fittings, outside};
use crate::panel::Panel;
use crate::space::Room;
use brimful_geom::basin;
use brimful_geom::boolean::union;
use brimful_geom::solid::Solid;
use brimful_job::{GoesOn, Job, Opening, Service};

/// How a tank gets in, and with what on it.
#[derive(Clone, Debug, PartialEq)]
pub struct TankEntry {
    /// The way of what is moved.
    pub entry: Entry,
    /// What is moved: body, ribs and the fittings that are on.
    pub moved: Solid,
    /// Names of the fittings that are on it on its way.
    pub on: Vec<String>,
    /// Names of those that go on when it is in its place.
    pub after: Vec<String>,
    /// Names of those that were to be on it and must come off for it to get in.
    pub must_come_off: Vec<String>,
    /// Names of those that are to be on it, but nobody has said how far they stand out.
    pub unstated: Vec<String>,
    /// Where it goes in in pieces: the fittings of each, in their order.
    pub pieces: Vec<PieceFittings>,
}

/// The fittings of a piece.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PieceFittings {
    /// Those of the tank's that are in it.
    pub names: Vec<String>,
    /// What it lacks to be a tank of its own, in words.
    pub lacks: Vec<&'static str>,
}

/// How a tank gets to where it stands in the job's space; none where the job states no opening.
pub fn of_tank(job: &Job, body: &Solid, panels: &[Panel]) -> Option<TankEntry> {
    let space = job.space.as_ref()?;
    let way_in = space.way_in.as_ref()?;
    let room = Room::new(space).ok()?;
    let all = fittings(job, panels);
    let named = |which: &dyn Fn(&Opening) -> bool| -> Vec<String> {
        let of = all.iter().filter(|fitting| which(fitting.opening));
        of.map(|fitting| fitting.opening.name.clone()).collect()
    };
    let is_on = |opening: &Opening| opening.goes_on == GoesOn::Before;
    let tank = TankEntry {
        entry: Entry::Free,
        moved: body.clone(),
        on: named(&|opening| is_on(opening) && opening.stands_out.is_some()),
        after: named(&|opening| !is_on(opening)),
        must_come_off: Vec::new(),
        unstated: named(&|opening| is_on(opening) && opening.stands_out.is_none()),
        pieces: Vec::new(),
    };
    let together = |solids: Vec<Solid>| {
        union(&solids.iter().collect::<Vec<_>>()).map_err(|fault| NoWay::apart(&fault))
    };
    let in_one = |moved: Solid| match whole(way_in, &room, &moved, Look::Planned) {
        Ok(entry) => Ok((entry, moved)),
        Err(why) => Err(why),
    };
    if !tank.on.is_empty()
        && let Ok((entry, moved)) = together(outside(body, panels, &all)).and_then(in_one)
    {
        return Some(TankEntry {
            entry,
            moved,
            ..tank
        });
    }
    let (entry, moved) = match together(outside(body, panels, &[])) {
        Ok(bare) => (entry(Some(way_in), &room, &bare, Look::Planned), bare),
        Err(why) => (Entry::NotFound(why), body.clone()),
    };
    Some(TankEntry {
        pieces: match &entry {
            Entry::Pieces(pieces) => shared_out(pieces, &all),
            _ => Vec::new(),
        },
        must_come_off: match entry.in_one() {
            true => tank.on,
            // In pieces it is made anew.
            false => Vec::new(),
        },
        entry,
        moved,
        on: Vec::new(),
        ..tank
    })
}

/// The fittings that each piece has of the tank's, by the piece whose outside they are nearest to,
/// and what it lacks to be a tank of its own.
fn shared_out(pieces: &[Piece], all: &[Fitting<'_>]) -> Vec<PieceFittings> {
    let mut own: Vec<Vec<&Opening>> = vec![Vec::new(); pieces.len()];
    for fitting in all {
        let distance = |&piece: &usize| basin::distance(&pieces[piece].solid, fitting.middle());
        let nearest = (0..pieces.len()).min_by(|a, b| distance(a).total_cmp(&distance(b)));
        if let Some(nearest) = nearest {
            own[nearest].push(fitting.opening);
        }
    }
    own.iter().map(|own| PieceFittings::of(own)).collect()
}

impl PieceFittings {
    fn of(own: &[&Opening]) -> Self {
        let lacks = |services: &[Service]| !own.iter().any(|it| services.contains(&it.service));
        let needed: [(&[Service], &str); 3] = [
            (&[Service::Vent], "a vent"),
            (&[Service::Drain, Service::Draw], "a drain"),
            (&[Service::Hatch], "a way in for a hand"),
        ];
        Self {
            names: own.iter().map(|opening| opening.name.clone()).collect(),
            lacks: needed
                .into_iter()
                .filter(|(services, _)| lacks(services))
                .map(|(_, what)| what)
                .collect(),
        }
    }

    /// What it has and what it lacks, in words.
    pub fn words(&self) -> String {
        let has = match self.names.is_empty() {
            true => "has none of the fittings".to_owned(),
            false => format!("has {}", self.names.join(", ")),
        };
        match self.lacks.is_empty() {
            true => has,
            false => format!("{has} and needs of its own {}", listed(&self.lacks)),
        }
    }
}

/// One, two and three.
fn listed(names: &[&str]) -> String {
    match names {
        [] => String::new(),
        [only] => (*only).to_owned(),
        [all @ .., last] => format!("{} and {last}", all.join(", ")),
    }
}
