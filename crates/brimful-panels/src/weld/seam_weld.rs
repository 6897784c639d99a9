//! What is laid into one seam.

use super::groove::{GrooveKind, Preparation, run_sections};
use super::laying::{RunRod, SpeedBound};
use super::side::WeldSide;
use crate::panel::{Panel, Role};
use crate::seam::Seam;
use brimful_geom::polygon::Outline;
use brimful_geom::vector::Point2;
use brimful_job::Process;
use brimful_units::{Area, Length, Mass, Speed, Time};

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
    /// Where it is open, in the same frame.
    pub surface: [Point2; 2],
    /// Its area, gap included.
    pub area: Area,
    /// Its throat.
    pub throat: Length,
    /// Length of the weld.
    pub length: Length,
    /// The stretches, from where to where along the seam, that it is not laid at, being out of reach there.
    pub left_out: Vec<[Length; 2]>,
    /// The stretches, from where to where along the seam, that a short run through a corner is laid at with the round nozzle.
    pub short_runs: Vec<[Length; 2]>,
    /// Number of the rod in the stock that it is laid with.
    pub rod: usize,
    /// Runs with that rod.
    pub runs: usize,
    /// Runs with each size of the stock.
    pub runs_by_rod: Vec<usize>,
    /// Rod that ends up in the weld, overfill included.
    pub laid_rod: Length,
    /// Rod used, waste, starts, ends and overlaps included.
    pub rod_length: Length,
    /// The same by mass.
    pub rod_mass: Mass,
    /// Rod of each run; none of an extruder, which melts its rod.
    pub run_rod: Option<RunRod>,
    /// How fast a run is laid.
    pub speed: Speed,
    /// What bounds that.
    pub bound: SpeedBound,
}

impl SeamWeld {
    /// Mass of the rod that ends up in the weld.
    pub fn laid_mass(&self) -> Mass {
        match self.rod_length > Length::ZERO {
            true => self.rod_mass * (self.laid_rod / self.rod_length),
            false => Mass::ZERO,
        }
    }

    /// The part of the section that each run fills, in the order in which they are laid.
    pub fn run_sections(&self) -> Vec<Outline> {
        run_sections(&self.section, self.surface, self.runs)
    }

    /// How long laying one run takes.
    pub fn run_time(&self) -> Time {
        self.length / self.speed
    }
}

/// Whether a seam is one of a rib: both its sides are dry.
pub(super) fn of_rib(panels: &[Panel], seam: &Seam) -> bool {
    let first = panels.get(seam.panels[0]);
    first.is_some_and(|panel| panel.role == Role::Rib)
}
