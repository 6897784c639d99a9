//! The first page: what is to be built, and whether anything speaks against it.

use super::document::{Document, figures, wide, widest, words as column};
use crate::draw::picture::{Show, picture};
use crate::words::{self, Words};
use brimful_tank::finding::{Finding, Grade};
use brimful_tank::mass::MassStateKind;
use brimful_tank::plan::Plan;
use brimful_units::{Length, Volume, show};

pub fn write(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    let about = &plan.job.about;
    document.page(&about.name);
    document.notice(&verdict(plan));
    let (width, _) = document.room();
    document.drawing(picture(plan, Show::Closed, (width * 0.8, 62.0)));
    document.facts(&facts(plan, words));
    findings(document, plan, words);
    document.paragraph(&words.rounding());
    if let Some(notes) = &about.notes {
        document.heading("Notes of the job");
        document.paragraph(notes.trim());
    }
}

fn verdict(plan: &Plan) -> String {
    let count = |grade: Grade| {
        plan.findings
            .iter()
            .filter(|finding| finding.grade == grade)
            .count()
    };
    let (stops, mends) = (count(Grade::Stop), count(Grade::Mend));
    let several = |n: usize| if n == 1 { "finding" } else { "findings" };
    if stops > 0 {
        format!(
            "DO NOT BUILD THIS AS IT IS: {stops} {} of grade STOP, listed below with what would cure them.",
            several(stops)
        )
    } else if mends > 0 {
        format!(
            "Nothing stops the build, but {mends} {} should be mended first.",
            several(mends)
        )
    } else {
        "Nothing that was checked stops the build. What was not checked is listed with the findings and the cautions.".into()
    }
}

fn facts(plan: &Plan, words: &Words<'_>) -> Vec<(String, String)> {
    let (low, high) = plan.body.solid.bounds();
    let size = [high.x - low.x, high.y - low.y, high.z - low.z].map(Length::from_m);
    let capacity = &plan.capacity;
    let litres = |volume: Option<Volume>| {
        volume.map_or("not known (no outlet)".into(), |volume| {
            words.volume(volume)
        })
    };
    let mut facts = vec![
        (
            "Outside, along x across x high".to_string(),
            words.size(&size),
        ),
        (
            "Capacity".into(),
            format!(
                "brim {}; rated (below the air space) {}; usable (at the worst trim) {}",
                words.volume(capacity.brim()),
                words.volume(capacity.rated()),
                litres(capacity.usable())
            ),
        ),
        (
            "Liquid".into(),
            format!(
                "{}, {}, up to {}",
                plan.job
                    .liquid
                    .kind
                    .as_deref()
                    .unwrap_or("named by its density only"),
                show::density(plan.job.liquid.density, about_units(plan)),
                show::temperature(plan.job.liquid.warmest, about_units(plan))
            ),
        ),
        ("Duty".into(), words::duty(plan.job.about.duty).into()),
    ];
    let mass = |kind| {
        plan.mass
            .state(kind)
            .map_or(String::from("-"), |state| words.mass(state.mass))
    };
    facts.push((
        "Weight".into(),
        format!(
            "empty {}; rated {}; brim-full {} (panels {}, rod {})",
            mass(MassStateKind::Empty),
            mass(MassStateKind::Rated),
            mass(MassStateKind::Brim),
            words.mass(plan.mass.panels),
            words.mass(plan.mass.rod)
        ),
    ));
    facts.push((
        "Sheet".into(),
        format!(
            "{} {}: {}, {} panels, {} seams",
            plan.job.stock.material,
            thicknesses(plan, words),
            words.text.sheets(plan.cut.sheets()),
            plan.panels.len(),
            plan.seams.len()
        ),
    ));
    if let Some(customer) = &plan.job.about.customer {
        facts.push(("For".into(), customer.clone()));
    }
    facts
}

fn about_units(plan: &Plan) -> brimful_units::UnitSystem {
    plan.job.about.units
}

fn thicknesses(plan: &Plan, words: &Words<'_>) -> String {
    let texts: Vec<String> = plan
        .cut
        .groups
        .iter()
        .map(|group| words.thickness(group.thickness))
        .collect();
    texts.join(" and ")
}

fn findings(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    document.heading("Findings, worst first");
    if plan.findings.is_empty() {
        document.paragraph("None.");
        return;
    }
    let rows: Vec<Vec<String>> = plan
        .findings
        .iter()
        .map(|finding| row(finding, words))
        .collect();
    document.table(
        &[
            column("Grade"),
            wide("About"),
            widest("What is found, what would cure it, and by which source"),
            figures("Figure\nagainst limit"),
        ],
        &rows,
    );
}

fn row(finding: &Finding, words: &Words<'_>) -> Vec<String> {
    let told = words.text.finding(finding);
    let against = match (told.figure, told.limit) {
        (Some(figure), Some(limit)) => format!("{figure} /\n{limit}"),
        (Some(figure), None) => figure.to_string(),
        _ => String::new(),
    };
    let mut says = told.says.to_string();
    for (what, text) in [("Cure", &told.cure), ("Source", &told.source)] {
        if !text.is_empty() {
            says += &format!("\n{what}: {text}");
        }
    }
    vec![
        words::grade(finding.grade).into(),
        told.about.to_string(),
        says,
        against,
    ]
}
