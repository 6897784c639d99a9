//! What the liquid does in small waves: how fast it swings, how much of it and how high, at every fill, along and
//! across the tank, with its baffles and without; against the motions that a vehicle has.
//!
//! Linear: waves that are small beside their depth, in a tank that stands level. Blows, and what edges and openings take of
//! the motion, are not worked out here. Baffles and stays have no thickness; each room swings by itself, its bays joined
//! through the openings between them.

mod bands;
mod cavity;
mod motion;
mod sweep;

pub use motion::{Directed, FillMotion, NotComputed, RoomMotion, Slosh, Swing, Swings, Without};

use bands::{bands, motions};
use brimful_job::Job;
use brimful_panels::liquid::Compartment;
use brimful_panels::panel::Panel;
use brimful_panels::seam::Seam;
use sweep::room;

/// Works out what the liquid does in every room that holds any.
pub fn slosh(job: &Job, panels: &[Panel], seams: &[Seam], compartments: &[Compartment]) -> Slosh {
    let rooms: Vec<RoomMotion> = compartments
        .iter()
        .filter(|it| it.holds_liquid())
        .map(|it| room(it, panels, seams))
        .collect();
    let motions = motions(job);
    Slosh {
        findings: bands(&motions, &rooms),
        motions,
        rooms,
    }
}
