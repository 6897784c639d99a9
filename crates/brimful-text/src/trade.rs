//! The trade's words for what a plan holds.

use crate::text::Text;
use crate::words::Words;
use brimful_job::{Duty, GoesOn, Service};
use brimful_panels::panel::{Panel, Role};
use brimful_panels::seam::{Joint, Seam};
use brimful_strength::whole::Whole;
use brimful_units::Angle;

impl Words<'_> {
    /// A panel by its mark and its name.
    pub fn marked(&self, panel: &Panel) -> Text {
        let mark = self.symbol(&panel.mark);
        say!(
            self,
            "{mark} {name}",
            mark = mark,
            name = self.panel(&panel.name)
        )
    }

    /// What a panel is.
    pub fn role(&self, role: Role) -> Text {
        match role {
            Role::Floor => say!(self, "floor"),
            Role::Lid => say!(self, "lid"),
            Role::Wall => say!(self, "wall"),
            Role::Baffle => say!(self, "baffle"),
            Role::Divider => say!(self, "divider"),
            Role::Stay => say!(self, "stay"),
            Role::Rib => say!(self, "rib"),
        }
    }

    /// How two panels meet.
    pub fn joint(&self, joint: Joint) -> Text {
        match joint {
            Joint::OpenCorner => say!(self, "open corner"),
            Joint::ThroughAndButt { .. } => say!(self, "through and butt"),
            Joint::Mitred => say!(self, "mitred corner"),
            Joint::Tee => say!(self, "tee"),
            Joint::SlotThrough => say!(self, "slot-through"),
            Joint::Butt => say!(self, "butt"),
        }
    }

    /// How the panels of a seam meet, and which of them runs through.
    pub fn joint_of(&self, seam: &Seam, panels: &[Panel]) -> Text {
        let joint = self.joint(seam.joint);
        let Joint::ThroughAndButt { through } = seam.joint else {
            return joint;
        };
        match panels.get(through) {
            None => joint,
            Some(panel) => say!(
                self,
                "{joint} ({mark} through)",
                joint = joint,
                mark = self.symbol(&panel.mark)
            ),
        }
    }

    /// What the tank does.
    pub fn duty(&self, duty: Duty) -> Text {
        match duty {
            Duty::Standing => say!(self, "standing"),
            Duty::Road => say!(self, "road"),
            Duty::Afloat => say!(self, "afloat"),
        }
    }

    /// What a fitting is for.
    pub fn service(&self, service: Service) -> Text {
        self.data(service.word())
    }

    /// When a fitting goes on.
    pub fn goes_on(&self, goes_on: GoesOn) -> Text {
        self.data(goes_on.word())
    }

    /// How far an edge is tilted from square.
    pub fn edge_cut(&self, bevel: Angle) -> Text {
        /// A twentieth of a degree is less than a saw's tilt can be set to.
        const SQUARE: f64 = 9e-4;
        let tilt = self.angle(Angle::from_rad(bevel.rad().abs()));
        if bevel.rad().abs() < SQUARE {
            say!(self, "square")
        } else if bevel.rad() > 0.0 {
            say!(self, "{tilt} off square, outside face longer", tilt = tilt)
        } else {
            say!(self, "{tilt} off square, inside face longer", tilt = tilt)
        }
    }

    /// What could not be worked out.
    pub fn not_known(&self) -> Text {
        say!(self, "not known")
    }

    /// What the job does not say.
    pub fn not_stated(&self) -> Text {
        say!(self, "not stated")
    }

    /// Instead of a use that is no number.
    pub fn no_number(&self) -> Text {
        say!(self, "no number")
    }

    /// Why supports bear more than the tank weighs.
    pub fn borne_more(&self) -> Text {
        say!(
            self,
            "Supports are taken to bear somewhat more than the tank weighs: it is as full as its strength is checked for, and not to its rated capacity; the liquid presses as far out as the middles of the sheets; and bulged walls hold more."
        )
    }

    /// That what supports bear is not known under loads that no answer was found for; none where there are none.
    pub fn borne_unknown(&self, whole: &Whole) -> Option<Text> {
        let unanswered = whole.unanswered;
        (unanswered > 0).then(|| {
            say!(self, "Loads that no answer was found for: {count}. What they press on the supports is not known, and may be more than is shown: build to none of these figures.", count = unanswered)
        })
    }

    /// Instead of the room before a fitting that goes through what is beside the tank.
    pub fn goes_through(&self) -> Text {
        say!(self, "goes through")
    }

    /// Yes or no.
    pub fn yes_no(&self, yes: bool) -> Text {
        if yes {
            say!(self, "yes")
        } else {
            say!(self, "no")
        }
    }
}
