//! How the edges of a seam are prepared, in words.

use brimful_units::{Angle, Length, UnitSystem, show};

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
    /// In words.
    pub fn text(self, system: UnitSystem) -> String {
        let angle = |angle: Angle| format!("{:.0} deg", angle.deg());
        let small = |length: Length| show::small_length(length, system);
        match self {
            Self::OpenV(to) => format!("square edges, open V of {}", angle(to)),
            Self::Chamfered { double, to } => {
                let what = if double { "double V" } else { "V" };
                format!("both edges chamfered to a {what} of {}", angle(to))
            }
            Self::Bevelled { to, depth } => {
                format!(
                    "butting edge opened to {}, {} deep",
                    angle(to),
                    small(depth)
                )
            }
            Self::Fillet { throat } => {
                format!("square corner, fillet with a throat of {}", small(throat))
            }
            Self::Slot { to, depth } => format!(
                "slot bevelled {} to {} deep from outside",
                angle(to),
                small(depth)
            ),
        }
    }
}
