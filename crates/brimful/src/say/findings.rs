//! Findings, worst first, each with its cure; and the last line of every answer.

use super::layout::{GOOD, MEND, NOTE, STOP, heading, styled, wrapped};
use brimful_job::Job;
use brimful_panels::finding::{Finding, Grade};
use brimful_tank::plan::Plan;
use brimful_text::{Language, Words};

/// Findings stand in behind their grade.
const INDENT: usize = 6;
/// Figure, cure and source stand in behind their names.
const INNER: usize = INDENT + 8;

/// Every finding.
pub(super) fn all(findings: &[Finding], job: &Job) -> String {
    let words = Words::new(job, Language::English);
    let mut text = heading(&format!("Findings: {}", counts(findings)));
    for finding in findings {
        text.push_str(&one(&words, finding));
    }
    text
}

/// The findings that stop the build, in short, for answers about one part of the plan.
pub(super) fn stops(plan: &Plan) -> String {
    let mut text = heading(&format!("Findings: {}", counts(&plan.findings)));
    let stops = |finding: &&Finding| finding.grade == Grade::Stop;
    let words = Words::new(&plan.job, Language::English);
    for finding in plan.findings.iter().filter(stops) {
        text.push_str(&says(&words, finding));
    }
    text.push_str("Cures, sources and the other findings: `brimful check`.\n");
    text
}

/// Whether the tank may be built.
pub(super) fn verdict(plan: &Plan) -> String {
    let stops = plan.findings.iter().filter(|it| it.grade == Grade::Stop);
    match stops.count() {
        0 => format!("\n{}\n", styled(GOOD, "Nothing stops the build.")),
        1 => format!(
            "\n{}\n",
            styled(STOP, "Do not build yet: one finding stops it.")
        ),
        n => format!(
            "\n{}\n",
            styled(STOP, &format!("Do not build yet: {n} findings stop it."))
        ),
    }
}

fn counts(findings: &[Finding]) -> String {
    let grades = [Grade::Stop, Grade::Mend, Grade::Note];
    let count = |grade: Grade| {
        let number = findings.iter().filter(|it| it.grade == grade).count();
        format!("{number} {}", crate::words::grade(grade))
    };
    grades.map(count).join(", ")
}

fn one(words: &Words<'_>, finding: &Finding) -> String {
    let mut text = says(words, finding);
    let told = words.finding(finding);
    if let (Some(figure), Some(limit)) = (told.figure, told.limit) {
        let figures = format!("{figure}, limit {limit}");
        text.push_str(&wrapped("      figure  ", INNER, &figures));
    }
    if !told.cure.is_empty() {
        let cure = match told.entry {
            "" => told.cure.to_string(),
            entry => format!("{} In the job: {entry}.", told.cure),
        };
        text.push_str(&wrapped("      cure    ", INNER, &cure));
    }
    if !told.source.is_empty() {
        text.push_str(&wrapped("      source  ", INNER, told.source.as_str()));
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
    let grade = format!(
        "{:<INDENT$}",
        crate::words::grade(finding.grade).to_uppercase()
    );
    let line = finding.place.as_ref().map_or(0, |place| place.line);
    let place = if line > 0 {
        format!(" (line {line} of the job)")
    } else {
        String::new()
    };
    let says = format!("{}: {}{place}", told.about, told.says);
    wrapped(&styled(style, &grade), INDENT, &says)
}
