//! The way in of a tank that is laid out: the body with its ribs, and the fittings that go on before
//! as far as the job says how far they stand out.

use super::entry::{Entry, Look, Piece};
use super::search::entry;
use super::whole::whole;
use crate::finding::kind::{FittingsOnWay, NoWay, NoWayWhole, PieceFittings, PieceNeed};
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
    /// Its fittings on the way.
    pub fittings: FittingsOnWay,
    /// Names of those that were to be on it and must come off for it to get in.
    pub must_come_off: Vec<String>,
    /// Where it goes in in pieces: the fittings of each, in their order.
    pub pieces: Vec<PieceFittings>,
}

/// How a tank gets to where it stands in a room; none where the job states no opening.
pub fn of_tank(job: &Job, room: &Room, body: &Solid, panels: &[Panel]) -> Option<TankEntry> {
    let way_in = job.space.as_ref()?.way_in.as_ref()?;
    let all = fittings(job, panels);
    let named = |which: &dyn Fn(&Opening) -> bool| -> Vec<String> {
        let of = all.iter().filter(|fitting| which(fitting.opening));
        of.map(|fitting| fitting.opening.name.clone()).collect()
    };
    let is_on = |opening: &Opening| opening.goes_on == GoesOn::Before;
    let on_way = FittingsOnWay {
        on: named(&|opening| is_on(opening) && opening.stands_out.is_some()),
        after: named(&|opening| !is_on(opening)),
        unstated: named(&|opening| is_on(opening) && opening.stands_out.is_none()),
    };
    let together = |solids: Vec<Solid>| {
        union(&solids.iter().collect::<Vec<_>>()).map_err(NoWayWhole::NotCombined)
    };
    let in_one = |moved: Solid| match whole(way_in, room, &moved, Look::Planned) {
        Ok(entry) => Ok((entry, moved)),
        Err(why) => Err(why),
    };
    if !on_way.on.is_empty()
        && let Ok((entry, moved)) = together(outside(body, panels, &all)).and_then(in_one)
    {
        return Some(TankEntry {
            entry,
            moved,
            fittings: on_way,
            must_come_off: Vec::new(),
            pieces: Vec::new(),
        });
    }
    let (entry, moved) = match together(outside(body, panels, &[])) {
        Ok(bare) => (entry(Some(way_in), room, &bare, Look::Planned), bare),
        Err(why) => (
            Entry::NotFound(NoWay {
                why,
                nor_in_pieces: false,
            }),
            body.clone(),
        ),
    };
    Some(TankEntry {
        pieces: match &entry {
            Entry::Pieces(pieces) => shared_out(pieces, &all),
            _ => Vec::new(),
        },
        must_come_off: match entry.in_one() {
            true => on_way.on,
            // In pieces each has fittings of its own.
            false => Vec::new(),
        },
        entry,
        moved,
        fittings: FittingsOnWay {
            on: Vec::new(),
            ..on_way
        },
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
    own.iter().map(|own| piece_fittings(own)).collect()
}

fn piece_fittings(own: &[&Opening]) -> PieceFittings {
    let lacks = |services: &[Service]| !own.iter().any(|it| services.contains(&it.service));
    let needs: [(&[Service], PieceNeed); 3] = [
        (&[Service::Vent], PieceNeed::Vent),
        (&[Service::Drain, Service::Draw], PieceNeed::Drain),
        (&[Service::Hatch], PieceNeed::Hatch),
    ];
    let needs = needs.into_iter();
    PieceFittings {
        names: own.iter().map(|opening| opening.name.clone()).collect(),
        lacks: needs
            .filter(|(services, _)| lacks(services))
            .map(|(_, need)| need)
            .collect(),
    }
}
