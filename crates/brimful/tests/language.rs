//! Whatever the command prints comes through the templates of `brimful-text`, so that it can be said in
//! another language: in the pseudo-locale every word has a mark, but for what others have written.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

mod common;

use brimful_job::{DefaultValue, Job, KeyForm, reference};
use brimful_tank::fit::fit;
use brimful_tank::plan::{Depth, Plan, plan};
use common::said::{Given, unmarked};
use common::{Bench, Ended};

/// The examples that have a space, and in which what fits is found in a moment.
const WITH_SPACE: [&str; 2] = ["under-bed-arch", "bilge-wedge"];

fn planned(text: &str, depth: Depth) -> Plan {
    plan(Job::parse(text).unwrap(), depth).unwrap()
}

fn spoken(bench: &Bench, call: &[&str]) -> Ended {
    bench.run(&[call, &["--language", "en-XA"]].concat())
}

#[track_caller]
fn all_marked(said: &str, given: &Given) {
    assert!(!said.is_empty());
    let foreign = unmarked(&given.taken_out_of(said));
    assert!(foreign.is_empty(), "{foreign:#?} in:\n{said}");
}

#[test]
fn every_word_of_a_draft_has_a_mark() {
    let bench = Bench::new();
    for name in common::examples() {
        let file = bench.example(&name);
        let text = String::from_utf8(bench.read(&file)).unwrap();
        let given = Given::of_plan(&text, &planned(&text, Depth::Quick));
        for verb in ["check", "cut", "weld", "gauge"] {
            let ended = spoken(&bench, &[verb, &file, "--quick"]);
            assert!(ended.code < 2, "{name}: {}", ended.err);
            all_marked(&ended.out, &given);
        }
        let tilted = ["gauge", &file, "--quick", "--heel", "3 deg"];
        all_marked(&spoken(&bench, &tilted).out, &given);
    }
}

#[test]
fn every_word_of_how_the_liquid_swings_has_a_mark() {
    let bench = Bench::new();
    for name in ["camper-bench", "bilge-wedge"] {
        let file = bench.example(name);
        let text = String::from_utf8(bench.read(&file)).unwrap();
        let plan = planned(&text, Depth::Quick);
        let mut given = Given::of_plan(&text, &plan);
        given.add_findings(&plan.slosh().findings, &plan.job);
        let ended = spoken(&bench, &["slosh", &file, "--quick"]);
        assert!(ended.code < 2, "{name}: {}", ended.err);
        all_marked(&ended.out, &given);
    }
}

#[test]
fn every_word_of_the_whole_check_has_a_mark() {
    let bench = Bench::new();
    let file = bench.example("shelf-box");
    let text = String::from_utf8(bench.read(&file)).unwrap();
    let given = Given::of_plan(&text, &planned(&text, Depth::Remedies));
    all_marked(&spoken(&bench, &["check", &file]).out, &given);
}

#[test]
fn every_word_of_what_fits_has_a_mark() {
    let bench = Bench::new();
    for name in WITH_SPACE {
        let file = bench.example(name);
        let text = String::from_utf8(bench.read(&file)).unwrap();
        let job = Job::parse(&text).unwrap();
        let mut given = Given::default();
        given.add_job(&text, &job);
        given.add_findings(&fit(job.clone()).unwrap().findings, &job);
        all_marked(&spoken(&bench, &["fit", &file]).out, &given);
    }
}

#[test]
fn every_word_about_the_keys_of_a_job_file_has_a_mark() {
    let bench = Bench::new();
    let mut given = Given::default();
    let keys = reference().iter().flat_map(|section| &section.keys);
    for key in keys.clone() {
        given.add(&key.path);
        given.add(key.path.rsplit('.').next().unwrap());
        key.examples
            .iter()
            .flat_map(|it| it.lines())
            .for_each(|it| given.add(it));
    }
    for key in keys.clone() {
        key.forms.iter().for_each(|form| add_form(&mut given, form));
        for default in &key.defaults {
            given.add(default.choice);
            add_value(&mut given, &default.value);
        }
    }
    reference().iter().for_each(|it| given.add(it.heading));
    let explained = |asked: &str| spoken(&bench, &["new", &format!("--explain={asked}")]).out;
    all_marked(&explained(""), &given);
    for section in reference() {
        all_marked(&outside_quotes(&explained(section.path)), &given);
    }
    for key in keys {
        all_marked(&outside_quotes(&explained(&key.path)), &given);
    }
}

/// Words and units of a job file, which are the same in every language.
fn add_form(given: &mut Given, form: &KeyForm) {
    match form {
        KeyForm::Quantity { kind, .. } => given.add(&kind.units().join(", ")),
        KeyForm::Capacity(words) => given.add(&words.join(", ")),
        KeyForm::List { items, .. } | KeyForm::Named { items } => {
            items.iter().for_each(|form| add_form(given, form));
        }
        _ => {}
    }
}

fn add_value(given: &mut Given, value: &DefaultValue) {
    match value {
        DefaultValue::Flag(flag) => given.add(&flag.to_string()),
        DefaultValue::Word(word) => given.add(word),
        DefaultValue::List(items) => items.iter().for_each(|item| add_value(given, item)),
        DefaultValue::Table(entries) => {
            for (key, value) in entries {
                given.add(key);
                add_value(given, value);
            }
        }
        _ => {}
    }
}

/// What may be written in a job file stands in quotation marks.
fn outside_quotes(text: &str) -> String {
    text.split('"').step_by(2).collect::<Vec<_>>().join(" ")
}

#[test]
fn every_word_of_a_fault_has_a_mark() {
    let bench = Bench::new();
    let told = |call: &[&str], given: &[&str]| {
        let ended = spoken(&bench, call);
        assert!(ended.code >= 2 && ended.out.is_empty(), "{ended:?}");
        let mut known = Given::default();
        given.iter().for_each(|it| known.add(it));
        all_marked(&ended.err, &known);
    };
    told(&["check", "none.job.toml"], &["none.job.toml", "new"]);
    told(&["check", "."], &[]);
    let wrong = "[job]\nname = \"box\"\nduti = \"road\"\n";
    bench.write("wrong.job.toml", wrong);
    let own = [
        "wrong.job.toml",
        "duti = \"road\"",
        "job.duti",
        "duti",
        "duty",
        "job",
        "body",
        "liquid",
        "space",
        "customer",
        "fraction",
        "lengths",
        "name",
        "notes",
        "units",
        "[liquid]",
        "[body]",
        "[space]",
    ];
    told(&["check", "wrong.job.toml"], &own);
    told(&["new", "wrong.job.toml"], &["wrong.job.toml"]);
    told(
        &["new", "--explain=clearence"],
        &["clearence", "clearance", "new --explain"],
    );
    let examples = common::examples().join(", ");
    told(
        &["new", "a.job.toml", "--like", "shelf-bix"],
        &["shelf-bix", "shelf-box", "--like", &examples],
    );
    let job = bench.example("bench-box");
    told(
        &["pack", &job, "--quick", "-o", &job],
        &["bench-box.job.toml"],
    );
    told(
        &["pack", &job, "--quick", "-o", "none/pack"],
        &["none/pack"],
    );
}
