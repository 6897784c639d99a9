//! Whether a body offered has the room that it takes when it is full and warm.
//!
//! Growth and what stands out are as in [`crate::room`]. Bulge is by the plates of the quick check,
//! at the end of the years of service: once with clamped edges and once with hinged ones, and a real
//! corner lies between. Its figures are taken also where they are more than half the sheet's thickness, where
//! a plate moves less than they say. So it tells what is to be reckoned with; whether the tank holds
//! to its place is for the check to say, which knows baffles and corners.

use super::figures::{Figures, bare, sheet_of};
use super::gain::largest_of;
use super::proven;
use crate::body::Body;
use crate::check::load::{Heads, level};
use crate::check::quick::quick;
use crate::finding::Quantity;
use crate::panels::{LaidOut, laid_out};
use crate::room::{PanelRoom, Tank, room_kept};
use crate::weld::welds;
use brimful_geom::solid::Solid;
use brimful_job::{About, Job};
use brimful_units::Length;

/// What a body takes of its room when it is full and warm.
#[derive(Clone, Debug, PartialEq)]
pub struct FullSize {
    /// The side that is worst off; none where no side's bulge is known.
    pub worst: Option<SideTaken>,
    /// Sides with something beside them of which it is not known what they take.
    pub unknown: usize,
    /// The most that a side takes which has not so much room; nothing where all have.
    pub wanting: Length,
    /// Whether the inner panels, ribs and fittings of the job stand in it; without them where they do
    /// not find their places in this body.
    pub as_in_job: bool,
}

/// What a side takes of the room before it.
#[derive(Clone, Debug, PartialEq)]
pub struct SideTaken {
    /// What it is called.
    pub side: String,
    /// To what is beside it.
    pub gap: Length,
    /// Growth by warmth, at most.
    pub growth: Length,
    /// What ribs and welds stand out.
    pub stands_out: Length,
    /// Bulge, with clamped and with hinged edges.
    pub bulge: [Length; 2],
}

/// What is to be reckoned with when a body is full and warm.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Reckoned {
    /// It bears on what is beside it even with clamped edges.
    Bears,
    /// Between clamped and hinged edges.
    Doubtful,
    /// What is known of has room, and not all is known.
    Unknown,
    /// It has room even with hinged edges.
    Keeps,
}

impl SideTaken {
    /// What it takes, with clamped and with hinged edges.
    pub fn takes(&self) -> [Length; 2] {
        self.bulge
            .map(|bulge| bulge + self.growth + self.stands_out)
    }

    fn reckoned(&self) -> Reckoned {
        let [clamped, hinged] = self.takes();
        match (hinged <= self.gap, clamped <= self.gap) {
            (true, _) => Reckoned::Keeps,
            (false, true) => Reckoned::Doubtful,
            (false, false) => Reckoned::Bears,
        }
    }
}

impl FullSize {
    /// What is to be reckoned with.
    pub fn reckoned(&self) -> Reckoned {
        let known = self.worst.as_ref().map(SideTaken::reckoned);
        match (known, self.unknown) {
            (None, _) => Reckoned::Unknown,
            (Some(Reckoned::Keeps), 1..) => Reckoned::Unknown,
            (Some(known), _) => known,
        }
    }

    /// What is to be reckoned with, as the rest of a sentence about the body.
    pub fn says(&self, about: &About) -> String {
        let verdict = match self.reckoned() {
            Reckoned::Keeps => "keeps off what is beside it",
            Reckoned::Doubtful => "may bear on what is beside it",
            Reckoned::Bears => "bears on what is beside it",
            Reckoned::Unknown => "may keep off what is beside it or not",
        };
        let without = match self.as_in_job {
            true => "",
            false => ", without the baffles and fittings of the job, which find no place in it",
        };
        let unknown = match self.unknown {
            0 => String::new(),
            1 => "; of one side the check alone can tell".to_owned(),
            more => format!("; of {more} sides the check alone can tell"),
        };
        let side = self.worst.as_ref().map_or_else(String::new, |worst| {
            let text = |length: Length| Quantity::Length(length).text(about);
            let [clamped, hinged] = worst.takes().map(text);
            format!(
                ": `{}` takes {clamped} (edges clamped) to {hinged} (hinged) of the {} before it",
                worst.side,
                text(worst.gap)
            )
        });
        format!("{verdict}{side}{without}{unknown}")
    }
}

