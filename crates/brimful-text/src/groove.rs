//! Welds across the seam: their grooves, how the edges are prepared, from which side they are laid.

use crate::text::Text;
use crate::words::Words;
use brimful_panels::weld::WeldSide;
use brimful_panels::weld::groove::{GrooveKind, NoSection, Preparation};
use brimful_units::Angle;
use brimful_units::show::decimal;

impl Words<'_> {
    /// What a weld looks like across the seam.
    pub fn groove(&self, kind: GrooveKind) -> Text {
        match kind {
            GrooveKind::V => say!(self, "V"),
            GrooveKind::HalfV => say!(self, "half V"),
            GrooveKind::DoubleV => say!(self, "double V"),
            GrooveKind::Fillet => say!(self, "fillet"),
            GrooveKind::Plug => say!(self, "plug"),
        }
    }

    /// The side of the tank that a weld is laid from.
    pub fn weld_side(&self, side: WeldSide) -> Text {
        match side {
            WeldSide::Inside => say!(self, "inside"),
            WeldSide::Outside => say!(self, "outside"),
        }
    }

    /// How the edges are prepared.
    pub fn preparation(&self, preparation: Preparation) -> Text {
        match preparation {
            Preparation::OpenV(to) => {
                say!(self, "square edges, open V of {to}", to = planed_to(to))
            }
            Preparation::Chamfered { double: false, to } => say!(
                self,
                "both edges chamfered to a V of {to}",
                to = planed_to(to)
            ),
            Preparation::Chamfered { double: true, to } => say!(
                self,
                "both edges chamfered to a double V of {to}",
                to = planed_to(to)
            ),
            Preparation::Bevelled { to, depth } => say!(
                self,
                "butting edge opened to {to}, {depth} deep",
                to = planed_to(to),
                depth = self.thickness(depth)
            ),
            Preparation::Fillet { throat } => say!(
                self,
                "square corner, fillet with a throat of {throat}",
                throat = self.thickness(throat)
            ),
            Preparation::Slot { to, depth } => say!(
                self,
                "slot bevelled {to} to {depth} deep from outside",
                to = planed_to(to),
                depth = self.thickness(depth)
            ),
        }
    }

    /// Why a joint has no groove, in a clause.
    pub(crate) fn no_section(&self, reason: NoSection) -> Text {
        match reason {
            NoSection::Angle => say!(
                self,
                "its sheets meet at too flat or too sharp an angle for this joint"
            ),
            NoSection::Size => say!(self, "a thickness, gap or angle is not a number above zero"),
        }
    }
}

/// The angle of a groove: a plane is set to no less than a degree.
fn planed_to(angle: Angle) -> Text {
    Text::verbatim(format!("{} deg", decimal(angle.deg(), 0)))
}
