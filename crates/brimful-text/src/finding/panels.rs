//! Panels, their openings and the proof that they make up the body, in words.

use super::said::Said;
use crate::text::Text;
use crate::words::Words;
use brimful_panels::finding::kind::PanelsKind;
use brimful_units::Length;

pub(super) fn said(words: &Words<'_>, kind: &PanelsKind) -> Said {
    match kind {
        PanelsKind::PlacedByRule { count, bay } => placed_by_rule(words, *count, *bay),
        PanelsKind::HoleInWeld { panel } => near_weld(
            words,
            say!(
                words,
                "This hole on the {panel} panel is too near a weld: no flat is left for it.",
                panel = words.panel(panel)
            ),
        ),
        PanelsKind::FlangeNearWeld { panel } => near_weld(
            words,
            say!(
                words,
                "The flange of this fitting on the {panel} panel is too near a weld: no flat is left for it.",
                panel = words.panel(panel)
            ),
        ),
        PanelsKind::NotCompared => Said::new(say!(
            words,
            "The panels could not be compared with the body."
        ))
        .cure(say!(
            words,
            "Report the job: this is a fault of the program."
        )),
        PanelsKind::NotTheBody => Said::new(say!(
            words,
            "The panels do not make up the body: some overlap, stick out or reach into the liquid."
        ))
        .cure(say!(
            words,
            "Choose other joints at the panels named, or move the inner panel."
        ))
        .source(say!(
            words,
            "proof of panels: body = cavity + panels + grooves"
        )),
        PanelsKind::GapOff => Said::new(say!(
            words,
            "The gap of this seam is not the gap asked for."
        ))
        .cure(say!(words, "Choose another joint at this edge."))
        .source(say!(words, "proof of panels: gaps measured on the panels")),
        PanelsKind::NotAPlate(fault) => cannot_be_cut(words, words.plate_fault(fault)),
        PanelsKind::NotASolid(fault) => cannot_be_cut(words, words.solid_fault(fault)),
        PanelsKind::Sliver => Said::new(say!(
            words,
            "Part of the panel is a sliver narrower than the kerf."
        ))
        .cure(say!(words, "Leave out the narrow facet of the body."))
        .source(say!(words, "proof of panels: no sliver under the kerf")),
        PanelsKind::SticksOut => Said::new(say!(words, "The panel sticks out of the body."))
            .cure(say!(words, "Choose another joint at its edges."))
            .source(say!(words, "proof of panels: inside the body")),
        PanelsKind::RibInBody => Said::new(say!(words, "This rib reaches into the body."))
            .cure(say!(
                words,
                "Make it less deep, or leave out the wall it runs into."
            ))
            .source(say!(words, "proof of panels: ribs stand outside the body")),
        PanelsKind::Overlap { other } => Said::new(say!(
            words,
            "The panel overlaps the {other} panel.",
            other = words.panel(other)
        ))
        .cure(say!(words, "Choose another joint between the two."))
        .source(say!(words, "proof of panels: no overlap")),
    }
}

fn placed_by_rule(words: &Words<'_>, count: usize, bay: Length) -> Said {
    let bay = words.length(bay);
    let placed = match count {
        1 => say!(
            words,
            "Placed by rule: one, half-way along the longer side, so that no bay is over {bay}.",
            bay = bay
        ),
        n => say!(
            words,
            "Placed by rule: {n}, evenly spaced along the longer side, so that no bay is over {bay}.",
            n = n,
            bay = bay
        ),
    };
    Said::new(say!(
        words,
        "{placed} The rule does not look at strength; the whole-tank check does.",
        placed = placed
    ))
    .source(say!(
        words,
        "46 CFR 182.440(a)(8), taken over from fuel tanks of small craft"
    ))
}

fn near_weld(words: &Words<'_>, says: Text) -> Said {
    Said::new(says)
        .cure(say!(
            words,
            "Move the fitting away from the seam, or take a smaller flange."
        ))
        .source(say!(
            words,
            "common practice: half a sheet thickness between a hole and a seam, and one, for the weld leg, between flange and seam"
        ))
}

fn cannot_be_cut(words: &Words<'_>, fault: Text) -> Said {
    Said::new(say!(
        words,
        "The panel is not one that can be cut: {fault}.",
        fault = fault
    ))
    .cure(say!(words, "Use thinner sheet or another joint."))
    .source(say!(words, "proof of panels: simple outlines"))
}
