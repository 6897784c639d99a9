//! Changes that would make it hold, in words.

use super::said::Said;
use crate::change::change_entry;
use crate::text::Text;
use crate::words::Words;
use brimful_panels::finding::kind::RemedyKind;
use brimful_tank::remedy::{Adds, AutoResult, Variant, What};

pub(super) fn said(words: &Words<'_>, kind: &RemedyKind) -> Said {
    match kind {
        RemedyKind::FittingInTheWay => Said::new(say!(
            words,
            "This fitting stands where the change puts something."
        ))
        .cure(say!(words, "Move it.")),
        RemedyKind::NoneHolds { tried } => Said::new(none_holds(words, *tried))
            .source(method(words))
            .cure(say!(
                words,
                "Combine more of them, or make the tank smaller."
            )),
        RemedyKind::HoldsButBreaks { tried, what, adds } => {
            let change = words.change_with_adds(what, adds.as_ref());
            Said::new(say!(words, "Of {n} changes that were worked out none makes the tank hold without breaking something else. Of those that do break something this costs least: {change}", n = *tried, change = change))
                .source(method(words))
                .cure(say!(words, "Mend what it breaks, put it into the job and check again."))
                .entry(change_entry(what))
        }
        RemedyKind::Hold { tried, cheapest } => Said::new(hold(words, *tried, cheapest))
            .source(method(words))
            .cure(say!(words, "Put one of them into the job and check again."))
            .entry(cheapest.first().map_or("", |(what, _)| change_entry(what))),
        RemedyKind::AutoSelected { tried, taken } => auto(words, tried, *taken),
    }
}

fn none_holds(words: &Words<'_>, tried: usize) -> Text {
    match tried {
        1 => say!(
            words,
            "The one change that was worked out does not make the tank hold; it is listed with what it comes to."
        ),
        n => say!(
            words,
            "Of {n} changes that were worked out, by themselves and two together, none makes the tank hold; the build pack and the page list what each comes to.",
            n = n
        ),
    }
}

fn hold(words: &Words<'_>, tried: usize, cheapest: &[(What, Option<Adds>)]) -> Text {
    let each = cheapest.iter();
    let each = each.map(|(what, adds)| words.change_with_adds(what, adds.as_ref()));
    let each = Text::join(each, " ");
    match tried {
        1 => say!(
            words,
            "The one change that was worked out makes the tank hold: {each}",
            each = each
        ),
        n => say!(
            words,
            "Of {n} changes that were worked out these make the tank hold, cheapest first: {each}",
            n = n,
            each = each
        ),
    }
}

fn auto(words: &Words<'_>, tried: &[(Variant, AutoResult)], taken: usize) -> Said {
    let all = Text::join(tried.iter().map(|it| words.variant_result(it)), "; ");
    let says = match tried.get(taken) {
        Some((variant, AutoResult::Holds)) => say!(
            words,
            "{taken} is the cheapest that holds. Tried, cheapest first: {all}.",
            taken = words.variant(variant).capitalised(),
            all = all
        ),
        Some((variant, _)) => say!(
            words,
            "None that was tried holds; {taken} is taken. Tried, cheapest first: {all}.",
            taken = words.variant(variant),
            all = all
        ),
        None => say!(words, "Tried, cheapest first: {all}.", all = all),
    };
    Said::new(says).source(say!(words, "every sheet of the stock, with baffles from the rule of 46 CFR 182.440(a)(8) up, through the whole-tank check"))
}

fn method(words: &Words<'_>) -> Text {
    say!(
        words,
        "each change laid out and run again; those named have gone through everything that is checked of a tank"
    )
}
