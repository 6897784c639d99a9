//! Ways to gain litres: each a change of the job, with its largest body laid out again; where the space
//! stays as it is, the same body.

use super::as_let_in::{comes_to, proven};
use super::figures::{Figures, sheet_of};
use super::offered::{Offer, holds};
use brimful_job::{Capacity, Job, Side, Space, Twisted};
use brimful_panels::candidate::{Candidate, largest};
use brimful_panels::growth::Growth;
use brimful_panels::progress::Progress;
use brimful_panels::site::Site;
use brimful_panels::table::sheet::common_thicknesses;
use brimful_units::{Length, Volume};
use rayon::prelude::*;
use std::sync::Arc;

/// A change and what it brings.
#[derive(Clone, Debug, PartialEq)]
pub struct Gain {
    /// What is changed.
    pub change: GainChange,
    /// To the brim, with the largest body there is then (the same one where the space stays).
    pub brim: Volume,
    /// The same below the air space.
    pub rated: Volume,
    /// How much more that is of the capacity wanted (rated where none is).
    pub gain: Volume,
}

/// A change that may bring more litres.
#[derive(Clone, Debug, PartialEq)]
pub enum GainChange {
    /// An obstacle is taken out.
    WithoutObstacle(String),
    /// A zone is no longer kept free.
    WithoutZone(String),
    /// No opening limits it.
    AnotherWayIn,
    /// The opening is higher.
    HigherOpening {
        /// By so much.
        by: Length,
    },
    /// Every obstacle is taken out, and no opening limits it.
    WithoutObstaclesAnotherWayIn,
    /// Only the clearance is kept above.
    OnlyClearanceAbove {
        /// What the job keeps.
        instead_of: Length,
    },
    /// It stands on the bottom.
    OnBottom {
        /// What the job keeps below.
        instead_of: Length,
    },
    /// Half the clearance is kept.
    HalfClearance(Length),
    /// Twisted sides are faced with two triangles each.
    TwoTriangles,
    /// Half the air space is left.
    HalfAirSpace(Length),
    /// Thinner sheet is used.
    ThinnerSheet(Length),
}

/// A gain below this is not worth a line.
const WORTH_SAYING: Volume = Volume::from_litres(0.1);

/// Every way that brings something, most first.
pub fn gains(job: &Job, site: &Arc<Site>, now: &Offer, progress: &dyn Progress) -> Vec<Gain> {
    let in_one = now.candidate.entry.in_one();
    let of = job
        .liquid
        .wanted
        .map_or(Capacity::Rated, |wanted| wanted.of);
    // The outlet is not laid out again for each change, so usable litres are compared as rated.
    let of = if of == Capacity::Usable {
        Capacity::Rated
    } else {
        of
    };
    let before = holds(&now.figures, of);
    let mut gains: Vec<Gain> = changes(job, site)
        .into_par_iter()
        .filter(|_| !progress.is_cancelled())
        .filter_map(|(change, changed)| {
            let (body, then) = match changed.space == job.space {
                true => {
                    let then = bare_figures(&changed, &now.candidate)?;
                    (now.candidate.clone(), then)
                }
                false => {
                    let site = site.changed(&changed).ok()??;
                    largest_of(&changed, &site, in_one)?
                }
            };
            let gain = Gain {
                change,
                brim: then.brim,
                rated: then.rated,
                gain: holds(&then, of) - before,
            };
            let promised =
                gain.gain > WORTH_SAYING && proven(&changed, &body, sheet_of(&changed)).is_ok();
            promised.then_some(gain)
        })
        .collect();
    gains.sort_by(|a, b| b.gain.total_cmp(&a.gain));
    gains
}

/// The largest body of a job, laid out.
pub(super) fn largest_of(job: &Job, site: &Site, in_one: bool) -> Option<(Candidate, Figures)> {
    let body = largest(&site.space, &site.room, &Growth::of(job), in_one)?;
    let figures = bare_figures(job, &body)?;
    Some((body, figures))
}

