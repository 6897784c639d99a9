//! What long work is at.

use crate::text::Text;
use crate::words::Words;
use brimful_panels::progress::Step;

impl Words<'_> {
    /// A step of long work in a few words.
    pub fn progress(&self, step: &Step) -> Text {
        match step {
            Step::Strength { loads, triangles } => match loads {
                1 => say!(
                    self,
                    "strength: 1 load on a mesh of {triangles} triangles",
                    triangles = *triangles
                ),
                loads => say!(
                    self,
                    "strength: {loads} loads on a mesh of {triangles} triangles",
                    loads = *loads,
                    triangles = *triangles
                ),
            },
            Step::TryingVariant(variant) => {
                say!(self, "trying {variant}", variant = self.variant(variant))
            }
            Step::CheckingChange(what) => {
                say!(self, "checking in full: {what}", what = self.change(what))
            }
            Step::TryingChange(what) => say!(self, "trying: {what}", what = self.change(what)),
            Step::FindingBodies => say!(self, "looking for bodies that fit"),
            Step::LayingOutBodies { count: 1 } => say!(self, "laying out 1 body"),
            Step::LayingOutBodies { count } => {
                say!(self, "laying out {count} bodies", count = *count)
            }
            Step::Gains => say!(self, "working out ways to hold more"),
            Step::Papers => say!(self, "drawing and printing the pack"),
        }
    }
}
