//! Findings, worst first, each with its cure; and the last line of every answer.

use super::layout::{GOOD, Label, MEND, NOTE, PLAIN, STOP, heading, labelled, line};
use brimful_panels::finding::cause::causes;
use brimful_panels::finding::{Finding, Grade};
use brimful_tank::plan::Plan;
use brimful_text::{Text, Words, say};

/// Findings stand in behind their grade.
const INDENT: usize = 6;
/// Figure, cure and source stand in behind their names.
const INNER: usize = INDENT + 8;

/// Every finding.
pub(super) fn all(findings: &[Finding], words: &Words<'_>) -> String {
    title(findings, words) + &each(findings, words)
}

/// Findings without how many there are.
pub(super) fn each(findings: &[Finding], words: &Words<'_>) -> String {
    findings.iter().map(|it| one(words, it)).collect()
}

/// The findings that stop the build, in short, for answers about one part of the plan.
pub(super) fn stops(plan: &Plan, words: &Words<'_>) -> String {
    let mut text = title(&plan.findings, words);
    let stops = |finding: &&Finding| finding.grade == Grade::Stop;
    for finding in plan.findings.iter().filter(stops) {
        text.push_str(&says(words, finding));
    }
    let others = say!(
        words,
        "Cures, sources and the other findings: `{command}`.",
        command = words.symbol("brimful check")
    );
    text.push_str(&line(PLAIN, 0, &others));
    text
}

/// Whether the tank may be built.
pub(super) fn verdict(plan: &Plan, words: &Words<'_>) -> String {
    let verdict = words.verdict(plan);
    let style = match (verdict.clear, verdict.causes.is_empty()) {
        (true, _) => GOOD,
        (false, true) => PLAIN,
        (false, false) => STOP,
    };
    format!("\n{}", line(style, 0, &verdict.headline))
}

/// How many there are of each grade, and how many causes they have, as the verdict counts.
fn title(findings: &[Finding], words: &Words<'_>) -> String {
    let causes = causes(findings);
    let counts = [Grade::Stop, Grade::Mend, Grade::Note].map(|grade| {
        let number = findings.iter().filter(|it| it.grade == grade).count();
        let causes = causes.iter().filter(|it| it.grade == grade).count();
        let grade = words.grade(grade);
        match causes {
            _ if causes == number => {
                say!(words, "{number} {grade}", number = number, grade = grade)
            }
            1 => say!(
                words,
                "{number} {grade} (one cause)",
                number = number,
                grade = grade
            ),
            _ => say!(
                words,
                "{number} {grade} ({causes} causes)",
                number = number,
                grade = grade,
                causes = causes
            ),
        }
    });
    heading(&say!(
        words,
        "Findings: {counts}",
        counts = Text::join(counts, ", ")
    ))
}

fn one(words: &Words<'_>, finding: &Finding) -> String {
    let mut text = says(words, finding);
    let told = words.finding(finding);
    let mut inner = |label: Text, told: &Text| {
        text.push_str(&labelled(Label::new(INDENT, &label), INNER, told));
    };
    if let (Some(figure), Some(limit)) = (told.figure, told.limit) {
        let figures = say!(
            words,
            "{figure}, limit {limit}",
            figure = figure,
            limit = limit
        );
        inner(say!(words, "figure"), &figures);
    }
    if !told.cure.is_empty() {
        let cure = match told.entry {
            "" => told.cure,
            entry => say!(
                words,
                "{cure} In the job: {entry}.",
                cure = told.cure,
                entry = words.symbol(entry)
            ),
        };
        inner(say!(words, "cure"), &cure);
    }
    if !told.source.is_empty() {
        inner(say!(words, "source"), &told.source);
    }
    text
}

/// Grade, what it is about and what is found.
fn says(words: &Words<'_>, finding: &Finding) -> String {
    let told = words.finding(finding);
    let style = match finding.grade {
        Grade::Stop => STOP,
        Grade::Mend => MEND,
        Grade::Note => NOTE,
    };
    let grade = words.grade(finding.grade).in_capitals();
    let label = Label {
        style,
        at: 0,
        text: &grade,
    };
    let line = finding.place.as_ref().map_or(0, |place| place.line);
    let says = match line {
        0 => say!(
            words,
            "{about}: {says}",
            about = told.about,
            says = told.says
        ),
        line => say!(
            words,
            "{about}: {says} (line {line} of the job)",
            about = told.about,
            says = told.says,
            line = line
        ),
    };
    labelled(label, INDENT, &says)
}
