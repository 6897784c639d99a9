//! The clear inside as a solid, whichever way it was measured.

use super::told::Told;
use super::{scan, stations, taped};
use crate::shape::{ShapeFault, solid_of};
use brimful_geom::solid::Solid;
use brimful_job::{Measured, Space};

/// The clear inside as measured, wholly inside any twisted side.
pub(super) struct Shell {
    pub(super) solid: Solid,
    /// The solid that the clearance is taken off, where that is a plainer one.
    pub(super) facing: Option<Solid>,
    /// What is left of it within all that is kept free, where that is known already.
    pub(super) kept_within: Option<Solid>,
    /// Rack, twist, misfits and holes.
    pub(super) told: Vec<Told>,
}

/// The shell of a space.
pub(super) fn shell(space: &Space) -> Result<Shell, ShapeFault> {
    let shell = match &space.measured {
        Measured::Views(shape) => Shell {
            solid: solid_of(shape)?,
            facing: None,
            kept_within: None,
            told: Vec::new(),
        },
        Measured::Taped(room) => taped::shell(room, space.twisted)?,
        Measured::Stations(stations) => stations::shell(space, stations)?,
        Measured::Scan(scan) => scan::shell(scan)?,
    };
    match shell.solid.faults().first() {
        None => Ok(shell),
        Some(fault) => Err(ShapeFault::new(
            &space.measured.place(),
            format!("The space as measured is not a proper solid: {fault}."),
            "Check its measures; a corner may have been written twice or out of order.",
        )),
    }
}
