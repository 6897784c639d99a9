//! Every kind of bad input: exit code 2, a message with place, reason and remedy, and nothing
//! written.

#![allow(clippy::unwrap_used, reason = "a test ends where it fails")]

mod common;
use common::Bench;

/// A sound job, to be spoiled in one place.
const SOUND: &str = r#"[job]
lengths = "mm"
duty = "standing"
[body]
box = [400, 300, 300]
thickness = 8
[liquid]
kind = "water"
[[stock.sheet]]
size = [2000, 1000]
thickness = 8
"#;

/// Runs every verb that reads a job; each must refuse it in these words and write nothing.
fn refused(job: &str, words: &[&str]) {
    let bench = Bench::new();
    bench.write("tank.job.toml", job);
    for verb in [
        &["check"][..],
        &["cut"],
        &["weld"],
        &["gauge"],
        &["pack", "-o", "pack"],
    ] {
        let mut call = verb.to_vec();
        call.push("tank.job.toml");
        let ended = bench.run(&call);
        assert_eq!(ended.code, 2, "{verb:?}: {ended:?}");
        assert_eq!(ended.out, "", "{verb:?}");
        for word in words {
            assert!(
                ended.err.contains(word),
                "`{word}` is not in:\n{}",
                ended.err
            );
        }
        call.push("--json");
        let ended = bench.run(&call);
        assert_eq!((ended.code, ended.err.as_str()), (2, ""), "{verb:?}");
        let fault = &ended.json()["faults"][0];
        assert!(!fault["says"].as_str().unwrap().is_empty());
        assert!(!fault["remedy"].as_str().unwrap().is_empty() || fault["allowed"][0].is_string());
    }
    assert_eq!(bench.names(), ["tank.job.toml"]);
}

fn spoiled(from: &str, to: &str) -> String {
    assert!(SOUND.contains(from));
    SOUND.replace(from, to)
}

#[test]
fn the_job_that_is_spoiled_is_sound() {
    let bench = Bench::new();
    bench.write("tank.job.toml", SOUND);
    let ended = bench.run(&["check", "tank.job.toml"]);
    assert!(ended.code < 2, "{ended:?}");
}

#[test]
fn a_self_crossing_outline() {
    let job = spoiled(
        "box = [400, 300, 300]",
        "plan = [[0, 0], [400, 300], [400, 0], [0, 300]]\nheight = 300",
    );
    refused(
        &job,
        &[
            "tank.job.toml:5:",
            "plan = [[0, 0]",
            "point 1 meets the side",
            "help:",
        ],
    );
}

#[test]
fn zero_and_negative_sizes_both_at_once() {
    let job = spoiled("[400, 300, 300]", "[400, 0, -300]");
    refused(
        &job,
        &["tank.job.toml:5:13", "tank.job.toml:5:16", "above zero"],
    );
}

#[test]
fn an_obstacle_outside_the_space() {
    let job = format!(
        "{SOUND}[space]\nbox = [420, 320, 400]\n[[space.obstacle]]\nname = \"post\"\nfrom = [900, 0, 0]\nto = [950, 50, 50]\n"
    );
    refused(&job, &["tank.job.toml:14:", "`post` lies outside", "help:"]);
}

#[test]
fn an_obstacle_that_swallows_the_space() {
    let job = format!(
        "{SOUND}[space]\nbox = [420, 320, 400]\n[[space.obstacle]]\nname = \"rock\"\nfrom = [-10, -10, -10]\nto = [500, 500, 500]\n"
    );
    refused(
        &job,
        &["tank.job.toml:", "Nothing of the space is left", "help:"],
    );
}

#[test]
fn a_sheet_thicker_than_the_body_allows() {
    let job = spoiled("thickness = 8\n[liquid]", "thickness = 160\n[liquid]");
    refused(
        &job,
        &[
            "tank.job.toml:5:",
            "thicker than the body allows",
            "thinner sheet",
        ],
    );
}

#[test]
fn an_opening_off_its_panel() {
    let job = format!(
        "{SOUND}[[opening]]\nname = \"vent\"\nservice = \"vent\"\npanel = \"lid\"\nat = [900, 100]\ndiameter = 27\n"
    );
    refused(&job, &["tank.job.toml:12:", "vent", "help:"]);
}

#[test]
fn an_opening_across_a_seam() {
    let job = format!(
        "{SOUND}[[opening]]\nname = \"vent\"\nservice = \"vent\"\npanel = \"lid\"\nat = [5, 100]\ndiameter = 27\n"
    );
    refused(&job, &["tank.job.toml:12:", "vent", "help:"]);
}

#[test]
fn a_capacity_in_gallons_of_no_country() {
    // With the word for which capacity, and without.
    for wanted in ["26 gal usable", "26 gal"] {
        let job = spoiled(
            "kind = \"water\"",
            &format!("kind = \"water\"\nwanted = \"{wanted}\""),
        );
        refused(&job, &["tank.job.toml:9:14", "US gal", "imp gal"]);
    }
}

