//! What is laid into one seam.

use super::groove::{GrooveKind, Preparation, run_sections};
use super::laying::{RunRod, SpeedBound};
use super::side::WeldSide;
use crate::panel::{Panel, Role};
use crate::seam::Seam;
use crate::table::welding::Tool;
use brimful_geom::polygon::Outline;
use brimful_geom::vector::Point2;
use brimful_job::{Process, Shop};
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
    /// Short runs through corners, where they are laid with another tool than the long ones.
    pub short_runs: Option<ShortRuns>,
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

/// Short runs through corners by hot gas with the round nozzle, where another tool lays the long ones.
#[derive(Clone, Debug, PartialEq)]
pub struct ShortRuns {
    /// From where to where along the seam each lies; no two overlap.
    pub stretches: Vec<[Length; 2]>,
    /// How many, one on the other, fill the section.
    pub runs: usize,
    /// How fast they are laid.
    pub speed: Speed,
    /// How many of the stretches are begun here; the others go on from another seam through their corner.
    pub begun: usize,
}

impl ShortRuns {
    /// Length of all of them together, one on the other.
    pub fn laid(&self) -> Length {
        self.length() * self.runs as f64
    }

    /// Length of all stretches.
    pub fn length(&self) -> Length {
        let stretches = self.stretches.iter();
        stretches.map(|[from, to]| *to - *from).sum()
    }
}

impl SeamWeld {
    /// What it is laid with, but for its short runs.
    pub fn tool(&self, shop: &Shop) -> Tool {
        match self.process == shop.process {
            true => Tool::of(shop),
            false => Tool::RoundNozzle,
        }
    }

    /// Length of all long runs together.
    pub fn laid(&self) -> Length {
        self.long_length() * self.runs as f64
    }

    /// Length of each long run: what short ones through corners leave of the weld.
    pub fn long_length(&self) -> Length {
        let short = self.short_runs.as_ref();
        let short = short.map_or(Length::ZERO, ShortRuns::length);
        (self.length - short).max(Length::ZERO)
    }

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

    /// How long laying one long run takes.
    pub fn run_time(&self) -> Time {
        self.long_length() / self.speed
    }
}

/// Whether a seam is one of a rib: both its sides are dry.
pub(super) fn of_rib(panels: &[Panel], seam: &Seam) -> bool {
    let first = panels.get(seam.panels[0]);
    first.is_some_and(|panel| panel.role == Role::Rib)
}
