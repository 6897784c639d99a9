//! Findings of a stage: panels, their openings and the proof that they make up the body.

use crate::name::PanelName;
use brimful_geom::plate::PlateFault;
use brimful_geom::solid::SolidFault;
use brimful_units::Length;
use schemars::JsonSchema;
use serde::Serialize;

/// Panels, their openings and the proof that they make up the body.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(tag = "kind", content = "data", rename_all = "snake_case")]
pub enum PanelsKind {
    /// Inner panels whose places the job left to the rule.
    PlacedByRule {
        /// How many.
        count: usize,
        /// No bay between them is longer.
        #[serde(rename = "bay_m")]
        bay: Length,
    },
    /// A hole lies in the weld of a seam.
    HoleInWeld {
        /// The panel with the hole.
        panel: PanelName,
    },
    /// The flange of a fitting finds no flat beside a seam.
    FlangeNearWeld {
        /// The panel with the hole.
        panel: PanelName,
    },
    /// The panels could not be compared with the body.
    NotCompared,
    /// The panels do not make up the body.
    NotTheBody,
    /// The gap of a seam is not the gap asked for.
    GapOff,
    /// A panel is no plate.
    NotAPlate(PlateFault),
    /// A panel is no proper solid.
    NotASolid(SolidFault),
    /// Part of a panel is narrower than the kerf.
    Sliver,
    /// A panel sticks out of the body.
    SticksOut,
    /// A rib reaches into the body.
    RibInBody,
    /// A panel overlaps another.
    Overlap {
        /// The other.
        other: PanelName,
    },
}