/// A tank that keeps further off.
#[derive(Clone, Debug, PartialEq)]
pub struct KeptOff {
    /// Clearance all round.
    pub clearance: Length,
    /// What the largest body comes to then.
    pub figures: Figures,
}

/// The largest body that keeps off everything even with hinged edges, by more clearance alone; none
/// where that is not shown of any.
pub fn kept_off(job: &Job, full: &FullSize, in_one: bool) -> Option<KeptOff> {
    // Rounding takes less than this off it.
    const ROUNDED_UP: Length = Length::from_mm(1.0);
    // Where another side then lacks room, what it takes is tried.
    const ROUNDS: usize = 3;
    let thickness = sheet_of(job);
    let mut full = full.clone();
    for _ in 0..ROUNDS {
        if full.unknown > 0 {
            return None;
        }
        let clearance = job.about.round(full.wanting + ROUNDED_UP);
        let mut further = job.clone();
        further.space.as_mut()?.clearance = clearance;
        let (body, figures) = largest_of(&further, in_one)?;
        if body.entry.in_one() != in_one {
            return None;
        }
        full = full_size(&further, &body.solid, thickness)?;
        if full.reckoned() == Reckoned::Keeps {
            proven(&further, &body, thickness).ok()?;
            return Some(KeptOff { clearance, figures });
        }
    }
    None
}

/// The full size of a body in the job's space; none where nothing is near it.
pub fn full_size(job: &Job, solid: &Solid, thickness: Length) -> Option<FullSize> {
    let body = Body::of_solid(solid.clone(), thickness).ok()?;
    let as_in_job = Job {
        body: None,
        ..job.clone()
    };
    let bare = bare(job);
    let (job, laid, as_in_job) = match laid_out(&as_in_job, &body) {
        Ok(laid) => (&as_in_job, laid, true),
        Err(_) => (&bare, laid_out(&bare, &body).ok()?, false),
    };
    let LaidOut { panels, seams, .. } = laid;
    let top = body.cavity.bounds().1.z;
    let heads = Heads::below(job.liquid.density, &body.cavity, level(job, top));
    let quick = quick(job, &panels, &seams, &heads);
    let rows = room_kept(&Tank {
        job,
        body: &body,
        panels: &panels,
        seams: &seams,
        welds: &welds(job, &panels, &seams).welds,
        quick: &quick,
        whole: None,
    })
    .rows;
    let outside = panels.iter();
    let outside = outside.filter(|panel| panel.role.is_outer() && panel.face.is_some());
    let unmeasured = outside.count() - rows.len();
    let near = rows
        .iter()
        .filter(|row| !row.carries && row.gap.is_some())
        .map(|row| {
            side_taken(
                row,
                &panels[row.panel].name.to_string(),
                quick.moves(row.panel),
            )
        });
    let near: Vec<Option<SideTaken>> = near.collect();
    if near.is_empty() && unmeasured == 0 {
        return None;
    }
    let unknown = near.iter().filter(|side| side.is_none()).count() + unmeasured;
    let sides = || near.iter().flatten();
    // In whole micrometres, so that rounding does not choose between sides that are alike.
    let left = |side: &SideTaken| ((side.gap - side.takes()[1]).m() * 1e6).round();
    let worst = sides().min_by(|a, b| {
        let by_left = left(a).total_cmp(&left(b));
        let by_verdict = a.reckoned().cmp(&b.reckoned());
        by_verdict.then(by_left).then(a.side.cmp(&b.side))
    });
    Some(FullSize {
        worst: worst.cloned(),
        unknown,
        wanting: sides()
            .filter(|side| side.reckoned() != Reckoned::Keeps)
            .map(|side| side.takes()[1])
            .fold(Length::ZERO, Length::max),
        as_in_job,
    })
}

/// What a side takes; none where that is not known.
fn side_taken(row: &PanelRoom, name: &str, moves: Option<[Length; 2]>) -> Option<SideTaken> {
    Some(SideTaken {
        side: name.to_owned(),
        gap: row.gap?,
        growth: row.growth?[1],
        stands_out: row.ribs + row.weld,
        bulge: moves?,
    })
}
