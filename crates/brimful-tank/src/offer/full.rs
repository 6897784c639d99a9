//! Whether a body offered has the room that it takes when it is full and warm.
//!
//! Growth and what stands out are as in [`crate::room`]. Bulge is by the plates of the quick check,
//! at the end of the years of service: once with clamped edges and once with hinged ones, and a real
//! corner lies between. Its figures are taken also where they are more than half the sheet's thickness, where
//! a plate moves less than they say. So it tells what is to be expected; whether the tank holds
//! to its place is for the check to say, which knows baffles and corners.

use super::as_let_in::proven;
use super::figures::{bare, sheet_of};
use super::gain::largest_of;
use crate::room::{PanelRoom, Tank, room_kept};
use brimful_geom::solid::Solid;
use brimful_job::Job;
use brimful_panels::body::Body;
use brimful_panels::finding::kind::{FullSize, Interference, MoreClearance, SideTaken};
use brimful_panels::name::PanelName;
use brimful_panels::panels::{LaidOut, laid_out};
use brimful_panels::site::Site;
use brimful_panels::weld::welds;
use brimful_strength::load::Heads;
use brimful_strength::quick::quick;
use brimful_units::Length;
use std::sync::Arc;

/// The largest body that keeps off everything even with hinged edges, by more clearance alone; none
/// where that is not shown of any.
pub fn kept_off(
    job: &Job,
    site: &Arc<Site>,
    full: &FullSize,
    in_one: bool,
) -> Option<MoreClearance> {
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
        let site = site.changed(&further).ok()??;
        let (body, figures) = largest_of(&further, &site, in_one)?;
        if body.entry.in_one() != in_one {
            return None;
        }
        full = full_size(&further, &site, &body.solid, thickness)?;
        if full.interference() == Interference::Clear {
            proven(&further, &body, thickness).ok()?;
            return Some(MoreClearance {
                clearance,
                rated: figures.rated,
            });
        }
    }
    None
}

/// The full size of a body in its space; none where nothing is near it.
pub fn full_size(job: &Job, site: &Site, solid: &Solid, thickness: Length) -> Option<FullSize> {
    let body = Body::of_solid(solid.clone(), thickness).ok()?;
    let as_in_job = Job {
        body: None,
        ..job.clone()
    };
    let bare = bare(job);
    let (job, laid, as_in_job) = match laid_out(&as_in_job, &body, Some(&site.room)) {
        Ok(laid) => (&as_in_job, laid, true),
        Err(_) => (&bare, laid_out(&bare, &body, None).ok()?, false),
    };
    let LaidOut { panels, seams, .. } = laid;
    let quick = quick(job, &panels, &seams, &Heads::in_use(job, &body.cavity));
    let rows = room_kept(&Tank {
        job,
        site: Some(site),
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
        .map(|row| side_taken(row, &panels[row.panel].name, quick.moves(row.panel)));
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
        let by_verdict = a.interference().cmp(&b.interference());
        by_verdict.then(by_left).then(a.side.cmp(&b.side))
    });
    Some(FullSize {
        worst: worst.cloned(),
        unknown,
        wanting: sides()
            .filter(|side| side.interference() != Interference::Clear)
            .map(|side| side.takes()[1])
            .fold(Length::ZERO, Length::max),
        as_in_job,
    })
}

/// What a side takes; none where that is not known.
fn side_taken(row: &PanelRoom, name: &PanelName, moves: Option<[Length; 2]>) -> Option<SideTaken> {
    Some(SideTaken {
        side: name.clone(),
        gap: row.gap?,
        growth: row.growth?[1],
        stands_out: row.ribs + row.weld,
        bulge: moves?,
    })
}
