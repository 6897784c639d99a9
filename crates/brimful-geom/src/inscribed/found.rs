//! What a search for the largest box comes to.

use crate::boolean::BooleanFault;
use crate::frame::Frame;
use crate::polygon::Outline;
use crate::solid::Solid;
use crate::vector::Vec3;
use schemars::JsonSchema;
use serde::Serialize;
use std::fmt;

/// A largest thing found, with what is proven about larger ones.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Inscribed<T> {
    /// What was found.
    pub best: T,
    /// Its area, m2, or volume, m3.
    pub size: f64,
    /// No other is larger than this.
    pub bound: f64,
}

impl<T> Inscribed<T> {
    /// How much larger another could be, as a share of the bound.
    pub fn gap(&self) -> f64 {
        1.0 - self.size / self.bound
    }
}

/// A box in any attitude.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TurnedBox {
    /// One corner, with the box's edges along the axes.
    pub frame: Frame,
    /// Lengths of the edges, metres.
    pub size: Vec3,
}

impl TurnedBox {
    /// The box as a solid.
    pub fn solid(&self) -> Solid {
        Solid::prism(
            &Outline::rectangle(self.size.x, self.size.y),
            &self.frame,
            0.0,
            self.size.z,
        )
    }
}

impl Inscribed<Option<TurnedBox>> {
    /// The box, if there is one.
    pub(super) fn found(self) -> Option<Inscribed<TurnedBox>> {
        let Self { best, size, bound } = self;
        best.map(|best| Inscribed { best, size, bound })
    }
}

/// Why no box is given.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum InscribedFault {
    /// What the box must keep out of could not be cut into convex parts: the solid is not a proper one.
    Parts,
    /// The solid has too little room, or none was found within the search's limits.
    NoRoom,
    /// The box that was found is not inside the solid: the solid is not a proper one.
    Outside,
    /// Whether the box that was found is inside the solid could not be checked.
    Unchecked(BooleanFault),
}

impl fmt::Display for InscribedFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Parts => write!(f, "the room round the solid cannot be parted"),
            Self::NoRoom => write!(f, "no box was found inside the solid"),
            Self::Outside => write!(f, "the box found is not inside the solid"),
            Self::Unchecked(fault) => {
                write!(
                    f,
                    "whether the box found is inside the solid is not known: {fault}"
                )
            }
        }
    }
}

impl std::error::Error for InscribedFault {}

impl From<BooleanFault> for InscribedFault {
    fn from(fault: BooleanFault) -> Self {
        Self::Unchecked(fault)
    }
}
