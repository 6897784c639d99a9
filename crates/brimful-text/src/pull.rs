//! How far welds pull, in words.

use crate::text::Text;
use crate::words::Words;
use brimful_panels::table::pull::InherentStrain;
use brimful_panels::weld::pull_strip::PullStrip;
use brimful_units::{Angle, Length, UnitSystem};

/// Grams in an ounce, and millimetres in an inch.
const OUNCE: f64 = 28.349_523;
const INCH: f64 = 25.4;

impl Words<'_> {
    /// By how much a bead draws in, and whether that was measured.
    pub fn drawn_in(&self, inherent: &InherentStrain) -> Text {
        let [low, likely, high] = inherent.strain.map(|it| self.number(it * 100.0, 1));
        match inherent.strain[0] == inherent.strain[2] {
            true => say!(
                self,
                "Each bead draws in by {likely} % of its length while it cools, as the shop has measured.",
                likely = likely
            ),
            false => say!(
                self,
                "Each bead draws in by {low} to {high} % of its length while it cools, most likely {likely} %: nobody has measured it on welded sheet, and a strip of the shop's own settles it.",
                low = low,
                high = high,
                likely = likely
            ),
        }
    }

    /// What is left out.
    pub fn pull_model(&self) -> Text {
        say!(
            self,
            "Worked out on the folded panels as they stand in each step, cold and free of clamps. Clamps and a flat bench that hold it until it is cold take some of it off; alternate the sides, and set the sheet against it beforehand where it matters."
        )
    }

    /// A bow: `2 to 6 mm`, or one figure where the strain was measured.
    pub fn bow(&self, bow: [Length; 3]) -> Text {
        self.ends(bow.map(|it| self.length(it)))
    }

    /// The change of an angle.
    pub fn lean(&self, lean: [Angle; 3]) -> Text {
        self.ends(lean.map(|it| self.angle(it)))
    }

    fn ends(&self, [low, _, high]: [Text; 3]) -> Text {
        match low == high {
            true => high,
            false => say!(self, "{low} to {high}", low = low, high = high),
        }
    }

    /// How the shop measures its own pull.
    pub fn pull_strip(&self, strip: &PullStrip) -> Text {
        let per_bow_and_mass = strip.strain_for_bow_and_mass();
        let (bow, mass, factor) = match self.system {
            UnitSystem::Metric => ("mm", "g", per_bow_and_mass),
            UnitSystem::Inch => ("in", "oz", per_bow_and_mass * INCH / OUNCE),
        };
        say!(
            self,
            "Pull strip: cut {width} x {length} of {thickness} sheet, lay one bead along a long edge with the rod and settings of the job, weigh it before and after, and let it cool for a day. Stand it on its edge and measure how far its middle has bowed. [shop] pull = {factor} x bow in {bow} / bead in {mass}.",
            width = self.length(strip.width),
            length = self.length(strip.length),
            thickness = self.length(strip.thickness),
            factor = self.number(factor, 4),
            bow = Text::verbatim(bow),
            mass = Text::verbatim(mass)
        )
    }
}
