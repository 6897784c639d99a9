//! Grooves, rod and the order of work, in words.

use super::said::Said;
use crate::text::Text;
use crate::words::Words;
use brimful_panels::finding::kind::{HatchReach, WeldKind};

pub(super) fn said(words: &Words<'_>, kind: &WeldKind) -> Said {
    match kind {
        WeldKind::RodNotWeighed(reason) => {
            let reason = words.not_covered(reason);
            Said::new(say!(words, "Rod cannot be weighed: {reason}.", reason = reason))
                .cure(say!(words, "Name a material that the tables know."))
        }
        WeldKind::NoGroove(reason) => {
            let reason = words.no_section(*reason);
            Said::new(say!(words, "Its groove cannot be worked out: {reason}.", reason = reason))
                .source(say!(words, "plane geometry of the joint"))
                .cure(say!(words, "Choose another joint at this edge."))
        }
        WeldKind::SheetTooThick { by_extruder } => Said::new(unknown_thickness(words))
            .cure(match by_extruder {
                true => say!(words, "Weld it with an extruder, or use thinner sheet."),
                false => say!(words, "Use thinner sheet: no figures are known of this material from an extruder."),
            }),
        WeldKind::SheetTooThin => {
            Said::new(unknown_thickness(words)).cure(say!(words, "Use thicker sheet."))
        }
        WeldKind::SpeedOutside { speed, published: [low, high] } => Said::new(say!(words, "The shop's welding speed of {speed} is outside the published {low} to {high}.", speed = words.speed(*speed), low = words.speed(*low), high = words.speed(*high)))
            .cure(say!(words, "Prove the settings by a bend test of coupons, or weld at a published speed.")),
        WeldKind::MeltsTooLittle { speed, slower } => Said::new(say!(words, "At {speed} the gas has too little time: the faces of the groove do not melt as deep as they have to.", speed = words.speed(*speed)))
            .cure(match slower {
                Some(slower) => say!(words, "Weld no faster than {speed}, and see on a coupon cut across that the faces have melted.", speed = words.speed(*slower)),
                None => say!(words, "Warm the groove longer before each run, and see on a coupon cut across that the faces have melted."),
            })
            .entry("[shop] weld_speed"),
        WeldKind::ReachUnproven => Said::new(say!(words, "Reach and access are not yet proven: the order follows a fixed rule, and nobody has shown that hand and gun get to every run."))
            .source(rule(words))
            .cure(say!(words, "Walk through the steps with the gun in hand before cutting, or ask for outside-only joints.")),
        WeldKind::ThroughHatch => Said::new(say!(words, "These seams have inside runs that lie behind the lid once it is on: they can only be laid through a hatch, an arm's length from it."))
            .source(rule(words))
            .cure(say!(words, "See that hand and gun reach them through the hatch past everything inside, or make it larger.")),
        WeldKind::OutsideOnly(reach) => Said::new(say!(words, "The inside of these seams lies behind the lid once it is on: {why}. They are planned with a groove through the whole sheet, welded from outside alone, and their root counts half where it is pulled open.", why = out_of_reach(words, *reach)))
            .source(rule(words))
            .cure(nearer_hatch(words, *reach))
            .entry("[shop] reach"),
        WeldKind::OneFaceOnly(reach) => Said::new(say!(words, "Hand and gun get to these seams on one face of the inner panel alone: on the other, {why}. Its edge is planned bevelled through the whole sheet and welded from the face that is reached, and the root counts half where it is pulled open.", why = out_of_reach(words, *reach)))
            .source(rule(words))
            .cure(nearer_hatch(words, *reach))
            .entry("[shop] reach"),
        WeldKind::CannotBeLaid(reach) => Said::new(say!(words, "Nothing can be laid at these seams: they lie behind the lid once it is on, they have no outside, and {why}.", why = out_of_reach(words, *reach)))
            .source(rule(words))
            .cure(nearer_hatch(words, *reach))
            .entry("[shop] reach"),
        WeldKind::NotTight => Said::new(say!(words, "This divider is joined by tongues in slots, and between them its foot is open: it is not tight."))
            .source(say!(words, "the joint of an inner panel"))
            .cure(say!(words, "Weld the foot of a divider all along, on both sides."))
            .entry("[[inner]] joint = \"tee\""),
        WeldKind::RodDisagrees => Said::new(say!(words, "Length and mass of the rod on hand do not go with its diameter; the smaller amount is used."))
            .source(say!(words, "section x density of the material"))
            .cure(say!(words, "Measure the rod's diameter and correct what is wrong.")),
        WeldKind::RodShort => Said::new(say!(words, "There is not enough rod on hand."))
            .source(say!(words, "net sections x length x the shop's rod factor"))
            .cure(say!(words, "Buy more rod of the same material and melt flow before starting.")),
    }
}

fn unknown_thickness(words: &Words<'_>) -> Text {
    say!(
        words,
        "Its sheet is outside what hot gas with rod is known to weld."
    )
}

fn rule(words: &Words<'_>) -> Text {
    say!(
        words,
        "fixed order of work: floor, inner panels, walls by size, lid last"
    )
}

fn out_of_reach(words: &Words<'_>, reach: HatchReach) -> Text {
    match reach {
        HatchReach::NoHatch => say!(words, "there is no hatch to weld them through"),
        HatchReach::TooSmall { least } => say!(
            words,
            "no hatch near them is wide enough for an arm with a gun, which needs {least} clear of what stands under it",
            least = words.length(least)
        ),
        HatchReach::TooFar { reach } => say!(
            words,
            "part of each is not within {reach} of a hatch, straight on and with no wall, divider or baffle between",
            reach = words.length(reach)
        ),
        HatchReach::Near => say!(words, "they are within reach of a hatch"),
    }
}

fn nearer_hatch(words: &Words<'_>, reach: HatchReach) -> Text {
    match reach {
        HatchReach::TooSmall { least } => say!(
            words,
            "To weld them from both sides: a hatch of {least} or more, clear of what stands under it.",
            least = words.length(least)
        ),
        _ => say!(
            words,
            "To weld them from both sides: a hatch that an arm goes through, near enough."
        ),
    }
}
