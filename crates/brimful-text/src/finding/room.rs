//! The room about the tank, full and warm, in words.

use super::said::Said;
use crate::text::Text;
use crate::words::Words;
use brimful_panels::finding::kind::RoomKind;
use brimful_units::Length;

pub(super) fn said(words: &Words<'_>, kind: &RoomKind) -> Said {
    match kind {
        RoomKind::NotMeasured(fault) => Said::new(say!(words, "The room before it cannot be measured: {fault}.", fault = words.boolean_fault(fault)))
            .source(say!(words, "free inside before the panel, by boolean"))
            .cure(say!(words, "Simplify the space or the body near it.")),
        RoomKind::PanelNotKnown { quick } => Said::new(say!(words, "Whether it has the room it needs when full and warm is not known: no check covers its bulge and growth."))
            .source(before_panel(words))
            .cure(unknown_cure(words, *quick)),
        RoomKind::PanelInterferes { growth, bulge, ribs, weld } => {
            let parts = taken(words, [*growth, *bulge], [*ribs, *weld]);
            Said::new(say!(words, "Full and warm it needs more room than there is before it and bears on what is beside it: {parts}.", parts = parts))
                .source(before_panel(words))
                .cure(say!(words, "Thicker sheet, a baffle, rib or stay nearer, or a smaller body that leaves more clearance."))
        }
        RoomKind::FittingNotKnown { quick } => Said::new(say!(words, "Whether it has the room it needs when the tank is full and warm is not known: no check covers bulge and growth of its panel."))
            .source(before_fitting(words))
            .cure(unknown_cure(words, *quick)),
        RoomKind::FittingInterferes { panel, stands_out } => Said::new(say!(words, "It stands out of the {panel} panel by {by}, and there is less room before it when the tank is full and warm.", panel = words.panel(panel), by = words.length(*stands_out)))
            .source(before_fitting(words))
            .cure(say!(words, "Move it, take a lower one or an elbow, or make the body smaller there; or say that it faces a hole, if what is beside the tank has one for it.")),
        RoomKind::FittingsUnstated(names) => Said::new(say!(words, "How far these stand out is not said, so whether they find room in the space is not checked: {names}.", names = words.all_given(names)))
            .source(say!(words, "free inside within half a metre before the flat each covers"))
            .cure(say!(words, "Measure each with its elbow, cap or hose on, and say how far it stands out.")),
    }
}

fn taken(words: &Words<'_>, [growth, bulge]: [Length; 2], [ribs, weld]: [Length; 2]) -> Text {
    let some = |length: Length| (length > Length::ZERO).then(|| words.length(length));
    let parts = [
        Some(say!(
            words,
            "it grows by {growth}",
            growth = words.length(growth)
        )),
        Some(say!(
            words,
            "bulges by {bulge}",
            bulge = words.length(bulge)
        )),
        some(ribs).map(|ribs| say!(words, "ribs take {ribs}", ribs = ribs)),
        some(weld).map(|weld| say!(words, "its welds stand out by {weld}", weld = weld)),
    ];
    Text::join(parts.into_iter().flatten(), ", ")
}

fn unknown_cure(words: &Words<'_>, quick: bool) -> Text {
    match quick {
        true => say!(words, "Let the whole tank be checked."),
        false => say!(words, "Cure what keeps the strength check from an answer."),
    }
}

fn before_panel(words: &Words<'_>) -> Text {
    say!(
        words,
        "free inside before the panel, growth by the coefficients of the sheet, bulge by the strength check"
    )
}

fn before_fitting(words: &Words<'_>) -> Text {
    say!(
        words,
        "free inside before the flat it covers; growth and bulge of its panel"
    )
}
