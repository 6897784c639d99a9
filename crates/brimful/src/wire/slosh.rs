//! Liquid in motion as JSON.

use brimful_panels::table::motion::{Direction, Motion};
use brimful_tank::plan::Plan;
use brimful_tank::slosh::{FillMotion, NotComputed, Swing as TankSwing};
use brimful_text::Words;
use schemars::JsonSchema;
use serde::Serialize;

/// What the liquid does in small waves in a tank that stands level; events in time are not worked out.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct Slosh {
    /// Every room that holds liquid.
    rooms: Vec<Room>,
    /// The motions of its vehicle that the liquid may swing with; none for a tank that goes on no road.
    bands: Vec<Band>,
}

/// What the liquid of one room does.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "SloshRoom")]
struct Room {
    compartment: String,
    /// The width of the cells that it was worked out on.
    spacing_m: f64,
    /// From a little in it to nearly full.
    fills: Vec<Fill>,
    /// At a few fills, without each of its baffles, and without any where it has several.
    without: Vec<Without>,
}

#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "SloshWithout")]
struct Without {
    /// Marks of the baffles that are left out.
    baffles: Vec<String>,
    fills: Vec<Fill>,
}

#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "SloshFill")]
struct Fill {
    /// As a share of what the room holds brim-full.
    fill: f64,
    volume_m3: f64,
    /// Over the lowest place of the room.
    depth_m: f64,
    /// How many bodies the liquid is in: within one it is joined below its surface; null where it is not worked out.
    bodies: Option<usize>,
    /// Along and across; empty where it is not worked out.
    directions: Vec<Directed>,
    /// Why it is not worked out.
    #[serde(skip_serializing_if = "Option::is_none")]
    not_computed: Option<NotComputed>,
}

#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "SloshDirection")]
struct Directed {
    direction: Direction,
    /// What moves a twentieth of the liquid or more, slowest first.
    swings: Vec<Swing>,
    /// The share of the liquid that moves with the tank as if frozen.
    frozen: f64,
}

#[derive(Debug, Serialize, JsonSchema)]
struct Swing {
    frequency_hz: f64,
    period_s: f64,
    /// How far frequency and period may be off, as a share, by two grids; null where they tell nothing.
    error: Option<f64>,
    /// The share of the liquid that takes part.
    moves: f64,
    /// The height over the lowest place of the room at which that mass pushes, its weight counted apart; it may lie below zero.
    height_m: f64,
}

#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "MotionBand")]
struct Band {
    motion: Motion,
    direction: Direction,
    /// From the slowest to the fastest swing that it feeds.
    band_hz: [f64; 2],
    source: String,
}

pub(super) fn slosh(plan: &Plan, words: &Words<'_>) -> Slosh {
    let mark = |&panel: &usize| plan.panels[panel].mark.clone();
    let rooms = plan.slosh().rooms.iter().map(|room| Room {
        compartment: room.compartment.to_string(),
        spacing_m: room.spacing.m(),
        fills: room.fills.iter().map(fill).collect(),
        without: room
            .without
            .iter()
            .map(|without| Without {
                baffles: without.baffles.iter().map(mark).collect(),
                fills: without.fills.iter().map(fill).collect(),
            })
            .collect(),
    });
    let bands = plan.slosh().motions.iter().map(|&motion| {
        let band = motion.band();
        let sources = band.sources.iter().map(|it| String::from(words.source(it)));
        Band {
            motion,
            direction: motion.direction(),
            band_hz: band.value.map(|it| it.hz()),
            source: sources.collect(),
        }
    });
    Slosh {
        rooms: rooms.collect(),
        bands: bands.collect(),
    }
}

fn fill(fill: &FillMotion) -> Fill {
    let found = fill.swings.as_ref();
    let directions = found.ok().map(|it| it.directions.iter());
    Fill {
        fill: fill.fill,
        volume_m3: fill.volume.m3(),
        depth_m: fill.depth.m(),
        bodies: found.ok().map(|it| it.bodies),
        directions: directions
            .into_iter()
            .flatten()
            .map(|it| Directed {
                direction: it.direction,
                swings: it.swings.iter().map(swing).collect(),
                frozen: it.frozen,
            })
            .collect(),
        not_computed: found.err().copied(),
    }
}

fn swing(swing: &TankSwing) -> Swing {
    Swing {
        frequency_hz: swing.frequency.hz(),
        period_s: swing.frequency.period().s(),
        error: swing.error,
        moves: swing.moves,
        height_m: swing.height.m(),
    }
}
