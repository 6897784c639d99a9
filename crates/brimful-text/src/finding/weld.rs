//! Grooves, rod and the order of work, in words.

use super::said::Said;
use crate::text::Text;
use crate::words::Words;
use brimful_panels::finding::kind::{NotReached, OrderCost, OrderMisfit, WeldKind};
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
        WeldKind::TooThickByHand { all_of_it: true } => Said::new(say!(words, "The extruder does not get to these seams: all of a run is laid by hot gas with the round nozzle, in sheet thicker than that is known to weld."))
            .cure(say!(words, "An order or a hatch that lets the extruder in; thinner sheet; or, for a sheet just over, test strips of it welded by hot gas and bent.")),
        WeldKind::TooThickByHand { all_of_it: false } => Said::new(say!(words, "The extruder does not get into the corners of these seams: short runs are laid there by hot gas with the round nozzle, in sheet thicker than that is known to weld."))
            .cure(say!(words, "Weld test strips of this sheet by hot gas too, and bend them; look at these corners first in the leak test.")),
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
        WeldKind::OutOfReach { inside, length, stretch: [from, to], in_the_way } => Said::new(out_of_reach(words, *inside, *length, [*from, *to], in_the_way))
            .source(kit_rule(words))
            .cure(match in_the_way.is_empty() {
                true => say!(words, "Lay it with a smaller gun or by another joint, or test on off-cuts how it can be reached."),
                false => say!(words, "Try it with the gun in hand before cutting. What would open it: a hatch or a larger opening in what is in the way, that panel by tongues in slots, or a smaller gun; by an extruder also hot gas, whose weld factor is another."),
            })
            .entry("[shop] gun_length"),
        WeldKind::EndsOutOfReach { length } => Said::new(say!(words, "Gun and hand were not shown to get to {length} at the very ends of these seams' runs.", length = words.length(*length)))
            .source(kit_rule(words))
            .cure(say!(words, "Run the weld on from the run that it meets there, and look at these corners first in the leak test.")),
        WeldKind::OutOfSight { length } => Said::new(say!(words, "{length} of these seams' runs are within reach of gun and hand, and in no straight line of sight: nobody welds blind, and they are not counted.", length = words.length(*length)))
            .source(kit_rule(words))
            .cure(say!(words, "A larger hatch, or one from which the eye gets there.")),
        WeldKind::ByRoundNozzle { length } => Said::new(say!(words, "{length} of these seams' runs are laid with the round nozzle, rod in the other hand: what the shop welds with otherwise does not get there.", length = words.length(*length)))
            .source(kit_rule(words)),
        WeldKind::KitDoesNotFit { alone, all } => Said::new(say!(words, "Gun, hand and arm do not get to {alone} of {all} of runs even with nothing but the two panels of each seam standing: they are larger, or reach less far, than this tank asks for.", alone = words.length(*alone), all = words.length(*all)))
            .source(kit_rule(words))
            .cure(say!(words, "Check the sizes of gun and hand and the reach of the arm."))
            .entry("[shop] gun_length, gun_diameter, hand, reach"),
        WeldKind::RunsCross { places, most } => Said::new(match places {
                1 => say!(words, "At one place {most} runs of these seams would meet: where so many cross, what the welds pull adds up, and no run is left that goes through whole.", most = *most),
                places => say!(words, "At {places} places runs of these seams would meet, up to {most} at one: where so many cross, what the welds pull adds up, and no run is left that goes through whole.", places = *places, most = *most),
            })
            .source(say!(words, "common practice: welds are set off from each other, and no more than three meet"))
            .cure(say!(words, "Move a seam between two pieces of one panel, an inner panel or a rib along, or cut back the corner of what stands there, so that no more than three runs meet; else lay them in the order of the corners, each cold and cut back before the next.")),
        WeldKind::NeedsTwoHands => Said::new(say!(words, "A round nozzle takes one hand for the gun and one for the rod, and an extruder takes both: with one hand no run can be laid. The order follows a fixed rule, and nothing is known of its reach."))
            .source(kit_rule(words))
            .cure(say!(words, "Get a second hand, or weld with a speed nozzle."))
            .entry("[shop] hands"),
        WeldKind::ThroughHatch => Said::new(say!(words, "These seams have inside runs that are laid once everything stands: a pose of gun, hand and arm was found through the hatches."))
            .source(kit_rule(words))
            .cure(say!(words, "See that hand and gun reach them through the hatch past everything inside, or make it larger.")),
        WeldKind::OutsideOnly(why) => Said::new(say!(words, "{why} at the inside of these seams. They are planned with a groove through the whole sheet, welded from outside alone, and their root counts half where it is pulled open.", why = not_reached(words, *why)))
            .source(kit_rule(words))
            .cure(reach_cure(words, *why))
            .entry("[shop] reach"),
        WeldKind::InsideInPart(why) => Said::new(say!(words, "{why} at the inside of these seams. They are planned with a groove through the whole sheet from outside and with an inside run where that is in reach; where it is not, their root counts half where it is pulled open.", why = not_reached(words, *why)))
            .source(kit_rule(words))
            .cure(reach_cure(words, *why))
            .entry("[shop] reach"),
        WeldKind::InsideOnly => Said::new(say!(words, "{why} at the outside of these seams. They are welded from inside alone, and their root counts half where it is pulled open.", why = not_reached(words, NotReached::PastWhatStands)))
            .source(kit_rule(words))
            .cure(reach_cure(words, NotReached::PastWhatStands))
            .entry("[shop] reach"),
        WeldKind::OneFaceOnly(why) => Said::new(say!(words, "Hand and gun get to these seams on one face of the inner panel or rib alone; on the other: {why}. Its edge is planned bevelled through the whole sheet and welded from the face that is reached, and the root counts half where it is pulled open.", why = not_reached(words, *why)))
            .source(kit_rule(words))
            .cure(reach_cure(words, *why))
            .entry("[shop] reach"),
        WeldKind::CannotBeLaid(why) => Said::new(say!(words, "Nothing can be laid at these seams as the work goes. {why}, and they have no other side.", why = not_reached(words, *why)))
            .source(kit_rule(words))
            .cure(reach_cure(words, *why))
            .entry("[shop] reach"),
        WeldKind::ByHotGas => Said::new(say!(words, "The extruder does not get to all of these seams, and hot gas with a round nozzle does: they are planned in runs of rod there, and count with the lower of the two weld factors."))
            .source(kit_rule(words))
            .cure(say!(words, "Lay the run by hot gas all along that side, or measure the extruder over: a smaller one may get there."))
            .entry("[shop] gun_length, gun_diameter"),
        WeldKind::NotTight => Said::new(say!(words, "This divider is joined by tongues in slots, and between them its foot is open: it is not tight."))
            .source(say!(words, "the joint of an inner panel"))
            .cure(say!(words, "Weld the foot of a divider all along, on both sides."))
            .entry("[[inner]] joint = \"tee\""),
        WeldKind::RodDisagrees => Said::new(say!(words, "Length and mass of the rod on hand do not go with its diameter; the smaller amount is used."))
            .source(say!(words, "section x density of the material"))
            .cure(say!(words, "Measure the rod's diameter and correct what is wrong.")),
        WeldKind::RodShort { short, coils } => Said::new(match coils {
            Some(coils) => say!(words, "There is not enough rod on hand: {short} is short, {coils} of its coils.", short = words.long_length(*short), coils = *coils),
            None => say!(words, "There is not enough rod on hand: {short} is short.", short = words.long_length(*short)),
        })
            .source(say!(words, "whole rods or net sections with the shop's rod factor, and what starts, ends and overlaps take"))
            .cure(say!(words, "Buy more rod of the same material and melt flow before starting.")),
        WeldKind::UnlikeRod { rod, sheet } => Said::new(say!(words, "The rod is of {rod} and the sheet of {sheet}: they do not weld.", rod = words.given(rod), sheet = words.given(sheet)))
            .source(like_to_like(words))
            .cure(say!(words, "Get rod of the plastic of the sheet, of near the same melt flow."))
            .entry("[[stock.rod]] material"),
        WeldKind::UnlikeFitting { fitting, sheet } => Said::new(say!(words, "It is of {fitting} and the sheet of {sheet}: it cannot be welded in.", fitting = words.given(fitting), sheet = words.given(sheet)))
            .source(like_to_like(words))
            .cure(say!(words, "Get a fitting of the plastic of the sheet, or one that is screwed in with a seal."))
            .entry("[[opening]] material"),
        WeldKind::RodFitsNoNozzle { rod, nozzles, is_own } => {
            let sizes = Text::join(nozzles.iter().map(|size| words.thickness(*size)), ", ");
            let rod = words.thickness(*rod);
            Said::new(match is_own {
                true => say!(words, "None of the shop's speed nozzles takes the rod of {rod}: they are for {sizes}.", rod = rod, sizes = sizes),
                false => say!(words, "No usual speed nozzle takes the rod of {rod}: they are made for {sizes}.", rod = rod, sizes = sizes),
            })
            .source(say!(words, "sizes of speed nozzles from memory; a few tenths of a millimetre of play, common practice"))
            .cure(say!(words, "Get rod that a nozzle takes, or say what the shop's own nozzles take."))
            .entry("[shop] nozzle_sizes")
        }
        WeldKind::RodFitsNoExtruder { rod, takes: [least, most] } => Said::new(say!(words, "An extruder of this size takes rod from {least} to {most}, and not the rod of {rod}.", least = words.thickness(*least), most = words.thickness(*most), rod = words.thickness(*rod)))
            .source(say!(words, "hand extruders by size, class typical, from memory"))
            .cure(say!(words, "Get rod that it takes, or say what size the extruder is of."))
            .entry("[shop] extruder"),
        WeldKind::OneNominalSize { sizes } => Said::new(say!(words, "Rods of {one} and {other} are sold as one size: is it one rod, given twice in two units?", one = words.fine(sizes[0]), other = words.fine(sizes[1])))
            .source(say!(words, "sizes of rod in millimetres and in fractions of an inch, common practice"))
            .cure(say!(words, "Measure the rod, and leave one of them out where it is the same."))
            .entry("[[stock.rod]] diameter"),
        WeldKind::UnusualForExtruder => Said::new(say!(words, "Sheet of this thickness is seldom welded by an extruder."))
            .cure(say!(words, "Prove it by a bend test of coupons, or weld thin sheet by hot gas."))
            .entry("[shop] process"),
        WeldKind::ManyRuns { runs } => Said::new(say!(words, "Up to {runs} runs fill one weld: more than a published lay-up has, and each draws the sheet further.", runs = *runs))
            .cure(say!(words, "Thicker rod or an extruder would take fewer."))
            .entry("[[stock.rod]] diameter"),
    }
}

