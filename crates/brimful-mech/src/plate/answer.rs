//! What the tables say of a plate, or why they do not.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use std::fmt;

/// What the pressure does to the plate, each the largest anywhere.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Bending {
    /// Deflection, metres.
    #[serde(rename = "deflection_m")]
    pub deflection: f64,
    /// Moment a metre in the field.
    #[serde(rename = "field_moment_n")]
    pub field_moment: f64,
    /// Moment a metre on the edges; zero where they are hinged.
    #[serde(rename = "edge_moment_n")]
    pub edge_moment: f64,
    /// Bending stress in the field, pascals.
    #[serde(rename = "field_stress_pa")]
    pub field_stress: f64,
    /// Bending stress on the edges, pascals.
    #[serde(rename = "edge_stress_pa")]
    pub edge_stress: f64,
    /// Where each coefficient comes from: flag and source, without repeats.
    #[serde(skip)]
    pub sources: Vec<(Flag, &'static str)>,
}

/// How sure a number is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Flag {
    /// Read in the source named.
    Seen,
    /// Recalled from the source named.
    #[serde(rename = "from memory")]
    FromMemory,
    /// Worked out by the method named.
    Computed,
}

/// Why the tables do not answer.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
#[schemars(rename = "PlateNotCovered")]
pub enum NotCovered {
    /// A size, a stiffness or a load is not a number, or not above (for a load: below) zero.
    BadNumber(&'static str),
    /// The plate is flatter or slenderer than any row.
    Shape {
        /// Height over width.
        ratio: f64,
        /// The least ratio covered.
        from: f64,
        /// The greatest.
        to: f64,
    },
    /// No table for this Poisson's ratio.
    Poisson {
        /// The ratio asked for.
        ratio: f64,
    },
    /// No table for this load on these edges.
    Load,
    /// The plate bends by more than half its thickness; what the tables say all the same.
    TooDeep {
        /// The values, which are too large: membrane forces would hold the plate back.
        bending: Bending,
        /// Half the thickness, metres.
        #[serde(rename = "limit_m")]
        limit: f64,
    },
}

impl fmt::Display for NotCovered {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::BadNumber(what) => {
                write!(f, "the {what} of the plate is not a number above zero")
            }
            Self::Shape { ratio, from, to } => {
                write!(
                    f,
                    "height over width is {ratio:.3}, and the tables go from {from:.3} to {to:.3}"
                )
            }
            Self::Poisson { ratio } => {
                write!(f, "no table is given for a Poisson's ratio of {ratio:.3}")
            }
            Self::Load => write!(
                f,
                "no table is given for a pressure that changes sideways under a free top"
            ),
            Self::TooDeep { bending, limit } => write!(
                f,
                "the plate would bend by {:.2} mm, and plate theory ends at half the thickness, {:.2} mm",
                bending.deflection * 1e3,
                limit * 1e3
            ),
        }
    }
}

impl std::error::Error for NotCovered {}
