//! The first page: what is to be built, and whether anything speaks against it.

use super::document::{Document, figures, wide, widest, words as column};
use crate::draw::picture::{Show, picture};
use crate::words::Words;
use brimful_panels::finding::{Finding, Grade};
use brimful_tank::mass::MassStateKind;
use brimful_tank::plan::Plan;
use brimful_text::{Text, say};
use brimful_units::{Length, Volume};

pub fn write(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    let about = &plan.job.about;
    document.page(&words.given(&about.name));
    verdict(document, plan, words);
    let (width, _) = document.room();
    document.drawing(picture(plan, Show::Closed, (width * 0.8, 62.0)));
    document.facts(&facts(plan, words));
    findings(document, plan, words);
    document.paragraph(&words.rounding());
    if let Some(notes) = &about.notes {
        document.heading(&say!(words, "Notes of the job"));
        document.paragraph(&words.given(notes.trim()));
    }
}

/// Whether it can be built, and what stops it by cause with what cures each.
fn verdict(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    let verdict = words.verdict(plan);
    document.notice(&verdict.headline);
    if verdict.clear {
        document.paragraph(&say!(
            words,
            "What is not checked is listed with the findings and the cautions."
        ));
    } else {
        let causes = verdict.causes.into_iter();
        let causes = causes
            .map(|cause| Text::join([Some(cause.found), cause.cure].into_iter().flatten(), " "));
        document.steps(&causes.collect::<Vec<_>>());
    }
    if !verdict.more.is_empty() {
        document.paragraph(&verdict.more);
    }
}

fn facts(plan: &Plan, words: &Words<'_>) -> Vec<(Text, Text)> {
    let (low, high) = plan.body.solid.bounds();
    let size = [high.x - low.x, high.y - low.y, high.z - low.z].map(Length::from_m);
    let capacity = &plan.capacity;
    let litres = |volume: Option<Volume>| {
        volume.map_or_else(
            || say!(words, "not known (no outlet)"),
            |volume| words.volume(volume),
        )
    };
    let mut facts = vec![
        (
            say!(words, "Outside, along x across x high"),
            words.size(size),
        ),
        (
            say!(words, "Capacity"),
            say!(
                words,
                "brim {brim}; rated (below the air space) {rated}; usable (at the worst trim) {usable}",
                brim = words.volume(capacity.brim()),
                rated = words.volume(capacity.rated()),
                usable = litres(capacity.usable())
            ),
        ),
        (
            say!(words, "Liquid"),
            words.liquids(|liquid| {
                say!(
                    words,
                    "{liquid}, {density}, up to {warmest}",
                    liquid = liquid.kind.as_deref().map_or_else(
                        || say!(words, "named by its density only"),
                        |kind| words.given(kind)
                    ),
                    density = words.density(liquid.density),
                    warmest = words.temperature(liquid.warmest)
                )
            }),
        ),
        (say!(words, "Duty"), words.duty(plan.job.about.duty)),
    ];
    let mass = |kind| {
        plan.mass
            .state(kind)
            .map_or(words.symbol("-"), |state| words.mass(state.mass))
    };
    facts.push((
        say!(words, "Weight"),
        say!(
            words,
            "empty {empty}; rated {rated}; brim-full {brim} (panels {panels}, rod {rod})",
            empty = mass(MassStateKind::Empty),
            rated = mass(MassStateKind::Rated),
            brim = mass(MassStateKind::Brim),
            panels = words.mass(plan.mass.panels),
            rod = words.mass(plan.mass.rod)
        ),
    ));
    facts.push((
        say!(words, "Sheet"),
        say!(
            words,
            "{material} {thicknesses}: {sheets}, {panels} panels, {seams} seams",
            material = words.given(&plan.job.stock.material),
            thicknesses = thicknesses(plan, words),
            sheets = words.sheets(plan.cut.sheets()),
            panels = plan.panels.len(),
            seams = plan.seams.len()
        ),
    ));
    if let Some(customer) = &plan.job.about.customer {
        facts.push((say!(words, "For"), words.given(customer)));
    }
    facts
}

fn thicknesses(plan: &Plan, words: &Words<'_>) -> Text {
    let groups = plan.cut.groups.iter();
    Text::join(groups.map(|group| words.thickness(group.thickness)), " + ")
}

fn findings(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    document.heading(&say!(words, "Findings, worst first"));
    if plan.findings.is_empty() {
        document.paragraph(&say!(words, "None."));
        return;
    }
    let rows: Vec<Vec<Text>> = plan
        .findings
        .iter()
        .map(|finding| row(finding, words))
        .collect();
    document.table(
        &[
            column(say!(words, "Grade")),
            wide(say!(words, "About")),
            widest(say!(
                words,
                "What is found, what would cure it, and by which source"
            )),
            figures(say!(words, "Figure\nagainst limit")),
        ],
        &rows,
    );
}

fn row(finding: &Finding, words: &Words<'_>) -> Vec<Text> {
    let told = words.finding(finding);
    let against = match (told.figure, told.limit) {
        (Some(figure), Some(limit)) => Text::join([figure, limit], " /\n"),
        (Some(figure), None) => figure,
        _ => Text::default(),
    };
    let mut says = vec![told.says];
    if !told.cure.is_empty() {
        says.push(say!(words, "Cure: {cure}", cure = told.cure));
    }
    if !told.source.is_empty() {
        says.push(say!(words, "Source: {source}", source = told.source));
    }
    let grade = match finding.grade {
        Grade::Stop => say!(words, "STOP"),
        Grade::Mend => say!(words, "Mend"),
        Grade::Note => say!(words, "Note"),
    };
    vec![grade, told.about, Text::join(says, "\n"), against]
}
