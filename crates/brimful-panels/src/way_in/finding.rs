//! What is found of the way in of a tank.

use super::{Entry, EntrySummary, Passage, TankEntry};
use crate::finding::kind::WayInKind;
use crate::finding::{Finding, Grade, Part, Quantity, Subject};
use brimful_units::Length;

impl TankEntry {
    /// Whether it gets in, and how.
    pub fn finding(&self) -> Finding {
        let of = |grade, kind| Finding::of(grade, Subject::Part(Part::WayIn), kind);
        let stop = |kind| of(Grade::Stop, kind);
        match self.entry.summary() {
            EntrySummary::Pieces(pieces) => stop(WayInKind::InPieces {
                pieces,
                fittings: self.pieces.clone(),
            }),
            EntrySummary::NotFound(why) => stop(WayInKind::NotFound(why)),
            entry if !self.must_come_off.is_empty() => stop(WayInKind::FittingsMustComeOff {
                entry,
                fittings: self.must_come_off.clone(),
            }),
            entry => {
                let grade = match self.fittings.unstated.is_empty() {
                    true => Grade::Note,
                    // Not shown for the tank as it is to be moved.
                    false => Grade::Mend,
                };
                let fittings = self.fittings.clone();
                of(grade, WayInKind::GoesIn { entry, fittings }).figures(
                    Quantity::Length(self.entry.margin()),
                    Quantity::Length(Length::ZERO),
                )
            }
        }
    }
}

impl Entry {
    /// What is left of the opening, or the least air, on the way of a body that goes in whole.
    fn margin(&self) -> Length {
        self.passage()
            .map_or(Length::ZERO, |passage: &Passage| passage.margin)
    }
}
