//! What fits the space, as JSON.

use super::solid::{Solid, solid};
use super::way_in;
use brimful_geom::solid;
use brimful_panels::space::Named;
use brimful_tank::fit;
use brimful_tank::offer;
use brimful_text::Words;
use brimful_units::{Length, Volume};
use schemars::JsonSchema;
use serde::Serialize;

/// What fits the space.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct Fit {
    space: Space,
    /// The bodies offered, smallest first.
    offers: Vec<Offer>,
    /// Bodies looked at that another beats in everything, or that cannot be built.
    left_out: Vec<LeftOut>,
    /// Ways to more litres, each by itself, most first.
    gains: Vec<Gain>,
}

/// The space with what is kept free of it.
#[derive(Debug, Serialize, JsonSchema)]
struct Space {
    clear_m3: f64,
    free_m3: f64,
    allowed_m3: f64,
    /// As measured, flat sides inside any twisted one.
    shell: Solid,
    obstacles: Vec<NamedSolid>,
    keep_free: Vec<NamedSolid>,
}

#[derive(Debug, Serialize, JsonSchema)]
struct NamedSolid {
    name: String,
    solid: Solid,
}

/// A body that is offered.
#[derive(Debug, Serialize, JsonSchema)]
struct Offer {
    name: String,
    /// What was given up to make it plainer.
    because: String,
    brim_m3: f64,
    rated_m3: f64,
    /// Null where the job's fittings find no place on it.
    usable_m3: Option<f64>,
    panels: usize,
    seams_m: f64,
    sheets: usize,
    /// Panels that the stock does not yield.
    panels_left_out: usize,
    work_s: f64,
    reach_m: f64,
    empty_kg: f64,
    full_kg: f64,
    gives_up: String,
    next_gains: String,
    way_in: way_in::WayIn,
    /// What it takes of its room when full and warm; null of pieces, and where nothing is near.
    full_size: Option<FullSize>,
    body: Solid,
}

/// What a body takes of its room when it is full and warm.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "OfferFullSize")]
struct FullSize {
    interference: offer::Interference,
    says: String,
    /// The side that is worst off; null where no side's bulge is known.
    worst: Option<SideTaken>,
    /// Sides with something beside them of which only the check can tell what they take.
    unknown_sides: usize,
    /// Whether the baffles, ribs and fittings of the job stand in it.
    as_in_job: bool,
}

#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "OfferSideTaken")]
struct SideTaken {
    side: String,
    gap_m: f64,
    growth_m: f64,
    /// Of ribs and welds.
    stands_out_m: f64,
    bulge_clamped_m: f64,
    bulge_hinged_m: f64,
}

#[derive(Debug, Serialize, JsonSchema)]
struct LeftOut {
    name: String,
    reason: String,
}

#[derive(Debug, Serialize, JsonSchema)]
struct Gain {
    change: String,
    gain_m3: f64,
    rated_m3: f64,
    brim_m3: f64,
}

pub(super) fn fit(fit: &fit::Fit, words: &Words<'_>) -> Fit {
    let volume = |solid: &solid::Solid| solid.moments().volume;
    let room = &fit.site.room;
    Fit {
        space: Space {
            clear_m3: volume(&room.shell),
            free_m3: volume(&room.free),
            allowed_m3: volume(&room.allowed),
            shell: solid(&room.shell),
            obstacles: room.obstacles.iter().map(named).collect(),
            keep_free: room.keep_free.iter().map(named).collect(),
        },
        offers: fit
            .offers
            .offers
            .iter()
            .map(|it| offer(it, words))
            .collect(),
        left_out: fit
            .offers
            .left_out
            .iter()
            .map(|(name, reason)| LeftOut {
                name: name.to_string(),
                reason: words.left_out_body(reason).into(),
            })
            .collect(),
        gains: fit
            .gains
            .iter()
            .map(|gain| Gain {
                change: words.gain(&gain.change).into(),
                gain_m3: gain.gain.m3(),
                rated_m3: gain.rated.m3(),
                brim_m3: gain.brim.m3(),
            })
            .collect(),
    }
}

fn named(named: &Named) -> NamedSolid {
    NamedSolid {
        name: named.name.clone(),
        solid: solid(&named.solid),
    }
}

fn offer(offer: &offer::Offer, words: &Words<'_>) -> Offer {
    let (candidate, figures) = (&offer.candidate, &offer.figures);
    Offer {
        name: candidate.name.to_string(),
        because: words.given_up(&candidate.given_up).into(),
        brim_m3: figures.brim.m3(),
        rated_m3: figures.rated.m3(),
        usable_m3: figures.usable.map(Volume::m3),
        panels: figures.panels,
        seams_m: figures.seams.m(),
        sheets: figures.sheets,
        panels_left_out: figures.left_out,
        work_s: figures.hours.s(),
        reach_m: figures.reach.m(),
        empty_kg: figures.empty.kg(),
        full_kg: figures.full.kg(),
        gives_up: words.gives_up(offer.gives_up.as_ref()).into(),
        next_gains: offer
            .next_gains
            .as_ref()
            .map_or_else(String::new, |next| words.next_gains(next).into()),
        way_in: way_in::way_in(&candidate.entry, words),
        full_size: offer.full_size.as_ref().map(|full| full_size(full, words)),
        body: solid(&candidate.solid),
    }
}

fn full_size(full: &offer::FullSize, words: &Words<'_>) -> FullSize {
    FullSize {
        interference: full.interference(),
        says: words.full_size(full).into(),
        worst: full.worst.as_ref().map(side_taken),
        unknown_sides: full.unknown,
        as_in_job: full.as_in_job,
    }
}

fn side_taken(side: &offer::SideTaken) -> SideTaken {
    let [clamped, hinged] = side.bulge.map(Length::m);
    SideTaken {
        side: side.side.to_string(),
        gap_m: side.gap.m(),
        growth_m: side.growth.m(),
        stands_out_m: side.stands_out.m(),
        bulge_clamped_m: clamped,
        bulge_hinged_m: hinged,
    }
}
