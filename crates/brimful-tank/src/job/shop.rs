//! `[shop]`: how the shop cuts and welds, and how fast.

use brimful_units::{Angle, Length, Speed, Time};

/// How the shop cuts and welds, and how fast.
#[derive(Clone, Debug, PartialEq)]
pub struct Shop {
    /// Saw or router.
    pub cutting: Cutting,
    /// The width of a cut: the blade's, or the cutter's diameter.
    pub kerf: Length,
    /// Cut off each edge of a fresh sheet before measuring from it.
    pub trim: Length,
    /// The longest cut the saw can make across a sheet; none: no limit.
    pub crosscut: Option<Length>,
    /// The welding process.
    pub process: Process,
    /// The nozzle of the hot-gas gun.
    pub nozzle: Nozzle,
    /// The root opening left between two edges.
    pub gap: Length,
    /// The angle between the two faces of a V groove.
    pub groove_angle: Angle,
    /// Left on every welded edge for scraping and shrinkage.
    pub edge_allowance: Length,
    /// How true the cut is, either way.
    pub saw_tolerance: Length,
    /// The radius of inside corners, at least 3 mm.
    pub relief_radius: Length,
    /// How far an arm with the gun reaches past an edge.
    pub reach: Length,
    /// The room the gun needs, square to the seam.
    pub headroom: Length,
    /// How many hands there are, two to a person.
    pub hands: u8,
    /// How fast the shop works.
    pub rates: Rates,
}

/// Saw or router.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cutting {
    /// Straight cuts from edge to edge.
    Saw,
    /// Any outline.
    Router,
}

/// The welding process.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Process {
    /// Hot gas and rod.
    HotGas,
    /// Hand extruder.
    Extrusion,
}

/// The nozzle of the hot-gas gun.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Nozzle {
    /// Draws the rod along.
    Speed,
    /// Fanned by hand.
    Round,
}

/// How fast the shop works. None is published; each default says so.
#[derive(Clone, Debug, PartialEq)]
pub struct Rates {
    /// Laying one run.
    pub weld_speed: Speed,
    /// Tacking along a seam.
    pub tack_speed: Speed,
    /// Scraping and cleaning both edges of a seam, once for every run.
    pub scrape_speed: Speed,
    /// Sawing or routing along a cut.
    pub cut_speed: Speed,
    /// Marking, lifting and setting one panel.
    pub panel_time: Time,
    /// Starting and ending one run.
    pub run_time: Time,
    /// Cutting one opening and fitting what goes in it.
    pub opening_time: Time,
    /// Rod used over the net volume of the groove.
    pub rod_factor: f64,
}
