//! Faults of the body, in words.

use super::fault_text::FaultText;
use crate::text::Text;
use crate::words::Words;
use brimful_panels::shape::BodyFault;

pub(super) fn said(words: &Words<'_>, fault: &BodyFault) -> FaultText {
    FaultText::new(says(words, fault), remedy(words, fault))
}

fn says(words: &Words<'_>, fault: &BodyFault) -> Text {
    match fault {
        BodyFault::Missing => say!(words, "The job gives neither a space nor a body."),
        BodyFault::NothingToFitTo => {
            say!(words, "A fitted body needs the space that it is fitted to.")
        }
        BodyFault::NotOffered { name, .. } => say!(
            words,
            "No body called `{name}` is offered for this space.",
            name = words.given(name)
        ),
        BodyFault::IdleCut(cut) => say!(
            words,
            "The cut `{cut}` takes nothing off the body.",
            cut = words.given(cut)
        ),
        BodyFault::NothingLeft => say!(words, "The cuts leave nothing of the body."),
        BodyFault::InPieces(n) => say!(words, "The body falls into {n} separate pieces.", n = *n),
        BodyFault::NotMade(fault) => say!(
            words,
            "The body cannot be made: {fault}.",
            fault = words.boolean_fault(fault)
        ),
        BodyFault::Hollow => say!(words, "A cut leaves a closed hollow inside the body."),
        BodyFault::NotProper(fault) => say!(
            words,
            "The body is not a proper solid: {fault}.",
            fault = words.solid_fault(fault)
        ),
        BodyFault::FaceWithoutArea(face) => {
            say!(words, "Face {face} of the body has no area.", face = *face)
        }
        BodyFault::FacesNotProper(fault) => say!(
            words,
            "Corners and faces of the body make no proper solid: {fault}.",
            fault = words.solid_fault(fault)
        ),
        BodyFault::UnknownFace { name, .. } => say!(
            words,
            "No panel of this body is called `{name}`.",
            name = words.given(name)
        ),
        BodyFault::NoCommonEdge([one, other]) => say!(
            words,
            "The panels `{one}` and `{other}` have no edge in common.",
            one = words.given(one),
            other = words.given(other)
        ),
        BodyFault::NoRoomInside { thickness, face } => say!(
            words,
            "Sheet of {thickness} is thicker than the body allows: no room is left inside for the {face}.",
            thickness = words.thickness(*thickness),
            face = words.face(*face)
        ),
        BodyFault::SheetsMeet {
            thickness,
            faces: [one, other],
        } => say!(
            words,
            "Sheet of {thickness} is thicker than the body allows: the {one} and the {other} would meet inside.",
            thickness = words.thickness(*thickness),
            one = words.face(*one),
            other = words.face(*other)
        ),
        BodyFault::Corner { thickness, corner } => say!(
            words,
            "The panels round corner {corner} of the body cannot be laid out with sheet of {thickness}.",
            corner = *corner,
            thickness = words.thickness(*thickness)
        ),
    }
}

fn remedy(words: &Words<'_>, fault: &BodyFault) -> Text {
    match fault {
        BodyFault::Missing => say!(words, "Give one of them."),
        BodyFault::NothingToFitTo => say!(words, "Add [space], or give the body's shape."),
        BodyFault::NotOffered { offered, .. } => {
            let quoted = |name: &String| Text::verbatim(format!("`{name}`"));
            say!(
                words,
                "Offered are: {names}.",
                names = Text::join(offered.iter().map(quoted), ", ")
            )
        }
        BodyFault::IdleCut(_) => say!(
            words,
            "Check its corners against the body's own origin, or leave it out."
        ),
        BodyFault::NothingLeft => say!(words, "Make them smaller."),
        BodyFault::InPieces(_) => say!(words, "Write a job for each."),
        BodyFault::NotMade(_) | BodyFault::NotProper(_) => {
            say!(words, "Check the corners of its outlines.")
        }
        BodyFault::Hollow => say!(
            words,
            "Let the cut reach a side of the body, or leave it out."
        ),
        BodyFault::FaceWithoutArea(_) => say!(words, "Check the numbers of its corners."),
        BodyFault::FacesNotProper(_) => say!(
            words,
            "Every face is flat and goes counter-clockwise seen from outside, and every edge belongs to two faces."
        ),
        BodyFault::UnknownFace { faces, .. } => {
            let keys = faces.iter().map(|face| Text::verbatim(face.to_string()));
            say!(
                words,
                "Its panels are: {names}.",
                names = Text::join(keys, ", ")
            )
        }
        BodyFault::NoCommonEdge(_) => say!(words, "Name two panels that meet."),
        BodyFault::NoRoomInside { .. }
        | BodyFault::SheetsMeet { .. }
        | BodyFault::Corner { .. } => {
            say!(words, "Use thinner sheet, or leave out the narrow facet.")
        }
    }
}
