//! How much it holds, in words.

use super::said::Said;
use crate::text::Text;
use crate::words::Words;
use brimful_job::Capacity;
use brimful_panels::finding::kind::CapacityKind;

pub(super) fn said(words: &Words<'_>, kind: &CapacityKind) -> Said {
    match kind {
        CapacityKind::ReachUnknown(fault) => {
            let fault = words.boolean_fault(fault);
            Said::new(say!(words, "What its outlets or vents reach could not be worked out: {fault}.", fault = fault))
                .cure(say!(words, "Simplify the inner panels near it."))
        }
        CapacityKind::NoVent => Said::new(say!(words, "It has no vent: filling and drawing would strain the walls."))
            .source(practice(words))
            .cure(say!(words, "Put a vent at its highest place."))
            .entry("[[opening]] service = \"vent\""),
        CapacityKind::NoOutlet => Said::new(say!(words, "It has no draw or drain opening, so its usable capacity cannot be said."))
            .source(practice(words))
            .cure(say!(words, "Put in an opening to draw from."))
            .entry("[[opening]] service = \"draw\""),
        CapacityKind::NeitherFilledNorDrawn => Said::new(say!(words, "Nothing fills this compartment and nothing draws from it, yet it counts as one that is full."))
            .source(practice(words))
            .cure(say!(words, "Put in what fills and what draws; or, if it is meant to stay dry, say so."))
            .entry("[[dry]] between"),
        CapacityKind::TrappedAir => Said::new(say!(words, "At the worst trim so much air is trapped that it never fills to its rated surface; the rated and usable capacities are lower for it."))
            .source(say!(words, "the cavity cut by the tilted surface"))
            .cure(say!(words, "Move the vent to the highest place at that trim, or put one into every place where air is trapped: each lets out its own.")),
        CapacityKind::BelowWanted(of) => Said::new(say!(words, "The {which} capacity is less than what is wanted.", which = words.capacity(*of)))
            .source(say!(words, "the capacity wanted in the job"))
            .cure(match of {
                Capacity::Brim => say!(words, "Make the body larger or the sheet thinner; or agree on less."),
                Capacity::Rated => say!(words, "Make the body larger, the sheet thinner or the air space smaller; or agree on less."),
                Capacity::Usable => say!(words, "Make the outlet lower, with a sump or a dip tube, the air space smaller, the body larger or the sheet thinner; or agree on less."),
            }),
        CapacityKind::NarrowlyWanted { of, within } => Said::new(say!(words, "The {which} capacity is what is wanted, but panels sawn within the saw's tolerance may make it up to {within} less.", which = words.capacity(*of), within = words.volume(*within)))
            .source(say!(words, "half the area of the cavity times the saw's tolerance"))
            .cure(say!(words, "Saw to the upper side of each size, make the body a little larger, or promise a little less."))
            .entry("[shop] saw_tolerance"),
    }
}

fn practice(words: &Words<'_>) -> Text {
    say!(words, "common practice")
}
