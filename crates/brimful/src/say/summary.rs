//! The first screen of `check`: whether it can be built, what stops it by cause, worst first, and for
//! each cause what cures it.

use super::layout::{GOOD, Label, STOP, labelled, line, paragraph};
use brimful_panels::finding::Grade;
use brimful_panels::finding::cause::{Cause, causes};
use brimful_tank::plan::Plan;
use brimful_text::{Text, Words, say};

/// Causes told before the rest are counted: what fits a screen with their cures.
const CAUSES_SHOWN: usize = 6;
/// Causes stand in behind their number.
const INDENT: usize = 5;

/// Whether it can be built, what stops it, and what cures that.
pub(super) fn summary(plan: &Plan, words: &Words<'_>) -> String {
    let causes = causes(&plan.findings);
    let of = |grade: Grade| causes.iter().filter(move |cause| cause.grade == grade);
    let stops: Vec<&Cause<'_>> = of(Grade::Stop).collect();
    let mut text = headline(&stops, words);
    for (number, cause) in stops.iter().take(CAUSES_SHOWN).enumerate() {
        text.push_str(&one(number + 1, cause, plan, words));
    }
    let more = stops.len().saturating_sub(CAUSES_SHOWN);
    let counts = [
        (more > 0).then(|| say!(words, "{more} more that stop it.", more = more)),
        match of(Grade::Mend).count() {
            0 => None,
            1 => Some(say!(words, "One thing to mend first.")),
            mend => Some(say!(words, "{mend} things to mend first.", mend = mend)),
        },
        match of(Grade::Note).count() {
            0 => None,
            1 => Some(say!(words, "One note.")),
            notes => Some(say!(words, "{notes} notes.", notes = notes)),
        },
    ];
    let counts = Text::join(counts.into_iter().flatten(), " ");
    if !counts.is_empty() {
        let counts = say!(words, "{counts} All of it under Findings.", counts = counts);
        text.push_str(&paragraph(0, 0, &counts));
    }
    text
}

fn headline(stops: &[&Cause<'_>], words: &Words<'_>) -> String {
    let (style, headline) = match stops.len() {
        0 => (GOOD, words.nothing_stops()),
        1 => (STOP, say!(words, "Do not build yet: one cause stops it.")),
        n => (
            STOP,
            say!(words, "Do not build yet: {n} causes stop it.", n = n),
        ),
    };
    format!("\n{}", line(style, 0, &headline))
}

/// A cause: what it is about and what is found, the worst figure, and the cure.
fn one(number: usize, cause: &Cause<'_>, plan: &Plan, words: &Words<'_>) -> String {
    let told = words.cause(cause);
    let (about, says) = (&told.about, &told.worst.says);
    let found = match (&told.worst.figure, &told.worst.limit) {
        (Some(figure), Some(limit)) => say!(
            words,
            "{about}: {says} {figure}, limit {limit}.",
            about = about,
            says = says,
            figure = figure,
            limit = limit,
        ),
        _ => say!(words, "{about}: {says}", about = about, says = says),
    };
    let number = say!(words, "{number}.", number = number);
    let mut text = labelled(Label::ending(INDENT - 1, &number), INDENT, &found);
    let cure = worked_out(cause, plan, words).or_else(|| {
        let cure = &told.worst.cure;
        (!cure.is_empty()).then(|| say!(words, "Cure: {cure}", cure = cure))
    });
    if let Some(cure) = cure {
        text.push_str(&paragraph(INDENT, INDENT, &cure));
    }
    text
}

/// The change that was worked out and cures a cause, with what it costs.
fn worked_out(cause: &Cause<'_>, plan: &Plan, words: &Words<'_>) -> Option<Text> {
    let remedy = plan.remedies.cure_of(cause)?;
    let change = words.change(&remedy.change.what);
    Some(match &remedy.adds {
        Some(adds) => say!(
            words,
            "Cure, worked out: {change} It {adds}.",
            change = change,
            adds = words.adds(adds),
        ),
        None => say!(words, "Cure, worked out: {change}", change = change),
    })
}
