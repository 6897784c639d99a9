//! What an order of work costs and why one cannot be followed, in words.

use crate::shape_fault::FaultText;
use crate::text::Text;
use crate::words::Words;
use brimful_panels::finding::kind::{OrderCost, OrderMisfit};
use brimful_panels::name::PanelName;
use brimful_units::Length;

impl Words<'_> {
    /// What an order, or a step of it, leaves out of reach, out of sight, loose and out of square.
    pub fn order_cost(&self, cost: &OrderCost) -> Text {
        let length = |length: Length| (length > Length::ZERO).then(|| self.length(length));
        let count = |count: u32| (count > 0).then(|| Text::from(count as usize));
        let parts = [
            length(cost.unreached).map(|it| say!(self, "out of reach {length}", length = it)),
            length(cost.unseen).map(|it| say!(self, "out of sight {length}", length = it)),
            count(cost.loose).map(|it| say!(self, "set loose {count}", count = it)),
            count(cost.not_square)
                .map(|it| say!(self, "held by one seam, not square {count}", count = it)),
            count(cost.against_custom)
                .map(|it| say!(self, "pairs set against custom {count}", count = it)),
        ];
        let parts: Vec<Text> = parts.into_iter().flatten().collect();
        match parts.is_empty() {
            true => say!(self, "nothing"),
            false => Text::join(parts, "; "),
        }
    }

    /// Why an order of the panels cannot be followed, and what to do about it.
    pub fn order_misfit(&self, misfit: &OrderMisfit) -> FaultText {
        let named = |names: &[PanelName]| Text::join(names.iter().map(|it| self.panel(it)), ", ");
        match misfit {
            OrderMisfit::ShutsOut(panels) => FaultText::new(
                say!(
                    self,
                    "It sets {panels} once all about them stands, and nothing gets them in.",
                    panels = named(panels)
                ),
                say!(self, "Set inner panels before the last wall or the lid."),
            ),
            OrderMisfit::LeavesOut(panels) => FaultText::new(
                say!(self, "It leaves out {panels}.", panels = named(panels)),
                say!(
                    self,
                    "Put every panel into the order where you set it; ribs alone may be left out."
                ),
            ),
        }
    }
}
