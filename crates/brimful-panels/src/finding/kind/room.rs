//! Findings of a stage: the room about the tank, full and warm.

use crate::name::PanelName;
use brimful_geom::boolean::BooleanFault;
use brimful_units::Length;
use schemars::JsonSchema;
use serde::Serialize;

/// The room about the tank, full and warm.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(tag = "kind", content = "data", rename_all = "snake_case")]
pub enum RoomKind {
    /// The room before it cannot be measured.
    NotMeasured(BooleanFault),
    /// No check covers bulge and growth of a panel.
    PanelNotKnown {
        /// Whether only the quick check was run.
        quick: bool,
    },
    /// A panel takes more room than there is before it.
    PanelInterferes {
        /// By how much it grows.
        #[serde(rename = "growth_m")]
        growth: Length,
        /// By how much it bulges.
        #[serde(rename = "bulge_m")]
        bulge: Length,
        /// What ribs on it take.
        #[serde(rename = "ribs_m")]
        ribs: Length,
        /// By how much its welds stand out.
        #[serde(rename = "weld_m")]
        weld: Length,
    },
    /// No check covers bulge and growth of the panel that a fitting is on.
    FittingNotKnown {
        /// Whether only the quick check was run.
        quick: bool,
    },
    /// A fitting takes more room than there is before it.
    FittingInterferes {
        /// The panel that it is on.
        panel: PanelName,
        /// How far it stands out.
        #[serde(rename = "stands_out_m")]
        stands_out: Length,
    },
    /// How far fittings stand out is not said.
    FittingsUnstated(Vec<String>),
}

impl RoomKind {
    /// Whether it is left to the whole-tank check.
    pub fn is_not_checked_yet(&self) -> bool {
        matches!(
            self,
            Self::PanelNotKnown { quick: true } | Self::FittingNotKnown { quick: true }
        )
    }
}