/// A body laid out without the fittings of the job.
fn bare_figures(job: &Job, body: &Candidate) -> Option<Figures> {
    let bare = Job {
        openings: Vec::new(),
        ..job.clone()
    };
    comes_to(&bare, body, sheet_of(job)).ok()
}

/// The changes that are tried, each by itself.
fn changes(job: &Job, site: &Arc<Site>) -> Vec<(GainChange, Job)> {
    let space = &site.space;
    let with = |change: &dyn Fn(&mut Space)| {
        let mut changed = space.clone();
        change(&mut changed);
        Job {
            space: Some(changed),
            ..job.clone()
        }
    };
    let mut all = Vec::new();
    for obstacle in &space.obstacles {
        all.push((
            GainChange::WithoutObstacle(obstacle.name.clone()),
            with(&|space| space.obstacles.retain(|other| other != obstacle)),
        ));
    }
    for zone in &space.keep_free {
        all.push((
            GainChange::WithoutZone(zone.name.clone()),
            with(&|space| space.keep_free.retain(|other| other != zone)),
        ));
    }
    if space.way_in.is_some() {
        all.push((GainChange::AnotherWayIn, with(&|space| space.way_in = None)));
    }
    all.extend(taller_opening(job, site));
    if space.way_in.is_some() && !space.obstacles.is_empty() {
        all.push((
            GainChange::WithoutObstaclesAnotherWayIn,
            with(&|space| {
                space.way_in = None;
                space.obstacles.clear();
            }),
        ));
    }
    if space.keep_above > space.clearance {
        all.push((
            GainChange::OnlyClearanceAbove {
                instead_of: space.keep_above,
            },
            with(&|space| space.keep_above = Length::ZERO),
        ));
    }
    if space.keep_below > Length::ZERO {
        all.push((
            GainChange::OnBottom {
                instead_of: space.keep_below,
            },
            with(&|space| space.keep_below = Length::ZERO),
        ));
    }
    if space.clearance > Length::ZERO {
        all.push((
            GainChange::HalfClearance(space.clearance / 2.0),
            with(&|space| space.clearance = space.clearance / 2.0),
        ));
    }
    let triangles = with(&|space| space.twisted = Twisted::TwoTriangles);
    let then = site.changed(&triangles).ok().flatten();
    if then.is_none_or(|then| then.room.allowed != site.room.allowed) {
        all.push((GainChange::TwoTriangles, triangles));
    }
    all.extend(of_the_tank(job));
    all
}

/// The opening higher by what the height of the allowed room lacks.
fn taller_opening(job: &Job, site: &Site) -> Option<(GainChange, Job)> {
    let way_in = site.space.way_in.as_ref()?;
    let (low, high) = site.room.allowed.bounds();
    let needed = Length::from_m(high.z - low.z) + way_in.clearance * 2.0;
    let by = needed - way_in.size[1];
    if by <= Length::ZERO || matches!(way_in.side, Some(Side::Above | Side::Below)) {
        return None;
    }
    let mut changed = job.clone();
    changed.space.as_mut()?.way_in.as_mut()?.size[1] = needed;
    Some((GainChange::HigherOpening { by }, changed))
}

/// Changes of air space and sheet.
fn of_the_tank(job: &Job) -> Vec<(GainChange, Job)> {
    let mut all = Vec::new();
    if job.liquid.air_space > Length::ZERO {
        let half = job.liquid.air_space / 2.0;
        let mut changed = job.clone();
        changed.liquid.air_space = half;
        all.push((GainChange::HalfAirSpace(half), changed));
    }
    let now = sheet_of(job);
    let of_stock = job.stock.sheets.iter().map(|sheet| sheet.thickness);
    let thinner = of_stock
        .filter(|thickness| *thickness < now)
        .max_by(Length::total_cmp)
        .or_else(|| {
            common_thicknesses()
                .filter(|thickness| *thickness < now)
                .last()
        });
    if let (Some(thickness), Some(_)) = (thinner, &job.space) {
        let mut changed = job.clone();
        for sheet in &mut changed.stock.sheets {
            sheet.thickness = thickness;
        }
        changed.body = None;
        all.push((GainChange::ThinnerSheet(thickness), changed));
    }
    all
}
