//! The record: who measured, cut, welded and tested, and the label.

use super::document::Document;
use crate::words::Words;
use brimful_tank::plan::Plan;
use brimful_text::{Text, say};

pub fn write(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    document.page(&say!(words, "Record and sign-off"));
    document.heading(&say!(words, "Before cutting"));
    document.ticks(&[
        say!(words, "Space measured, diagonals too; this pack is of the latest revision of the job."),
        say!(words, "Sheet thickness measured and as drawn; sheet and rod of one material; certificates kept where wanted."),
        say!(words, "Every fitting in the hand, hole sizes compared."),
        say!(words, "Check square of the drawing files measured at the machine; check line of the dipstick page measured."),
        say!(words, "Closing check: sizes of the first panel measured against its drawing before the next is cut."),
    ]);
    document.heading(&say!(words, "Before and while welding"));
    document.ticks(&[
        say!(
            words,
            "Test piece of the same sheet and rod welded, cooled and bent; result:"
        ),
        say!(
            words,
            "Edges scraped and wiped just before every run; film off."
        ),
        say!(
            words,
            "Every run: rod used compared with the seam's length (a stretched rod cracks later)."
        ),
        say!(
            words,
            "Inner seams inspected before the tank is closed; chips and dust out."
        ),
    ]);
    document.heading(&say!(words, "Test"));
    document.ticks(&[
        say!(words, "Leak test passed by its own page."),
        say!(
            words,
            "Vent and overflow free; hatch and fittings tight after one hour full."
        ),
    ]);
    document.heading(&say!(words, "Names"));
    document.lines(&[
        say!(words, "Job, revision, date"),
        say!(words, "Measured by"),
        say!(words, "Cut by"),
        say!(words, "Welded by"),
        say!(words, "Sheet batch, rod batch"),
        say!(words, "Gas or extruder settings used"),
        say!(words, "Tested by, date"),
        say!(words, "Handed over to, date, signature"),
    ]);
    document.heading(&say!(words, "Label for the tank"));
    let groups = plan.cut.groups.iter();
    let thicknesses = Text::join(groups.map(|group| words.thickness(group.thickness)), " / ");
    let liquid = words.liquids(|liquid| words.liquid(liquid));
    document.facts(&[
        (say!(words, "Tank"), words.given(&plan.job.about.name)),
        (
            say!(words, "Capacity"),
            say!(
                words,
                "rated {rated}, brim {brim}",
                rated = words.volume(plan.capacity.rated()),
                brim = words.volume(plan.capacity.brim())
            ),
        ),
        (
            say!(words, "Material"),
            say!(
                words,
                "{material} {thicknesses}",
                material = words.given(&plan.job.stock.material),
                thicknesses = thicknesses
            ),
        ),
        (
            say!(words, "For"),
            say!(words, "{liquid}; vented, no pressure", liquid = liquid),
        ),
        (
            say!(words, "Tested with water to the brim, date"),
            Text::default(),
        ),
        (say!(words, "Maker, year"), Text::default()),
    ]);
}
