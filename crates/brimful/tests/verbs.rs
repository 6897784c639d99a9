//! Every verb on every example, in words and as JSON.

#![allow(clippy::unwrap_used, reason = "a test ends where it fails")]

mod common;
use common::schema::{assert_fits, committed};
use common::{Bench, examples};
use serde_json::Value;

/// The verbs that read a job, with the sections that each gives. The whole-tank check takes
/// seconds: it has tests of its own.
const VERBS: [(&[&str], &[&str]); 4] = [
    (
        &["check", "--quick"],
        &[
            "job",
            "defaults",
            "capacity",
            "mass",
            "room",
            "fitting_room",
            "way_in",
            "panels",
            "seams",
            "strength",
            "cut",
            "weld",
            "gauge",
            "causes",
            "findings",
        ],
    ),
    (
        &["cut", "--quick"],
        &["job", "panels", "cut", "causes", "findings"],
    ),
    (
        &["weld", "--quick"],
        &["job", "panels", "seams", "weld", "causes", "findings"],
    ),
    (
        &["gauge", "--quick"],
        &["job", "capacity", "gauge", "causes", "findings"],
    ),
];

const DOCUMENT: &str = "#/$defs/Document";

#[test]
fn the_committed_schemas_are_the_generated_ones() {
    let generated = [
        ("schema", "brimful.schema.json", brimful::wire::schema()),
        ("openapi", "openapi.json", brimful::openapi()),
    ];
    for (example, file, generated) in generated {
        assert!(
            committed(file) == generated,
            "run: cargo run --release -p brimful --example {example} > docs/schema/{file}"
        );
    }
}

/// How the liquid swings, on one example with baffles and on one without: both ways, nothing that is not in the schema, and slower
/// across a baffle than without it. The same again gives the same bytes.
#[test]
fn slosh_answers_in_words_and_as_json() {
    let bench = Bench::new();
    for name in ["camper-bench", "bilge-wedge"] {
        let job = bench.example(name);
        let said = bench.run(&["slosh", &job, "--quick"]);
        assert!(said.code < 2, "{name}: {}", said.err);
        assert!(said.out.contains("not worked out"), "{}", said.out);
        let told = bench.run(&["slosh", &job, "--quick", "--json"]);
        assert_eq!(
            told.out,
            bench.run(&["slosh", &job, "--quick", "--json"]).out
        );
        let document: Value = serde_json::from_str(&told.out).unwrap();
        let schema = committed("brimful.schema.json");
        assert_fits(&schema, DOCUMENT, &document, name);
        for room in document["slosh"]["rooms"].as_array().unwrap() {
            let fills = room["fills"].as_array().unwrap();
            assert_eq!(fills.len(), 19);
            for directed in fills
                .iter()
                .flat_map(|it| it["directions"].as_array().unwrap())
            {
                let swings = directed["swings"].as_array().unwrap();
                let moves: f64 = swings.iter().map(|it| it["moves"].as_f64().unwrap()).sum();
                assert!(moves + directed["frozen"].as_f64().unwrap() < 1.01);
            }
        }
    }
}

/// On a terminal the step in hand is named, and the line is gone before the answer; in a pipe there is none.
#[test]
fn long_work_is_shown_on_a_terminal_alone() {
    const STEP: &str = "loads on a mesh of";
    let bench = Bench::new();
    let job = bench.example("camper-bench");
    let piped = bench.run(&["check", &job]);
    assert!(
        piped.err.is_empty() && !piped.out.contains(STEP),
        "{piped:?}"
    );
    let call = format!("{} check {job}", env!("CARGO_BIN_EXE_brimful"));
    let mut terminal = std::process::Command::new("script");
    terminal.args(["--quiet", "--return", "--command", &call, "/dev/null"]);
    let seen = terminal.current_dir(bench.path("")).output().unwrap();
    let seen = String::from_utf8_lossy(&seen.stdout).into_owned();
    assert!(seen.contains(STEP), "{seen}");
    let last = seen.rfind(STEP).unwrap();
    assert!(last < seen.find("camper bench").unwrap(), "{seen}");
}

#[cfg(target_os = "linux")]
#[test]
fn work_is_stopped_by_ctrl_c_without_an_answer() {
    let bench = Bench::new();
    let job = bench.example("frame-rail-sprayer");
    let mut command = bench.command(&["check", &job]);
    command
        .stdout(std::process::Stdio::piped())
        .stderr(std::process::Stdio::piped());
    let mut child = command.spawn().unwrap();
    assert!(common::interrupt_when(&mut child, || true));
    let ended = child.wait_with_output().unwrap();
    let said = String::from_utf8_lossy(&ended.stderr).into_owned();
    assert_eq!(ended.status.code(), Some(3), "{said}");
    assert!(
        said.contains("Stopped on request") && ended.stdout.is_empty(),
        "{said}"
    );
    assert_eq!(bench.names(), [job]);
}

