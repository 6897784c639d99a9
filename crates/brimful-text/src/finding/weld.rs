//! Grooves, rod and the order of work, in words.

use super::said::Said;
use crate::text::Text;
use crate::words::Words;
use brimful_panels::finding::kind::{HatchReach, OrderCost, OrderMisfit, WeldKind};
use brimful_panels::name::PanelName;
use brimful_units::Length;

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
        WeldKind::ReachUnproven => Said::new(say!(words, "Reach and access are not yet proven: the order follows a fixed rule, as it does in a draft and for a tank of too many panels to search, and nobody has shown that hand and gun get to every run."))
            .source(rule(words))
            .cure(say!(words, "Walk through the steps with the gun in hand before cutting, or ask for outside-only joints.")),
        WeldKind::OrderFound { panels, unreached, bound } => Said::new(order_found(words, *panels, *unreached, *bound))
            .source(kit_rule(words))
            .cure(say!(words, "Measure your own gun and hand over; walk through the steps with the gun in hand before cutting. What is not looked at: how the gun gets to its place, whether it hides the work, and whether two hands get in each other's way.")),
        WeldKind::OwnOrder { panels, is_worse, own, best } => Said::new(own_order(words, *panels, *is_worse, own, best))
            .source(kit_rule(words))
            .cure(match is_worse {
                true => say!(words, "Take the order out of the job to use the best one found, or see step by step what each panel costs and move it."),
                false => say!(words, "Walk through the steps with the gun in hand before cutting."),
            })
            .entry("[weld] order"),
        WeldKind::OwnOrderUnproven => Said::new(say!(words, "The order of its panels is the job's own. What it costs against the best order that can be found is not known in a draft, nor of a tank of too many panels to search."))
            .source(own_rule(words))
            .cure(say!(words, "Check the whole tank; walk through the steps with the gun in hand before cutting."))
            .entry("[weld] order"),
        WeldKind::OwnOrderNotUsed(misfit) => not_used(words, misfit).source(own_rule(words)).entry("[weld] order"),
        WeldKind::OutOfReach { inside, length, stretch: [from, to], in_the_way } => Said::new(out_of_hand(words, *inside, *length, [*from, *to], in_the_way))
            .source(kit_rule(words))
            .cure(match in_the_way.is_empty() {
                true => say!(words, "Lay it with a smaller gun or by another joint, or test on off-cuts how it can be reached."),
                false => say!(words, "Try it with the gun in hand before cutting. What would open it: a hatch or a larger opening in what is in the way, that panel by tongues in slots, or a smaller gun; by an extruder also hot gas, whose weld factor is another."),
            })
            .entry("[shop] gun_length"),
        WeldKind::EndsOutOfReach { length } => Said::new(say!(words, "Gun and hand were not shown to get to {length} at the very ends of these seams' runs.", length = words.length(*length)))
            .source(kit_rule(words))
            .cure(say!(words, "Run the weld on from the run that it meets there, and look at these corners first in the leak test.")),
        WeldKind::OutOfSight { length } => Said::new(say!(words, "{length} of these seams' runs are within reach of gun and hand, and in no straight line of sight: they would be laid by a mirror, or by feel.", length = words.length(*length)))
            .source(kit_rule(words))
            .cure(say!(words, "Try it with gun and mirror before cutting, or plan these seams from outside alone.")),
        WeldKind::ByRoundNozzle { length } => Said::new(say!(words, "{length} of these seams' runs are laid with the round nozzle, rod in the other hand: the speed nozzle does not get there.", length = words.length(*length)))
            .source(kit_rule(words)),
        WeldKind::KitDoesNotFit { alone, all } => Said::new(say!(words, "Gun, hand and arm do not get to {alone} of {all} of runs even with nothing but the two panels of each seam standing: they are larger, or reach less far, than this tank asks for.", alone = words.length(*alone), all = words.length(*all)))
            .source(kit_rule(words))
            .cure(say!(words, "Check the sizes of gun and hand and the reach of the arm."))
            .entry("[shop] gun_length, gun_diameter, hand, reach"),
        WeldKind::NeedsTwoHands => Said::new(say!(words, "A round nozzle takes one hand for the gun and one for the rod, and an extruder takes both: with one hand no run can be laid. The order follows a fixed rule, and nothing is known of its reach."))
            .source(kit_rule(words))
            .cure(say!(words, "Get a second hand, or weld with a speed nozzle."))
            .entry("[shop] hands"),
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

fn kit_rule(words: &Words<'_>) -> Text {
    say!(
        words,
        "gun, hand, arm and line of sight as solids in sampled poses, among what stands then; kit sizes from memory"
    )
}

fn order_found(words: &Words<'_>, panels: usize, unreached: Length, bound: Length) -> Text {
    if unreached <= Length::ZERO {
        return say!(
            words,
            "The order of its {panels} panels was searched for: in it a pose of gun, hand and arm was found at every place looked at of the runs between them, their very ends apart.",
            panels = panels
        );
    }
    let unreached_text = words.length(unreached);
    match unreached > bound {
        true => say!(
            words,
            "The order of its {panels} panels was searched for: at {unreached} of the runs between them no pose of gun, hand and arm was found in the best one, and at {bound} at least in any.",
            panels = panels,
            unreached = unreached_text,
            bound = words.length(bound)
        ),
        false => say!(
            words,
            "The order of its {panels} panels was searched for: at {unreached} of the runs between them no pose of gun, hand and arm was found, and no order leaves less.",
            panels = panels,
            unreached = unreached_text
        ),
    }
}

fn own_order(
    words: &Words<'_>,
    panels: usize,
    is_worse: bool,
    own: &OrderCost,
    best: &OrderCost,
) -> Text {
    let own = words.order_cost(own);
    match is_worse {
        true => say!(
            words,
            "The order of its {panels} panels is the job's own. It costs: {own}. The best order found costs: {best}.",
            panels = panels,
            own = own,
            best = words.order_cost(best)
        ),
        false => say!(
            words,
            "The order of its {panels} panels is the job's own, and no better one was found. It costs: {own}.",
            panels = panels,
            own = own
        ),
    }
}

fn not_used(words: &Words<'_>, misfit: &OrderMisfit) -> Said {
    let misfit = words.order_misfit(misfit);
    Said::new(say!(
        words,
        "The job's own order of work is not followed, but the best one found. {why}",
        why = misfit.says
    ))
    .cure(misfit.remedy)
}

fn own_rule(words: &Words<'_>) -> Text {
    say!(
        words,
        "every panel once, lids last, ribs on the finished box"
    )
}

fn out_of_hand(
    words: &Words<'_>,
    inside: bool,
    length: Length,
    [from, to]: [Length; 2],
    in_the_way: &[PanelName],
) -> Text {
    let run = match inside {
        true => say!(words, "inside run"),
        false => say!(words, "outside run"),
    };
    let (length, from, to) = (words.length(length), words.length(from), words.length(to));
    if in_the_way.is_empty() {
        return say!(
            words,
            "Gun and hand were not shown to get to {length} of its {run}, between {from} and {to}: the seam's own two panels are in the way.",
            length = length,
            run = run,
            from = from,
            to = to
        );
    }
    let panels = Text::join(in_the_way.iter().map(|name| words.panel(name)), ", ");
    say!(
        words,
        "Gun and hand were not shown to get to {length} of its {run}, between {from} and {to}, as the work goes: in the way is {panels}.",
        length = length,
        run = run,
        from = from,
        to = to,
        panels = panels
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
