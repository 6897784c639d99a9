//! Every example in the pseudo-locale and in both systems of units: no word comes from outside the
//! templates, and no quantity is lost on the way.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

use brimful_job::Job;
use brimful_panels::table::{Cited, Source};
use brimful_strength::load;
use brimful_tank::plan::{Depth, Plan, plan};
use brimful_text::{Language, Text, UnitSystem, Words};
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

/// What stands before every word of a template.
const MARK: char = '\u{b7}';
/// Symbols of units, axes and ids: in no language.
const SYMBOLS: &str = "x y z mm cm m m2 m3 in ft sq L US gal kg lb Pa kPa MPa psi N lbf K degC degF deg h min s g e P S";

fn examples() -> Vec<(String, Plan)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples");
    let mut all: Vec<(String, Plan)> = fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|it| it == "toml"))
        .map(|path| {
            let text = fs::read_to_string(path).unwrap();
            let plan = plan(Job::parse(&text).unwrap(), Depth::Quick).unwrap();
            (text, plan)
        })
        .collect();
    all.sort_by(|a, b| a.0.cmp(&b.0));
    assert!(all.len() > 5);
    all
}

/// Everything of a plan that is said in sentences.
fn said(plan: &Plan, words: &Words<'_>) -> Vec<Text> {
    let mut all: Vec<Text> = Vec::new();
    for finding in &plan.findings {
        let told = words.finding(finding);
        all.extend([told.about, told.says, told.cure]);
        all.extend(told.figure.into_iter().chain(told.limit));
        if finding.source.is_none() {
            all.push(told.source);
        }
    }
    for used in &plan.defaults {
        all.push(words.default_used(used).reason);
    }
    all.extend(
        load::cases(&plan.job)
            .iter()
            .map(|case| words.case(case.id)),
    );
    all.extend(words.quick_assumptions());
    all.extend(words.strength_assumptions());
    let names = plan.panels.iter().map(|panel| words.panel(&panel.name));
    all.extend(names);
    all
}

/// Runs of letters without a mark.
fn unmarked(text: &Text) -> Vec<String> {
    let mut found = Vec::new();
    let mut run = String::new();
    let mut before = ' ';
    let mut marked = false;
    for letter in text.as_str().chars().chain([' ']) {
        if letter.is_alphabetic() {
            marked |= run.is_empty() && before == MARK;
            run.push(letter);
        } else {
            if !run.is_empty() && !marked {
                found.push(std::mem::take(&mut run));
            }
            run.clear();
            marked = false;
        }
        before = letter;
    }
    found
}

/// The words that a job and the sources of its tables bring along.
fn brought_along(text: &str, plan: &Plan) -> BTreeSet<String> {
    let rows = plan.quick.rows.iter().flat_map(|row| &row.sources);
    let cited = rows.filter_map(|source: &Source| match source.cited {
        Cited::Row(text) => Some(text),
        _ => None,
    });
    let events = plan
        .job
        .events
        .iter()
        .flat_map(|event| [&event.name, &event.source]);
    let inner = plan.job.inner.iter().map(|inner| &inner.name);
    let own = events.chain(inner).map(String::as_str);
    let all = [text, SYMBOLS].into_iter().chain(cited).chain(own);
    all.flat_map(|text| text.split(|c: char| !c.is_alphabetic()))
        .map(str::to_owned)
        .collect()
}

#[test]
fn no_word_comes_from_outside_the_templates() {
    for (text, plan) in examples() {
        let allowed = brought_along(&text, &plan);
        let words = Words::new(&plan.job, Language::Pseudo).with_panels(&plan.panels);
        for system in [UnitSystem::Metric, UnitSystem::Inch] {
            for said in said(&plan, &words.in_units(system)) {
                let foreign: Vec<String> = unmarked(&said)
                    .into_iter()
                    .filter(|it| !allowed.contains(it))
                    .collect();
                assert!(foreign.is_empty(), "{foreign:?} in: {said}");
            }
        }
    }
}

#[test]
fn inch_shops_read_no_millimetres() {
    for (_, plan) in examples() {
        let words = Words::new(&plan.job, Language::English).with_panels(&plan.panels);
        for said in said(&plan, &words.in_units(UnitSystem::Inch)) {
            // What a tape may have misread is reported in both: it is measured again in either.
            let in_both = said.as_str().replace(" mm (", " (");
            let metric = [" mm", " L ", " kPa", " MPa", " kg"];
            let found = metric.iter().find(|unit| in_both.contains(**unit));
            assert!(found.is_none(), "{found:?} in: {said}");
        }
    }
}