fn like_to_like(words: &Words<'_>) -> Text {
    say!(
        words,
        "only like material to like, near the same melt flow: DVS 2207-3, translation of the April 2005 edition (seen)"
    )
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
            "The order of its {panels} panels was searched for: at {unreached} of the runs between them no pose of gun, hand and arm was found, and no order is better.",
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
    say!(words, "every panel once, ribs on the finished box")
}

fn out_of_reach(
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

fn not_reached(words: &Words<'_>, why: NotReached) -> Text {
    match why {
        NotReached::NoHatch => say!(
            words,
            "Everything stands by then, there is no hatch, and hand and gun cannot get there"
        ),
        NotReached::ThroughHatches => say!(
            words,
            "Everything stands by then, and gun, hand and arm were not shown to get through the hatches to all of the run"
        ),
        NotReached::PastWhatStands => say!(
            words,
            "Gun, hand and arm were not shown to get past what stands to all of the run"
        ),
    }
}

fn reach_cure(words: &Words<'_>, why: NotReached) -> Text {
    match why {
        NotReached::NoHatch | NotReached::ThroughHatches => say!(
            words,
            "To weld them from both sides: a wide hatch near them. Measure your own gun and hand over, since they decide."
        ),
        NotReached::PastWhatStands => say!(
            words,
            "Measure your own gun and hand over, since they decide; a smaller gun may get there."
        ),
    }
}
