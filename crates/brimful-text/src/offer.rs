//! Bodies offered for a space: what each takes of its room, what it gives up, and what would bring more.

use crate::text::Text;
use crate::words::Words;
use brimful_panels::finding::kind::{NoRoomToGrow, NotOffered};
use brimful_tank::offer::{FullSize, GainChange, Interference, LeftOut, Trade};

impl Words<'_> {
    /// What a body gives up against the largest, in a clause.
    pub fn gives_up(&self, trade: Option<&Trade>) -> Text {
        match trade {
            None => say!(self, "nothing: it holds most"),
            Some(trade) => {
                // The price is that of the smaller body.
                let back = Trade {
                    panels: -trade.panels,
                    seams: trade.seams.map(|seams| -seams),
                    ..trade.clone()
                };
                say!(
                    self,
                    "{litres} against `{other}`, for {price}",
                    litres = self.volume(trade.rated),
                    other = self.candidate(&trade.other),
                    price = self.price(&back)
                )
            }
        }
    }

    /// What the next larger body gains, in a clause.
    pub fn next_gains(&self, trade: &Trade) -> Text {
        say!(
            self,
            "`{other}` gains {litres} for {price}",
            other = self.candidate(&trade.other),
            litres = self.volume(trade.rated),
            price = self.price(trade)
        )
    }

    fn price(&self, trade: &Trade) -> Text {
        let seams = trade.seams.map(|seams| {
            let run = self.long_length(seams.abs());
            match seams.m() > 0.0 {
                true => say!(self, "{run} of seam more", run = run),
                false => say!(self, "{run} of seam less", run = run),
            }
        });
        match (self.more_panels(trade.panels), seams) {
            (Some(panels), Some(seams)) => {
                say!(self, "{panels} and {seams}", panels = panels, seams = seams)
            }
            (panels, seams) => panels
                .or(seams)
                .unwrap_or_else(|| say!(self, "the same panels and seams")),
        }
    }

    fn more_panels(&self, more: isize) -> Option<Text> {
        let n = more.unsigned_abs();
        match (n, more > 0) {
            (0, _) => None,
            (1, true) => Some(say!(self, "1 panel more")),
            (1, false) => Some(say!(self, "1 panel fewer")),
            (n, true) => Some(say!(self, "{n} panels more", n = n)),
            (n, false) => Some(say!(self, "{n} panels fewer", n = n)),
        }
    }

    /// What a body takes of its room when it is full and warm, in the rest of a sentence about it.
    pub fn full_size(&self, full: &FullSize) -> Text {
        let mut said = match full.interference() {
            Interference::Clear => say!(self, "keeps off what is beside it"),
            Interference::Doubtful => say!(self, "may bear on what is beside it"),
            Interference::Interferes => say!(self, "bears on what is beside it"),
            Interference::Unknown => say!(self, "may keep off what is beside it or not"),
        };
        if let Some(worst) = &full.worst {
            let [clamped, hinged] = worst.takes().map(|taken| self.length(taken));
            said = say!(
                self,
                "{said}: `{side}` takes {clamped} (edges clamped) to {hinged} (hinged) of the {gap} before it",
                said = said,
                side = self.panel(&worst.side),
                clamped = clamped,
                hinged = hinged,
                gap = self.length(worst.gap)
            );
        }
        if !full.as_in_job {
            said = say!(
                self,
                "{said}, without the baffles and fittings of the job, which find no place in it",
                said = said
            );
        }
        match full.unknown {
            0 => said,
            1 => say!(
                self,
                "{said}; of one side the strength check alone can tell",
                said = said
            ),
            more => say!(
                self,
                "{said}; of {more} sides the strength check alone can tell",
                said = said,
                more = more
            ),
        }
    }

    /// A change that brings more litres, in a sentence.
    pub fn gain(&self, change: &GainChange) -> Text {
        match change {
            GainChange::WithoutObstacle(name) => {
                say!(self, "Take out `{name}`.", name = self.given(name))
            }
            GainChange::WithoutZone(name) => say!(
                self,
                "Give up the free zone `{name}`.",
                name = self.given(name)
            ),
            GainChange::AnotherWayIn => say!(
                self,
                "Bring it in another way: an opening that limits nothing, or from above."
            ),
            GainChange::HigherOpening { by } => say!(
                self,
                "Make the opening on the way in {by} higher.",
                by = self.length(*by)
            ),
            GainChange::WithoutObstaclesAnotherWayIn => {
                say!(self, "Take out every obstacle and bring it in another way.")
            }
            GainChange::OnlyClearanceAbove { instead_of } => say!(
                self,
                "Keep only the clearance above, not {kept}.",
                kept = self.length(*instead_of)
            ),
            GainChange::OnBottom { instead_of } => say!(
                self,
                "Let it stand on the bottom, without {kept} below.",
                kept = self.length(*instead_of)
            ),
            GainChange::HalfClearance(half) => say!(
                self,
                "Keep half the clearance, {half}, if bulge leaves it.",
                half = self.length(*half)
            ),
            GainChange::TwoTriangles => say!(
                self,
                "Face twisted sides with two triangles each, a panel and a seam more a side."
            ),
            GainChange::HalfAirSpace(half) => say!(
                self,
                "Leave half the air space, {half}.",
                half = self.length(*half)
            ),
            GainChange::ThinnerSheet(thickness) => say!(
                self,
                "Use sheet of {thickness}, if it is strong enough.",
                thickness = self.thickness(*thickness)
            ),
        }
    }

    /// Why a body that was looked at is not offered, in a clause.
    pub fn left_out_body(&self, why: &LeftOut) -> Text {
        match why {
            LeftOut::NotOffered(why) => self.not_offered(why),
            LeftOut::NotLaidOut(why) => say!(
                self,
                "cannot be built: {why}",
                why = self.not_laid_out(why).without_stop()
            ),
            LeftOut::Beaten(other) => say!(
                self,
                "`{other}` is no worse in anything",
                other = self.candidate(other)
            ),
        }
    }

    /// Why a body is not offered, in the rest of a sentence about it.
    pub(crate) fn not_offered(&self, why: &NotOffered) -> Text {
        match why {
            NotOffered::NoRoomToGrow(why) => say!(
                self,
                "bears when warm, and how it is to be made smaller was not found ({why})",
                why = self.no_room_to_grow(why)
            ),
            NotOffered::SheetTooThick { thickness, fault } => say!(
                self,
                "cannot be built: sheet of {thickness} is too thick for it ({fault})",
                thickness = self.thickness(*thickness),
                fault = self.offset_fault(fault)
            ),
            NotOffered::NoWayIn(why) => {
                say!(self, "does not get in: {why}", why = self.no_way(why))
            }
            NotOffered::NoPieces => say!(self, "cannot be built: it falls into no pieces"),
            NotOffered::PanelsNotLaidOut => {
                say!(self, "cannot be built: its panels cannot be laid out")
            }
            NotOffered::Cancelled => say!(self, "was not looked at: it is no longer wanted"),
        }
    }

    fn no_room_to_grow(&self, why: &NoRoomToGrow) -> Text {
        match why {
            NoRoomToGrow::NotMeasured(fault) => self.boolean_fault(fault),
            NoRoomToGrow::NotMoved(fault) => self.offset_fault(fault),
            NoRoomToGrow::SideGone => say!(self, "nothing would be left of a side"),
            NoRoomToGrow::NotConverged => say!(self, "it does not converge"),
        }
    }
}
