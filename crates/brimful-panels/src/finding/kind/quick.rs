//! Findings of a stage: the quick strength check.

use crate::case::CaseId;
use crate::name::HoleName;
use crate::table::NotCovered;
use brimful_mech::plate;
use schemars::JsonSchema;
use serde::Serialize;

/// The quick strength check.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(tag = "kind", content = "data", rename_all = "snake_case")]
pub enum QuickKind {
    /// No table covers a load case.
    CaseNotCovered(NotCovered),
    /// The published coefficients do not cover a panel.
    PanelNotCovered(Uncovered),
    /// A panel lies flat on what carries the tank.
    Carried,
    /// What an event throws against a baffle is not covered.
    Baffle,
    /// A span bends by more than the theory covers.
    TooDeep {
        /// Under which load.
        case: CaseId,
    },
    /// A stress is over what is allowed.
    OverLimit {
        /// Where.
        at: Governs,
        /// Under which load.
        case: CaseId,
    },
    /// A span bulges more than the job allows.
    Bulge {
        /// Under which load.
        case: CaseId,
    },
    /// The stress at the rim of an opening may be over what is allowed.
    RimOfOpening,
    /// What straps do is not covered.
    Straps,
    /// The stress round openings is not in the coefficients.
    Openings,
    /// What stands on the lid is not covered.
    LidLoad,
    /// What the check takes for granted.
    Assumptions,
}

impl QuickKind {
    /// Whether it says that something is beyond the quick check: no verdict on it, but that the whole-tank
    /// check has yet to give one.
    pub fn is_not_checked_yet(&self) -> bool {
        matches!(
            self,
            Self::PanelNotCovered(_)
                | Self::Baffle
                | Self::TooDeep { .. }
                | Self::RimOfOpening
                | Self::Straps
                | Self::LidLoad
        )
    }
}

/// Why the published coefficients do not cover a panel.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Uncovered {
    /// A stay or a rib: no plate under pressure.
    StripOfSheet,
    /// It is made of pieces joined in line.
    Parted,
    /// Its wetted face is not a rectangle.
    NotARectangle,
    /// An opening is larger than half the span.
    LargeOpening(HoleName),
    /// It stands on feet.
    OnFeet,
    /// It hangs in straps.
    InStraps,
    /// Its rails run at a slant to its edges.
    SlantingRails,
    /// No row of the tables is for this plate; the number of the span, where there are several.
    Plate(Option<usize>, plate::NotCovered),
}

/// Where a span is nearest to its limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Governs {
    /// In the middle of the sheet, edges taken as hinged.
    Sheet,
    /// At the weld along an edge, edges taken as clamped.
    Weld,
}
