//! Bodies that fit a space: what they are called, and what they give up of the room.

use crate::text::Text;
use crate::words::Words;
use brimful_job::Side;
use brimful_panels::candidate::GivenUp;
use brimful_panels::finding::kind::{LargestBox, Unsearched};
use brimful_panels::name::{CandidateName, CandidateShape, View};

impl Words<'_> {
    /// What a body that fits is called.
    pub fn candidate(&self, name: &CandidateName) -> Text {
        let mut said = self.candidate_shape(name.shape);
        if let Some(piece) = name.space_piece {
            said = say!(self, "{name} in piece {piece}", name = said, piece = piece);
        }
        if name.in_pieces {
            said = say!(self, "{name}, in pieces", name = said);
        }
        match name.number {
            1 => said,
            number => say!(self, "{name} {number}", name = said, number = number),
        }
    }

    fn candidate_shape(&self, shape: CandidateShape) -> Text {
        match shape {
            CandidateShape::EveryFacet => say!(self, "every facet"),
            CandidateShape::PlainBox => say!(self, "plain box"),
            CandidateShape::TurnedBox => say!(self, "turned box"),
            CandidateShape::Letter(letter, view) => {
                let letter = self.data(letter.key());
                match view {
                    View::Above => letter,
                    View::Front => say!(self, "{letter} from the front", letter = letter),
                    View::Side => say!(self, "{letter} from the side", letter = letter),
                }
            }
            CandidateShape::Wedge => say!(self, "wedge"),
            CandidateShape::LeaningBox => say!(self, "leaning box"),
            CandidateShape::Convex(n) => say!(self, "convex, {n} faces", n = n),
            CandidateShape::Faces(n) => say!(self, "{n} faces", n = n),
        }
    }

    /// What was given up of the room for a body, in clauses; empty where nothing was.
    pub fn given_up(&self, all: &[GivenUp]) -> Text {
        Text::join(all.iter().map(|one| self.one_given_up(one)), ", ")
    }

    /// The same, or that it takes all the room.
    pub fn given_up_or_none(&self, all: &[GivenUp]) -> Text {
        match all {
            [] => say!(self, "takes all the room there is"),
            all => self.given_up(all),
        }
    }

    fn one_given_up(&self, given_up: &GivenUp) -> Text {
        match given_up {
            GivenUp::PassingWhole => say!(
                self,
                "takes all the room there is, and does not pass the way in whole"
            ),
            GivenUp::ToPassWayIn => say!(self, "trimmed to pass the way in"),
            GivenUp::LargestBox => say!(self, "the largest box along the space"),
            GivenUp::LargestTurnedBox { angle, gap } => say!(
                self,
                "the largest upright box, turned by {angle} degrees about the vertical, within {gap} of what any can hold",
                angle = self.number(angle.deg(), 1),
                gap = self.percent((gap * 100.0).ceil() / 100.0)
            ),
            GivenUp::Recess(side) => say!(
                self,
                "stops at the {side} of the recess",
                side = self.space_side(*side)
            ),
            GivenUp::Slope(side) => {
                say!(self, "square at the {side}", side = self.space_side(*side))
            }
            GivenUp::PastObstacle { obstacle, towards } => say!(
                self,
                "nothing past `{obstacle}` towards the {side}",
                obstacle = self.given(obstacle),
                side = self.space_side(*towards)
            ),
            GivenUp::RoomToGrow => say!(
                self,
                "kept further off than the clearance, to have room when warm"
            ),
        }
    }

    /// A body that was not looked for, and why, in a clause.
    pub(crate) fn unsearched(&self, unsearched: &Unsearched) -> Text {
        let fault = self.inscribed_fault(&unsearched.fault);
        match unsearched.largest {
            LargestBox::AlongSpace => {
                say!(
                    self,
                    "the largest box along the space: {fault}",
                    fault = fault
                )
            }
            LargestBox::Turned => say!(
                self,
                "the largest box turned about the vertical: {fault}",
                fault = fault
            ),
        }
    }

    fn space_side(&self, side: Side) -> Text {
        match side {
            Side::Front => say!(self, "front"),
            Side::Rear => say!(self, "rear"),
            Side::Left => say!(self, "left"),
            Side::Right => say!(self, "right"),
            Side::Above => say!(self, "top"),
            Side::Below => say!(self, "bottom"),
        }
    }
}
