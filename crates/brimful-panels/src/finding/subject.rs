//! What a finding is about.

use crate::case::CaseId;
use crate::name::{CandidateName, CompartmentId, PanelName};
use schemars::JsonSchema;
use serde::Serialize;

/// The part of a tank or of its job that a finding is about.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Subject {
    /// A part of every tank or job.
    Part(Part),
    /// A panel.
    Panel(PanelName),
    /// Several panels.
    Panels(Vec<PanelName>),
    /// One of the spans that the quick check sees a panel as, counted from 1.
    Span(PanelName, usize),
    /// A seam, by its mark and the panels it joins.
    Seam(String, [PanelName; 2]),
    /// Seams, by their marks.
    Seams(Vec<String>),
    /// An opening, by its name in the job.
    Opening(String),
    /// An inner panel, a rib or an obstacle, by its name in the job.
    Named(String),
    /// A load case.
    Case(CaseId),
    /// A body that fits the space.
    Candidate(CandidateName),
    /// A room for liquid.
    Compartment(CompartmentId),
    /// The vents of a room for liquid.
    Vent(CompartmentId),
    /// The overflows of a room for liquid.
    Overflow(CompartmentId),
    /// How a room for liquid is filled.
    Filling(CompartmentId),
}

/// A part of every tank or job.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Part {
    /// What the job leaves to be chosen.
    Auto,
    /// Axles and coupling of the vehicle.
    Axles,
    /// All baffles.
    Baffles,
    /// The tank's outside.
    Body,
    /// How much it holds.
    Capacity,
    /// How the sheets are cut.
    CutLayout,
    /// What the road does.
    Events,
    /// Bodies offered for a space.
    Fit,
    /// All fittings.
    Fittings,
    /// Frost.
    Freezing,
    /// Ways in for a hand.
    Hatches,
    /// The lid.
    Lid,
    /// What goes in.
    Liquid,
    /// All openings.
    Openings,
    /// The order of work.
    OrderOfWork,
    /// All panels.
    Panels,
    /// What the vehicle may carry.
    Payload,
    /// The quick strength check.
    QuickCheck,
    /// What it costs.
    Quote,
    /// Changes that would make it hold.
    Remedies,
    /// Rod on hand.
    Rod,
    /// All seams.
    Seams,
    /// The measured hole.
    Space,
    /// Sheets on hand.
    Stock,
    /// Whether it holds.
    Strength,
    /// What carries the tank.
    Support,
    /// How it gets to its place.
    WayIn,
    /// How fast the shop welds.
    WeldingSpeed,
}