#[test]
fn every_example_answers_every_verb_as_the_schema_says() {
    let schema = committed("brimful.schema.json");
    for name in examples() {
        let bench = Bench::new();
        let job = bench.example(&name);
        for (verb, sections) in VERBS {
            let ended = bench.run(&[verb, &[&job, "--json"]].concat());
            assert!(
                ended.code < 2 && ended.err.is_empty(),
                "{verb:?} {name}: {ended:?}"
            );
            let answer = ended.json();
            let keys: Vec<&str> = answer
                .as_object()
                .unwrap()
                .keys()
                .map(String::as_str)
                .collect();
            assert_eq!(keys, sections, "{verb:?} {name}");
            assert_fits(&schema, DOCUMENT, &answer, &format!("{verb:?} {name}"));
            let findings = answer["findings"].as_array().unwrap();
            let stops = |finding: &Value| {
                let kind = finding["kind"].as_str().unwrap();
                finding["grade"] == "stop" || NOT_CHECKED_YET.contains(&kind)
            };
            let is_stopped = findings.iter().any(stops);
            assert_eq!(ended.code, i32::from(is_stopped), "{verb:?} {name}");
        }
        assert_eq!(bench.names(), [job]);
    }
}

/// Findings of a draft that are no verdict, but that there is none yet.
const NOT_CHECKED_YET: [&str; 8] = [
    "room.panel_not_known",
    "room.fitting_not_known",
    "quick.panel_not_covered",
    "quick.baffle",
    "quick.too_deep",
    "quick.rim_of_opening",
    "quick.straps",
    "quick.lid_load",
];

#[test]
fn every_example_answers_in_words_with_the_same_exit_code() {
    for name in examples() {
        let bench = Bench::new();
        let job = bench.example(&name);
        for (verb, _) in VERBS {
            let words = bench.run(&[verb, &[&job]].concat());
            let json = bench.run(&[verb, &[&job, "--json"]].concat());
            assert_eq!(words.code, json.code);
            assert_eq!(words.err, "");
            assert!(!words.out.contains('\u{1b}'), "colours in a pipe");
            assert!(!words.out.contains("NaN") && !words.out.contains("inf "));
            let last = words.out.lines().last().unwrap();
            let has_none = ["Do not build", "No verdict yet"];
            assert_eq!(
                has_none.iter().any(|start| last.starts_with(start)),
                words.code == 1,
                "{verb:?} {name}: {last}"
            );
        }
    }
}

#[test]
fn the_same_call_gives_the_same_bytes() {
    let bench = Bench::new();
    let job = bench.example("shelf-box");
    for verb in ["check", "cut", "weld", "gauge"] {
        let runs = [0; 3].map(|_| bench.run(&[verb, &job, "--json"]).out);
        assert!(runs[0] == runs[1] && runs[1] == runs[2], "{verb}");
        let runs = [0; 2].map(|_| bench.run(&[verb, &job]).out);
        assert_eq!(runs[0], runs[1], "{verb}");
    }
}

/// The whole-tank check answers as the schema says, with every panel and a figure for each load.
#[test]
fn the_whole_tank_check_is_told() {
    let bench = Bench::new();
    let job = bench.example("shelf-box");
    let ended = bench.run(&["check", &job, "--json"]);
    let answer = ended.json();
    let schema = committed("brimful.schema.json");
    assert_fits(&schema, DOCUMENT, &answer, "check shelf-box");
    assert_eq!((ended.code, ended.err.as_str()), (0, ""));
    let cases = answer["strength"]["whole"]["load_cases"]
        .as_array()
        .unwrap();
    let panels = answer["panels"].as_array().unwrap().len();
    assert!(cases.len() >= 4);
    for case in cases {
        assert_eq!(case["panels"].as_array().unwrap().len(), panels, "{case}");
        assert!(case["borne_n"].as_f64().unwrap() > 0.0, "{case}");
    }
    // What is cut and welded is held to the same verdict.
    for verb in ["cut", "weld", "gauge"] {
        let findings = bench.run(&[verb, &job, "--json"]).json()["findings"].clone();
        assert_eq!(findings, answer["findings"], "{verb}");
    }
    let draft = bench.run(&["check", "--quick", &job]);
    assert!(draft.out.contains("This is a draft"), "{}", draft.out);
    let words = bench.run(&["check", &job]);
    assert!(
        words.out.contains("the whole tank as one shell"),
        "{}",
        words.out
    );
}

