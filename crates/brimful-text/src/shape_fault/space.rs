//! Faults of the space and its scan, in words.

use super::fault_text::FaultText;
use crate::text::Text;
use crate::words::Words;
use brimful_panels::shape::{FloorHalf, ScanUnusable, SpaceFault};
use brimful_units::Length;

pub(super) fn said(words: &Words<'_>, fault: &SpaceFault) -> FaultText {
    FaultText::new(says(words, fault), remedy(words, fault))
}

fn says(words: &Words<'_>, fault: &SpaceFault) -> Text {
    match fault {
        SpaceFault::Missing => say!(
            words,
            "The job gives no space, so nothing can be fitted to it."
        ),
        SpaceFault::NotProper(fault) => say!(
            words,
            "The space as measured is not a proper solid: {fault}.",
            fault = words.solid_fault(fault)
        ),
        SpaceFault::SectionsOpen(fault) => say!(
            words,
            "The sections close no solid: {fault}.",
            fault = words.boolean_fault(fault)
        ),
        SpaceFault::TapedOpen(fault) => say!(
            words,
            "The taped room closes no solid: {fault}.",
            fault = words.boolean_fault(fault)
        ),
        SpaceFault::WallsMeet => say!(
            words,
            "The taped room holds nothing: its walls lean together below the lid."
        ),
        SpaceFault::NoDiagonal => say!(
            words,
            "Opposite sides of the floor differ, and no diagonal says which way it is racked: a diagonal is missing."
        ),
        SpaceFault::NoTriangle(FloorHalf::RightAndFront) => say!(
            words,
            "The right and front sides and the diagonal make no triangle."
        ),
        SpaceFault::NoTriangle(FloorHalf::LeftAndRear) => say!(
            words,
            "The left and rear sides and the diagonal make no triangle."
        ),
        SpaceFault::FloorCrosses => say!(
            words,
            "The sides and the diagonal of the floor cross each other."
        ),
        SpaceFault::ObstacleOutside(name) => say!(
            words,
            "The obstacle `{name}` lies outside the space.",
            name = words.given(name)
        ),
        SpaceFault::ZoneOutside(name) => say!(
            words,
            "The zone kept free `{name}` lies outside the space.",
            name = words.given(name)
        ),
        SpaceFault::NoClearance { obstacle, fault } => say!(
            words,
            "No clearance can be kept round the obstacle `{obstacle}`: {fault}.",
            obstacle = words.given(obstacle),
            fault = words.offset_fault(fault)
        ),
        SpaceFault::TooRough => say!(
            words,
            "No clearance can be kept within the sides found in the scan: they are too many and too small."
        ),
        SpaceFault::NothingLeft => say!(
            words,
            "Nothing of the space is left for a tank once obstacles, clearance and the room above are taken off."
        ),
        SpaceFault::CutUp(pieces) => words.space_cut_up(pieces),
    }
}

fn remedy(words: &Words<'_>, fault: &SpaceFault) -> Text {
    match fault {
        SpaceFault::Missing => say!(words, "Add [space] with what was measured."),
        SpaceFault::NotProper(_) => say!(
            words,
            "Check its measures; a corner may have been written twice or out of order."
        ),
        SpaceFault::SectionsOpen(_) => say!(
            words,
            "Give all sections the same corners in the same order."
        ),
        SpaceFault::TapedOpen(_) => say!(words, "Check its measures."),
        SpaceFault::WallsMeet => say!(words, "Check lean and heights."),
        SpaceFault::NoDiagonal => say!(
            words,
            "Measure from the origin to the corner across it and write it as `diagonals`."
        ),
        SpaceFault::NoTriangle(_) => say!(
            words,
            "Measure again: one of them is wrong, or they are in another order than right, front, left, rear."
        ),
        SpaceFault::FloorCrosses => say!(
            words,
            "Give the sides in the order right, front, left, rear, and the diagonal from the origin."
        ),
        SpaceFault::ObstacleOutside(_) | SpaceFault::ZoneOutside(_) => say!(
            words,
            "Check its corners against the origin of the space, or leave it out."
        ),
        SpaceFault::NoClearance { .. } => say!(words, "Draw it as several simpler obstacles."),
        SpaceFault::TooRough => say!(
            words,
            "Where the scan is rough, state its noise in `scan_noise`, or scan again."
        ),
        SpaceFault::NothingLeft => say!(
            words,
            "Check the obstacles' corners, or ask for less clearance."
        ),
        SpaceFault::CutUp(_) => say!(
            words,
            "Give the [body] that is meant, in one of them; `brimful fit` lists what fits each."
        ),
    }
}

pub(super) fn scan(words: &Words<'_>, file: &str, why: &ScanUnusable) -> FaultText {
    let file = words.given(file);
    let (says, remedy) = match why {
        ScanUnusable::NotRead => (
            say!(words, "The scan `{file}` has not been read.", file = file),
            say!(words, "Give the job file to the command, beside the scan."),
        ),
        ScanUnusable::Size(size) => (
            say!(
                words,
                "The scan `{file}` would be {size} long with the unit that the job gives.",
                file = file,
                size = far_off(words, *size)
            ),
            say!(
                words,
                "Is `scan_unit` right? A scan in metres read as millimetres is a thousand times too small, and the other way about."
            ),
        ),
        ScanUnusable::NoSolid(fault) => (
            say!(
                words,
                "The scan `{file}` gives no space: {fault}.",
                file = file,
                fault = words.scan_fault(fault)
            ),
            say!(
                words,
                "Scan the sides that are missing, or measure by outlines or stations; where the scan is rough, state its noise in `scan_noise`."
            ),
        ),
    };
    FaultText::new(says, remedy)
}

/// A length that is far too small or far too large for a space.
fn far_off(words: &Words<'_>, length: Length) -> Text {
    match length.m() < 1.0 {
        true => words.thickness(length),
        false => words.long_length(Length::from_m(length.m().round())),
    }
}
