//! The first screen of `check`: whether it can be built, what stops it by cause, worst first, and for
//! each cause what cures it.

use super::layout::{GOOD, Label, PLAIN, STOP, labelled, line, paragraph};
use brimful_tank::plan::Plan;
use brimful_text::verdict::CauseOfStop;
use brimful_text::{Words, say};

/// Causes stand in behind their number.
const INDENT: usize = 5;

/// Whether it can be built, what stops it, and what cures that.
pub(super) fn summary(plan: &Plan, words: &Words<'_>) -> String {
    let verdict = words.verdict(plan);
    let style = match (verdict.clear, verdict.causes.is_empty()) {
        (true, _) => GOOD,
        (false, true) => PLAIN,
        (false, false) => STOP,
    };
    let mut text = format!("\n{}", line(style, 0, &verdict.headline));
    for (number, cause) in verdict.causes.iter().enumerate() {
        text.push_str(&one(number + 1, cause, words));
    }
    if !verdict.more.is_empty() {
        text.push_str(&paragraph(0, 0, &verdict.more));
    }
    text
}

fn one(number: usize, cause: &CauseOfStop, words: &Words<'_>) -> String {
    let number = say!(words, "{number}.", number = number);
    let mut text = labelled(Label::ending(INDENT - 1, &number), INDENT, &cause.found);
    if let Some(cure) = &cause.cure {
        text.push_str(&paragraph(INDENT, INDENT, cure));
    }
    text
}
