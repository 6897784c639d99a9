//! The heat of the welds: how deep faces melt, and how long beads cool.

use crate::text::Text;
use crate::words::Words;
use brimful_panels::weld::heat::{Heat, ROOM};
use brimful_units::{Length, UnitSystem};

impl Words<'_> {
    /// How deep the faces melt at the shop's speed.
    pub fn melted(&self, heat: &Heat) -> Text {
        let [least, likely, greatest] = heat.melted.map(|depth| self.depth(depth));
        say!(
            self,
            "At {speed} the faces melt {least} to {greatest} deep, most likely {likely}; it has to be {asked}. Cut a coupon across and look.",
            speed = self.speed(heat.speed),
            least = least,
            likely = likely,
            greatest = greatest,
            asked = self.depth(heat.asked)
        )
    }

    /// How it was worked out.
    pub fn heat_model(&self) -> Text {
        say!(
            self,
            "Worked out by conduction with melting; what is least sure is how well the gas heats. Beads cool in still air at {room}, taken as hot right through the sheet, which makes the time rather too long.",
            room = self.temperature(ROOM)
        )
    }

    /// Hundredths of a millimetre, or thousandths of an inch.
    fn depth(&self, depth: Length) -> Text {
        match self.system {
            UnitSystem::Metric => {
                Text::join([self.number(depth.mm(), 2), Text::verbatim("mm")], " ")
            }
            UnitSystem::Inch => {
                Text::join([self.number(depth.inches(), 3), Text::verbatim("in")], " ")
            }
        }
    }
}
