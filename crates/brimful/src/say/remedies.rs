//! The changes that were worked out and make the tank hold, by the numbers that `check --take` takes.

use super::layout::{PLAIN, line, paragraph};
use brimful_tank::plan::Plan;
use brimful_tank::remedy::Remedy;
use brimful_text::{Text, Words, say};

/// All of them, the best first, and how to take one; nothing where there is none.
pub(super) fn remedies(plan: &Plan, words: &Words<'_>) -> String {
    let shown: Vec<&Remedy> = plan.remedies.shown().collect();
    if shown.is_empty() {
        return String::new();
    }
    let head = say!(words, "Changes that make it hold:");
    let how = say!(
        words,
        "`{command}` writes the first into the job file and checks again.",
        command = words.symbol("brimful check JOB --take 1")
    );
    let each = (1..).zip(shown).map(|(number, remedy)| {
        let change = change(remedy, words);
        let said = say!(
            words,
            "{number}: {change}",
            number = number,
            change = change
        );
        paragraph(2, 5, &said)
    });
    let each: String = each.collect();
    format!("\n{}{each}{}", line(PLAIN, 0, &head), line(PLAIN, 0, &how))
}

fn change(remedy: &Remedy, words: &Words<'_>) -> Text {
    let change = words.change_with_adds(&remedy.change.what, remedy.adds.as_ref());
    match remedy.cures() {
        true => change,
        false => {
            let breaks = remedy.breaks.iter().map(|it| words.finding(it).says);
            say!(
                words,
                "{change} But it breaks this: {breaks}",
                change = change,
                breaks = Text::join(breaks, " ")
            )
        }
    }
}
