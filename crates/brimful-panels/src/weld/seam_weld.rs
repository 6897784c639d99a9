//! What is laid into one seam.

use super::groove::{GrooveKind, Preparation};
use super::side::WeldSide;
use crate::panel::{Panel, Role};
use crate::seam::Seam;
use brimful_geom::polygon::Outline;
use brimful_job::Process;
use brimful_units::{Area, Length, Mass};

/// What is laid into one seam from one side.
#[derive(Clone, Debug, PartialEq)]
pub struct SeamWeld {
    /// Number of the seam.
    pub seam: usize,
    /// The side it is laid from.
    pub side: WeldSide,
    /// What it is laid with: hot gas also where the shop's extruder does not get.
    pub process: Process,
    /// What it looks like across the seam.
    pub kind: GrooveKind,
    /// How the edges are prepared.
    pub preparation: Preparation,
    /// The section that rod fills, metres, in a frame across the seam (see [`super::groove`]).
    pub section: Outline,
    /// Its area, gap included.
    pub area: Area,
    /// Its throat.
    pub throat: Length,
    /// Length of the weld.
    pub length: Length,
    /// The stretches, from where to where along the seam, that it is not laid at, being out of reach there.
    pub left_out: Vec<[Length; 2]>,
    /// Number of the rod in the stock that it is laid with.
    pub rod: usize,
    /// Runs with that rod.
    pub runs: usize,
    /// Runs with each size of the stock.
    pub runs_by_rod: Vec<usize>,
    /// Rod used, overfill and waste included.
    pub rod_length: Length,
    /// The same by mass.
    pub rod_mass: Mass,
}

/// Whether a seam is one of a rib: both its sides are dry.
pub(super) fn of_rib(panels: &[Panel], seam: &Seam) -> bool {
    let first = panels.get(seam.panels[0]);
    first.is_some_and(|panel| panel.role == Role::Rib)
}
