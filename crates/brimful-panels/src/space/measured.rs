//! The clear inside as a solid, whichever way it was measured.

use super::shell::Shell;
use super::{scan, stations, taped};
use crate::shape::{ShapeFault, SpaceFault, solid_of};
use brimful_geom::scan::Scanned;
use brimful_job::{Measured, Space};

/// The shell of a space.
pub(super) fn shell(space: &Space, found: Option<&Scanned>) -> Result<Shell, ShapeFault> {
    let shell = match &space.measured {
        Measured::Views(shape) => Shell {
            solid: solid_of(shape)?,
            facing: None,
            kept_within: None,
            findings: Vec::new(),
        },
        Measured::Taped(room) => taped::shell(room, space.twisted)?,
        Measured::Stations(stations) => stations::shell(space, stations)?,
        Measured::Scan(scan) => scan::shell(scan, found)?,
    };
    match shell.solid.faults().into_iter().next() {
        None => Ok(shell),
        Some(fault) => Err(ShapeFault::new(
            &space.measured.place(),
            SpaceFault::NotProper(fault),
        )),
    }
}
