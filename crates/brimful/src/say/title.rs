//! What the tank is; every answer begins with it.

use super::layout::{HEADING, PLAIN, line, paragraph};
use brimful_job::Duty;
use brimful_tank::plan::Plan;
use brimful_text::{Words, say};
use brimful_units::Length;

/// What the tank is, in two lines; where lengths are rounded to a fraction, that in a third.
pub(super) fn title(plan: &Plan, words: &Words<'_>) -> String {
    let about = &plan.job.about;
    let (low, high) = plan.body.solid.bounds();
    let size = [high.x - low.x, high.y - low.y, high.z - low.z].map(Length::from_m);
    let tank = say!(
        words,
        "{liquid}, {duty}; {material}; outside {size}",
        liquid = words.liquids(|liquid| words.liquid(liquid)),
        duty = match about.duty {
            Duty::Road => say!(words, "on the road"),
            other => words.duty(other),
        },
        material = words.given(&plan.job.stock.material),
        size = words.sizes(size)
    );
    let mut text = line(HEADING, 0, &words.given(&about.name));
    text.push_str(&paragraph(0, 0, &tank));
    if let Some(rounding) = words.fraction_note() {
        text.push_str(&line(PLAIN, 0, &rounding));
    }
    text
}
