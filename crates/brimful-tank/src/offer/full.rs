//! Whether a body offered has the room that it takes when it is full and warm.
//!
//! Growth and what stands out are as in [`crate::room`]. Bulge is by the plates of the quick check,
//! at the end of the years of service: once with clamped edges and once with hinged ones, and a real
//! corner lies between. Its figures are taken also where they are more than half the sheet's thickness, where
//! a plate moves less than they say. So it tells what is to be reckoned with; whether the tank holds
//! to its place is for the check to say, which knows baffles and corners.

use super::figures::{Figures, bare, sheet_of};
use super::gain::largest_of;
use crate::body::Body;
use crate::check::load::{Heads, level};
use crate::check::quick::{Quick, quick};
use crate::finding::Quantity;
use crate::job::{About, Job};
use crate::panels::{LaidOut, laid_out};
use crate::room::{PanelRoom, Tank, room_kept};
use crate::weld::welds;
use brimful_geom::solid::Solid;
use brimful_units::Length;

/// The side of a body that is left with least room.
#[derive(Clone, Debug, PartialEq)]
pub struct FullSize {
    /// What the side is called.
    pub side: String,
    /// To what is beside it.
    pub gap: Length,
    /// Growth by warmth, at most.
    pub growth: Length,
    /// What ribs and welds stand out.
    pub stands_out: Length,
    /// Bulge, with clamped and with hinged edges.
    pub bulge: [Length; 2],
    /// Sides with something beside them whose bulge no plate table knows.
    pub unknown: usize,
    /// Whether the inner panels, ribs and fittings of the job stand in it; without them where they do
    /// not find their places in this body.
    pub as_in_job: bool,
}

/// What is to be reckoned with when a body is full and warm.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reckoned {
    /// It has room even with hinged edges.
    Keeps,
    /// Between clamped and hinged edges.
    Doubtful,
    /// It bears on what is beside it even with clamped edges.
    Bears,
}

impl FullSize {
    /// What it takes, with clamped and with hinged edges.
    pub fn takes(&self) -> [Length; 2] {
        self.bulge
            .map(|bulge| bulge + self.growth + self.stands_out)
    }

    /// What that means.
    pub fn reckoned(&self) -> Reckoned {
        let [clamped, hinged] = self.takes();
        match (hinged <= self.gap, clamped <= self.gap) {
            (true, _) => Reckoned::Keeps,
            (false, true) => Reckoned::Doubtful,
            (false, false) => Reckoned::Bears,
        }
    }

    /// What is to be reckoned with, as the rest of a sentence about the body.
    pub fn says(&self, about: &About) -> String {
        let text = |length: Length| Quantity::Length(length).text(about);
        let [clamped, hinged] = self.takes().map(text);
        let verdict = match self.reckoned() {
            Reckoned::Keeps => "keeps off what is beside it",
            Reckoned::Doubtful => "may bear on what is beside it",
            Reckoned::Bears => "bears on what is beside it",
        };
        let without = match self.as_in_job {
            true => "",
            false => ", without the baffles and fittings of the job, which find no place in it",
        };
        let unknown = match self.unknown {
            0 => String::new(),
            1 => "; one side more is for the check alone to tell".to_owned(),
            more => format!("; {more} sides more are for the check alone to tell"),
        };
        format!(
            "{verdict}: `{}` takes {clamped} (edges clamped) to {hinged} (hinged) of the {} before it{without}{unknown}",
            self.side,
            text(self.gap)
        )
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

/// The largest body that keeps off everything even with hinged edges, where a clearance of what this
/// one takes is enough for that.
pub fn kept_off(job: &Job, full: &FullSize, in_one: bool) -> Option<KeptOff> {
    // Rounding takes less than this off it.
    const ROUNDED_UP: Length = Length::from_mm(1.0);
    let clearance = job.about.round(full.takes()[1] + ROUNDED_UP);
    let mut further = job.clone();
    further.space.as_mut()?.clearance = clearance;
    let (body, figures) = largest_of(&further, in_one)?;
    let then = full_size(&further, &body.solid, sheet_of(job))?;
    (then.reckoned() == Reckoned::Keeps).then_some(KeptOff { clearance, figures })
}

/// The full size of a body in the job's space; none where nothing is near it, or where no side's bulge
/// is known.
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
    let near: Vec<(&PanelRoom, Option<[Length; 2]>)> = rows
        .iter()
        .filter(|row| !row.carries && row.gap.is_some())
        .map(|row| (row, bulge(&quick, row.panel)))
        .collect();
    let unknown = near.iter().filter(|(_, bulge)| bulge.is_none()).count();
    let sides = near.iter().filter_map(|(row, bulge)| {
        Some(FullSize {
            side: panels[row.panel].name.clone(),
            gap: row.gap?,
            growth: row.growth?[1],
            stands_out: row.ribs + row.weld,
            bulge: (*bulge)?,
            unknown,
            as_in_job,
        })
    });
    // In whole micrometres, so that rounding does not choose between sides that are alike.
    let left = |side: &FullSize| ((side.gap - side.takes()[1]).m() * 1e6).round();
    sides.min_by(|a, b| left(a).total_cmp(&left(b)).then(a.side.cmp(&b.side)))
}

/// The most that a panel moves under any load, with clamped and with hinged edges; none where the
/// quick check has no plate for it.
fn bulge(quick: &Quick, panel: usize) -> Option<[Length; 2]> {
    quick
        .rows
        .iter()
        .filter(|row| row.panel == panel)
        .map(|row| [row.deflection_clamped, row.deflection])
        .reduce(|[a, b], [c, d]| [a.max(c), b.max(d)])
}
