//! How the edges of a seam are prepared.

use brimful_units::{Angle, Length};

/// How the edges are prepared for one weld.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Preparation {
    /// Square edges that stand open by an angle.
    OpenV(Angle),
    /// Both edges chamfered to a V, or from both sides.
    Chamfered {
        /// Whether it is from both sides.
        double: bool,
        /// The angle between the two faces.
        to: Angle,
    },
    /// The edge of the butting sheet bevelled.
    Bevelled {
        /// The angle that it opens by.
        to: Angle,
        /// How deep.
        depth: Length,
    },
    /// Nothing: a fillet in the corner.
    Fillet {
        /// Its throat.
        throat: Length,
    },
    /// The slot bevelled from outside.
    Slot {
        /// The angle of the bevel.
        to: Angle,
        /// How deep.
        depth: Length,
    },
}

impl Preparation {
    /// How many edges are opened for it: of a V both, of a half V the one that butts.
    pub const fn edges(self) -> usize {
        match self {
            Self::OpenV(_) | Self::Fillet { .. } => 0,
            Self::Bevelled { .. } | Self::Slot { .. } => 1,
            Self::Chamfered { .. } => 2,
        }
    }
}