#[test]
fn figures_agree_with_the_job() {
    let bench = Bench::new();
    let job = bench.stopped_job("bench-box");
    let answer = bench.run(&["check", "--quick", &job, "--json"]).json();
    // 684 x 384 x 284 mm inside, less a baffle of 8 x 382 x 234 mm and the rod in its two gaps.
    let brim = 0.684 * 0.384 * 0.284 - 0.008 * 0.384 * 0.234;
    let found = answer["capacity"]["brim_m3"].as_f64().unwrap();
    assert!((found - brim).abs() < 1e-9, "{found} {brim}");
    let rows = answer["gauge"][0]["rows"].as_array().unwrap();
    let last = rows.last().unwrap()["volume_m3"].as_f64().unwrap();
    assert!((last - brim).abs() < 1e-9);
    assert_eq!(answer["job"]["shop"]["kerf_m"], 0.0032);
    assert_eq!(answer["panels"].as_array().unwrap().len(), 7);
}

#[test]
fn a_gauge_table_at_a_tilt_differs_from_the_level_one_and_ends_at_brim() {
    let bench = Bench::new();
    let job = bench.example("bench-box");
    let level = bench.run(&["gauge", "--quick", &job, "--json"]).json();
    let tilted = bench
        .run(&[
            "gauge", "--quick", &job, "--heel", "-3 deg", "--pitch", "2 %", "--json",
        ])
        .json();
    let heel = tilted["gauge"][0]["heel_rad"].as_f64().unwrap();
    let pitch = tilted["gauge"][0]["pitch_rad"].as_f64().unwrap();
    assert!((heel + 3f64.to_radians()).abs() < 1e-12);
    assert!((pitch - 0.02f64.atan()).abs() < 1e-12);
    let last = |gauge: &Value| {
        let rows = gauge["gauge"][0]["rows"].as_array().unwrap();
        rows.last().unwrap()["volume_m3"].as_f64().unwrap()
    };
    assert_ne!(level["gauge"], tilted["gauge"]);
    assert!((last(&level) - last(&tilted)).abs() < 1e-9);
}

#[test]
fn a_new_job_can_be_checked_as_it_stands() {
    let bench = Bench::new();
    let ended = bench.run(&["new", "mine.job.toml"]);
    assert_eq!((ended.code, ended.err.as_str()), (0, ""));
    assert!(ended.out.contains("brimful check mine.job.toml"));
    assert!(bench.run(&["check", "--quick", "mine.job.toml"]).code < 2);
    for name in examples() {
        let file = format!("{name}.job.toml");
        let ended = bench.run(&["new", &file, "--like", &name, "--json"]);
        assert_eq!(ended.json()["written"], file.as_str());
        let other = Bench::new();
        other.example(&name);
        assert_eq!(bench.read(&file), other.read(&file));
    }
}

#[test]
fn a_reader_who_leaves_early_is_no_fault() {
    use std::process::Stdio;
    let bench = Bench::new();
    let job = bench.example("two-compartment");
    for call in [
        &["check", "--quick", job.as_str()][..],
        &["check", "--quick", &job, "--json"],
        &["--help"],
    ] {
        let mut child = bench
            .command(call)
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        drop(child.stdout.take());
        let ended = child.wait_with_output().unwrap();
        assert!(
            ended.status.code().is_some_and(|code| code < 2),
            "{call:?}: {ended:?}"
        );
        assert!(ended.stderr.is_empty(), "{ended:?}");
    }
}

#[cfg(target_os = "linux")]
#[test]
fn a_full_disk_behind_standard_output_is_said() {
    let bench = Bench::new();
    let job = bench.example("bench-box");
    let full = std::fs::OpenOptions::new()
        .write(true)
        .open("/dev/full")
        .unwrap();
    let ended = bench
        .command(&["check", "--quick", &job])
        .stdout(full)
        .output()
        .unwrap();
    assert_eq!(ended.status.code(), Some(3));
    assert!(
        String::from_utf8(ended.stderr)
            .unwrap()
            .contains("cannot be written")
    );
}

#[test]
fn a_key_is_explained_and_an_unknown_one_refused() {
    let bench = Bench::new();
    let told = bench.run(&["new", "--explain", "shop.kerf"]);
    assert_eq!(told.code, 0, "{told:?}");
    assert!(told.out.contains("3.2 mm") && told.out.contains("kerf = "));
    let listed = bench.run(&["new", "--explain"]);
    assert!(listed.code == 0 && listed.out.contains("[[opening]]"));
    let section = bench.run(&["new", "--explain", "opening"]);
    assert!(section.code == 0 && section.out.contains("opening.stands_out"));
    let unknown = bench.run(&["new", "--explain", "shop.kerff"]);
    assert_eq!((unknown.code, unknown.out.as_str()), (2, ""));
    assert!(
        unknown.err.contains("did you mean `shop.kerf`?"),
        "{unknown:?}"
    );
    assert!(bench.names().is_empty());
}
