//! The room about a tank, full and warm.

use crate::text::Text;
use crate::words::Words;
use brimful_panels::growth::WELDED;
use brimful_tank::room::RoomAssumption;

impl Words<'_> {
    /// What the room about a tank takes for granted, in a sentence.
    pub fn room_assumption(&self, assumption: RoomAssumption) -> Text {
        match assumption {
            RoomAssumption::Growth { kelvin } => say!(
                self,
                "Growth is over {warming}, from the coldest to the warmest of the liquid and a workshop at {welded}, from the middle of the tank's foot; what holds the tank at one side puts the growth of both sides on the other.",
                warming = self.warming(kelvin),
                welded = self.temperature(WELDED)
            ),
            RoomAssumption::NoSwelling => {
                say!(self, "The sheet's slow swelling and ageing are not in it.")
            }
            RoomAssumption::FittingsWithinFlat => say!(
                self,
                "Each fitting is taken as no wider than the flat it covers: what reaches past that, as an elbow, a hose or the swing of a hatch, needs a zone that is kept free."
            ),
        }
    }
}