#[test]
fn numbers_that_are_none() {
    for number in ["nan", "inf", "-inf", "1e999"] {
        let job = spoiled("[400, 300, 300]", &format!("[400, {number}, 300]"));
        refused(&job, &["tank.job.toml:5:13"]);
    }
}

#[test]
fn text_that_is_no_job() {
    refused("", &["the section [liquid] is missing"]);
    refused("{\"box\": [1, 2]}", &["tank.job.toml:1:", "not TOML"]);
    refused(&"[".repeat(5_000), &["tank.job.toml:1:", "help:"]);
}

#[test]
fn an_unknown_key_is_shown_with_its_nearest_spelling() {
    let job = spoiled("thickness = 8\n[liquid]", "thicknes = 8\n[liquid]");
    refused(&job, &["tank.job.toml:6:1", "did you mean `thickness`?"]);
}

#[test]
fn a_missing_file() {
    let bench = Bench::new();
    bench.write("tank.job.toml", SOUND);
    let ended = bench.run(&["check", "tonk.job.toml"]);
    assert_eq!(ended.code, 2);
    assert!(ended.err.contains("There is no file `tonk.job.toml`."));
    assert!(ended.err.contains("Did you mean `tank.job.toml`?"));
    let ended = bench.run(&["pack", "quite-other.toml", "-o", "pack"]);
    assert_eq!(ended.code, 2);
    assert!(ended.err.contains("brimful new"));
    assert_eq!(bench.names(), ["tank.job.toml"]);
}

#[test]
fn a_folder_in_place_of_a_file() {
    let bench = Bench::new();
    bench.write("jobs/tank.job.toml", SOUND);
    let ended = bench.run(&["check", "jobs"]);
    assert_eq!(ended.code, 2);
    assert!(ended.err.contains("`jobs` is a folder, not a job file."));
    assert!(ended.err.contains("`jobs/tank.job.toml`"));
}

#[test]
fn other_bytes_than_utf8() {
    let bench = Bench::new();
    bench.write("tank.job.toml", b"[job]\nname = \"gr\xfcn\"\n");
    let ended = bench.run(&["check", "tank.job.toml"]);
    assert_eq!(ended.code, 2);
    assert!(
        ended.err.contains("not UTF-8 text: line 2"),
        "{}",
        ended.err
    );
    assert!(ended.err.contains("Save it as UTF-8"));
    bench.write("tank.job.toml", b"\xff\xfe[\0j\0o\0b\0]\0");
    assert!(
        bench
            .run(&["check", "tank.job.toml"])
            .err
            .contains("UTF-16")
    );
    bench.write("tank.job.toml", format!("\u{feff}{SOUND}"));
    assert!(bench.run(&["check", "tank.job.toml"]).code < 2);
}

#[test]
fn a_file_of_a_hundred_megabytes_is_refused() {
    let bench = Bench::new();
    let file = std::fs::File::create(bench.path("tank.job.toml")).unwrap();
    file.set_len(100_000_000).unwrap();
    let ended = bench.run(&["check", "tank.job.toml"]);
    assert_eq!(ended.code, 2);
    assert!(ended.err.contains("larger than 1 MB"), "{}", ended.err);
}

#[cfg(unix)]
#[test]
fn an_endless_file_is_not_read_to_its_end() {
    let bench = Bench::new();
    let ended = bench.run(&["check", "/dev/zero"]);
    assert_eq!(ended.code, 2);
    assert!(ended.err.contains("larger than 1 MB"), "{}", ended.err);
}

#[test]
fn many_faults_in_a_large_file_are_cut_short() {
    let bench = Bench::new();
    bench.write("tank.job.toml", "[[opening]]\nx = 1\n".repeat(45_000));
    let ended = bench.run(&["check", "tank.job.toml"]);
    assert_eq!(ended.code, 2);
    assert!(ended.err.len() < 100_000, "{}", ended.err.len());
}

#[test]
fn bad_calls() {
    let bench = Bench::new();
    bench.write("tank.job.toml", SOUND);
    for call in [
        &["fold", "tank.job.toml"][..],
        &["check"],
        &["gauge", "tank.job.toml", "--heel", "3"],
        &["gauge", "tank.job.toml", "--heel", "80 deg"],
        &["pack", "tank.job.toml"],
        &["pack", "tank.job.toml", "-o", "pack", "--paper", "a3"],
        &["new", "other.job.toml", "--like", "bench-bocks"],
        &["new", "no/such/folder/tank.job.toml"],
        &["new", "tank.job.toml"],
    ] {
        let ended = bench.run(call);
        assert_eq!(ended.code, 2, "{call:?}: {ended:?}");
        assert!(!ended.err.is_empty());
        let mut call = call.to_vec();
        call.push("--json");
        let ended = bench.run(&call);
        assert_eq!(ended.code, 2, "{call:?}: {ended:?}");
        assert!(ended.json()["faults"][0]["says"].is_string());
    }
    assert_eq!(bench.names(), ["tank.job.toml"]);
    assert_eq!(bench.read("tank.job.toml"), SOUND.as_bytes());
}
