//! What a tank holds: capacities, how full it is when it is weighed, where it is dipped.

use crate::text::Text;
use crate::words::Words;
use brimful_job::Capacity;
use brimful_panels::gauge::DipUnder;
use brimful_tank::mass::MassStateKind;

impl Words<'_> {
    /// One of the three capacities.
    pub fn capacity(&self, capacity: Capacity) -> Text {
        match capacity {
            Capacity::Brim => say!(self, "brim"),
            Capacity::Rated => say!(self, "rated"),
            Capacity::Usable => say!(self, "usable"),
        }
    }

    /// How full a tank is that is weighed.
    pub fn mass_state(&self, kind: MassStateKind) -> Text {
        match kind {
            MassStateKind::Empty => say!(self, "empty"),
            MassStateKind::Rated => say!(self, "rated"),
            MassStateKind::Brim => say!(self, "brim"),
            MassStateKind::Worst => say!(self, "worst"),
        }
    }

    /// What a dip is taken under.
    pub fn dip_under(&self, under: &DipUnder) -> Text {
        match under {
            DipUnder::Opening(name) => self.given(name),
            DipUnder::MiddleOfPlan => say!(self, "middle of the plan"),
        }
    }
}
