//! The record: who measured, cut, welded and tested, and the label.

use super::document::Document;
use crate::words::Words;
use brimful_tank::plan::Plan;

pub fn write(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    document.page("Record and sign-off");
    document.heading("Before cutting");
    document.ticks(&[
        "Space measured, diagonals too; this pack is of the latest revision of the job.",
        "Sheet thickness measured and as drawn; sheet and rod of one material; certificates kept where wanted.",
        "Every fitting in the hand, hole sizes compared.",
        "Check square of the drawing files measured at the machine; check line of the dipstick page measured.",
        "Closing check: sizes of the first panel measured against its drawing before the next is cut.",
    ]);
    document.heading("Before and while welding");
    document.ticks(&[
        "Test piece of the same sheet and rod welded, cooled and bent; result:",
        "Edges scraped and wiped just before every run; film off.",
        "Every run: rod used compared with the seam's length (a stretched rod cracks later).",
        "Inner seams inspected before the tank is closed; chips and dust out.",
    ]);
    document.heading("Test");
    document.ticks(&[
        "Leak test passed by its own page.",
        "Vent and overflow free; hatch and fittings tight after one hour full.",
    ]);
    document.heading("Names");
    document.lines(&[
        "Job, revision, date",
        "Measured by",
        "Cut by",
        "Welded by",
        "Sheet batch, rod batch",
        "Gas or extruder settings used",
        "Tested by, date",
        "Handed over to, date, signature",
    ]);
    document.heading("Label for the tank");
    let thickest = plan
        .cut
        .groups
        .iter()
        .map(|group| words.thickness(group.thickness))
        .collect::<Vec<_>>()
        .join(" / ");
    document.facts(&[
        ("Tank".into(), plan.job.about.name.clone()),
        (
            "Capacity".into(),
            format!(
                "rated {}, brim {}",
                words.volume(plan.capacity.rated()),
                words.volume(plan.capacity.brim())
            ),
        ),
        (
            "Material".into(),
            format!("{} {thickest}", plan.job.stock.material),
        ),
        (
            "For".into(),
            format!(
                "{}; vented, no pressure",
                plan.job
                    .liquid
                    .kind
                    .as_deref()
                    .unwrap_or("the liquid of the job")
            ),
        ),
        ("Tested with water to the brim, date".into(), String::new()),
        ("Maker, year".into(), String::new()),
    ]);
}
