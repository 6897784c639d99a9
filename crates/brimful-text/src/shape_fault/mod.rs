//! What is wrong with a shape of the job, in words: what it is, and what would cure it.

mod body;
mod fault_text;
mod panels;
mod space;

pub use fault_text::FaultText;

use crate::words::Words;
use brimful_job::Axis;
use brimful_panels::shape::{DrawnFault, ShapeFault, ShapeFaultKind, WholeFault};

impl Words<'_> {
    /// Why a shape cannot be made, in words.
    pub fn shape_fault(&self, fault: &ShapeFault) -> FaultText {
        match &*fault.kind {
            ShapeFaultKind::Drawn(fault) => drawn(self, fault),
            ShapeFaultKind::Space(fault) => space::said(self, fault),
            ShapeFaultKind::Scan { file, why } => space::scan(self, file, why),
            ShapeFaultKind::Body(fault) => body::said(self, fault),
            ShapeFaultKind::Panel { panel, why } => panels::outer(self, *panel, why),
            ShapeFaultKind::Opening { opening, why } => panels::opening(self, opening, why),
            ShapeFaultKind::Inner { inner, why } => panels::inner(self, inner, why),
            ShapeFaultKind::Rib { rib, why } => panels::rib(self, rib, why),
            ShapeFaultKind::Chock { panel, why } => panels::chock(self, *panel, why),
            ShapeFaultKind::OwnOrder { panel, panels } => panels::own_order(self, panel, panels),
            ShapeFaultKind::Whole(fault) => whole(self, fault),
        }
    }
}

fn drawn(words: &Words<'_>, fault: &DrawnFault) -> FaultText {
    let (says, remedy) = match fault {
        DrawnFault::NotCombined(fault) => (
            say!(
                words,
                "The shape cannot be made: {fault}.",
                fault = words.boolean_fault(fault)
            ),
            say!(words, "Check the corners of its outlines."),
        ),
        DrawnFault::Unlimited(axis) => (
            say!(
                words,
                "Nothing limits the shape along {axis}.",
                axis = words.given(match axis {
                    Axis::X => "x",
                    Axis::Y => "y",
                    Axis::Z => "z",
                })
            ),
            say!(words, "Give another view or the size along it."),
        ),
        DrawnFault::NothingInCommon => (
            say!(words, "The outlines of the views have nothing in common."),
            say!(words, "Draw all views from the same origin."),
        ),
        DrawnFault::Outline(fault) => (
            say!(
                words,
                "The outline cannot be used: {fault}.",
                fault = words.outline_fault(fault)
            ),
            say!(
                words,
                "Give the corners in order round the outline, each once."
            ),
        ),
    };
    FaultText::new(says, remedy)
}

fn whole(words: &Words<'_>, fault: &WholeFault) -> FaultText {
    let says = match fault {
        WholeFault::TooManyPanels { most } => say!(
            words,
            "The body comes to more than {most} panels of the sheets in the stock.",
            most = *most
        ),
        WholeFault::NotDivided(fault) => say!(
            words,
            "The cavity cannot be divided: {fault}.",
            fault = words.boolean_fault(fault)
        ),
        WholeFault::NotWeighed(fault) => say!(
            words,
            "The sheet cannot be weighed: {fault}.",
            fault = words.not_covered(fault)
        ),
        WholeFault::NotLaidOut(error) => say!(
            words,
            "The sheets cannot be laid out: {error}.",
            error = words.nest_error(error)
        ),
    };
    let remedy = match fault {
        WholeFault::TooManyPanels { .. } => say!(
            words,
            "Check the unit of the lengths; or make the body smaller, or of larger sheets."
        ),
        WholeFault::NotDivided(_) => say!(words, "Simplify the inner panels, or move them."),
        WholeFault::NotWeighed(_) => say!(words, "Choose another material of the stock."),
        WholeFault::NotLaidOut(_) => say!(words, "Check the sizes of the stock's sheets."),
    };
    FaultText::new(says, remedy)
}
