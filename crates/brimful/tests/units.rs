//! Whatever is said of a job is said in its units.
//!
//! Exceptions: what a person wrote (name and notes); sources, which quote figures as they are printed
//! there; rods of the published settings, which are sold by the millimetre; twist, rack and misfit of a
//! measured space, said in mm as well since a tape shows them; and flow of gas (its meters are in
//! litres).

#![allow(clippy::unwrap_used, reason = "a test may panic")]

mod common;

use brimful_job::Job;
use brimful_tank::plan::{Depth, plan};
use common::Bench;
use common::said::Given;
use serde_json::Value;

const METRIC: [&str; 18] = [
    "mm", "cm", "m", "m2", "m3", "L", "litres", "kg", "N", "kN", "Pa", "kPa", "MPa", "degC", "K",
    "mm/min", "m/min", "kg/m3",
];
const INCH: [&str; 12] = [
    "in", "ft", "sq", "gal", "lb", "lbf", "psi", "degF", "in/min", "ft/min", "inch", "inches",
];

/// Fields whose text is not said in the units of the job.
fn is_quoted(path: &str) -> bool {
    let last = path.rsplit('.').next().unwrap();
    let written = ["job.name", "job.notes", "job.customer"];
    // The unit of a figure beside it, for whoever reads figures; they are SI.
    let beside = path.contains("figure.") || path.contains("limit.");
    ["source", "sources", "entry"].contains(&last) || written.contains(&path) || beside
}

/// Every sentence of an answer with its path.
fn sentences(value: &Value, path: &str, all: &mut Vec<(String, String)>) {
    match value {
        Value::String(text) if !is_quoted(path) => all.push((path.to_owned(), text.clone())),
        Value::Array(items) => items.iter().for_each(|item| sentences(item, path, all)),
        Value::Object(entries) => {
            for (key, item) in entries {
                let path = [path, key].into_iter().filter(|part| !part.is_empty());
                sentences(item, &path.collect::<Vec<_>>().join("."), all);
            }
        }
        _ => {}
    }
}

/// Figures with a unit of this list: `4.0 mm`, `17 3/4 in`.
fn figures_in(text: &str, units: &[&str]) -> Vec<String> {
    let words: Vec<&str> = text.split_whitespace().collect();
    let bare = |word: &str| word.trim_matches(|c: char| "(),.;:".contains(c)).to_owned();
    let pairs = words.windows(2).enumerate();
    let found = pairs.filter(|(place, pair)| {
        let ends = |word: &str| bare(word).ends_with(|c: char| c.is_ascii_digit());
        // `37 mm (1 7/16 in)`: both are said.
        let both = pair[1] == "mm"
            && words
                .get(place + 2)
                .is_some_and(|next| next.starts_with('('));
        ends(pair[0]) && units.contains(&bare(pair[1]).as_str()) && !both
    });
    found.map(|(_, pair)| pair.join(" ")).collect()
}

/// An example in other units, in a file: its name, and its text.
fn example_in(bench: &Bench, job: &str, units: &str) -> (&'static str, String) {
    let file = bench.example(job);
    let text = String::from_utf8(bench.read(&file)).unwrap();
    let own = |line: &&str| !line.starts_with("units");
    let text: Vec<&str> = text.lines().filter(own).collect();
    let text = text
        .join("\n")
        .replace("[job]\n", &format!("[job]\nunits = \"{units}\"\n"));
    bench.write("said.job.toml", &text);
    ("said.job.toml", text)
}

fn said_in(bench: &Bench, call: &[&str], job: &str, units: &str, others: &[&str]) -> usize {
    let (file, _) = example_in(bench, job, units);
    let answer = bench.run(&[call, &[file, "--json"]].concat());
    assert!(answer.code < 2, "{job}: {}", answer.err);
    let mut all = Vec::new();
    sentences(&answer.json(), "", &mut all);
    for (path, text) in &all {
        let wrong = figures_in(text, others);
        let rod = path == "weld.settings.quantity" && text.starts_with("force on");
        assert!(
            wrong.is_empty() || rod,
            "{job} in {units}, {path}: {wrong:?} in {text}"
        );
    }
    all.iter()
        .filter(|(_, text)| text.chars().any(|c| c.is_ascii_digit()))
        .count()
}

#[test]
fn every_sentence_of_a_check_is_in_the_units_of_the_job() {
    let bench = Bench::new();
    // A draft of each; where the whole tank takes but a moment, that with its remedies.
    let quick = [
        "alcove-tank",
        "frame-rail-sprayer",
        "rain-alcove",
        "bench-box",
    ];
    for job in common::examples() {
        let call: &[&str] = match quick.contains(&job.as_str()) {
            true => &["check", "--quick"],
            false => &["check"],
        };
        for (units, others) in [("metric", &INCH[..]), ("inch", &METRIC[..])] {
            let count = said_in(&bench, call, &job, units, others);
            assert!(count > 50, "{job}: {count} sentences with figures");
        }
    }
}

#[test]
fn every_sentence_of_what_fits_is_in_the_units_of_the_job() {
    let bench = Bench::new();
    for job in ["under-bed-arch", "bilge-wedge"] {
        for (units, others) in [("metric", &INCH[..]), ("inch", &METRIC[..])] {
            said_in(&bench, &["fit"], job, units, others);
        }
    }
}

#[test]
fn every_line_on_a_terminal_is_in_the_units_of_the_job() {
    let bench = Bench::new();
    for job in common::examples() {
        for (units, others) in [("metric", &INCH[..]), ("inch", &METRIC[..])] {
            let (file, text) = example_in(&bench, &job, units);
            let plan = plan(Job::parse(&text).unwrap(), Depth::Quick).unwrap();
            let mut given = Given::of_plan(&text, &plan);
            // Rod is sold by the millimetre.
            for size in [3, 4, 5] {
                given.add(&format!("force on {size} mm rod"));
            }
            for verb in ["check", "cut", "weld", "gauge"] {
                // One job whole, for the tables that a draft has not.
                let call: &[&str] = match (job.as_str(), verb) {
                    ("shelf-box", "check") => &["check", file],
                    _ => &[verb, file, "--quick"],
                };
                let answer = bench.run(call);
                assert!(answer.code < 2, "{job}: {}", answer.err);
                let wrong = figures_in(&given.taken_out_of(&answer.out), others);
                assert!(wrong.is_empty(), "{verb} {job} in {units}: {wrong:?}");
            }
        }
    }
}

/// The scan itself: a unit that is wrong is found, and a name that looks like one is none.
#[test]
fn a_figure_in_the_wrong_units_is_found() {
    assert_eq!(figures_in("a throat of 5.6 mm, wide", &METRIC), ["5.6 mm,"]);
    assert_eq!(figures_in("17 3/4 in.", &INCH), ["3/4 in."]);
    assert!(figures_in("off by 37 mm (1 7/16 in) there", &METRIC).is_empty());
    assert!(figures_in("`L 2` gains 3 in all, in 2 pieces", &["L"]).is_empty());
}
