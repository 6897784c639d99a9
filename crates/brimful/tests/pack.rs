//! The build pack is written whole, or not at all.

#![allow(clippy::unwrap_used, reason = "a test ends where it fails")]

mod common;
use common::{Bench, examples};

#[test]
fn every_example_is_packed_with_its_job_and_its_document() {
    for name in examples() {
        let bench = Bench::new();
        let job = bench.example(&name);
        let ended = bench.run(&["pack", &job, "-o", "pack", "--json"]);
        assert!(ended.code < 2 && ended.err.is_empty(), "{name}: {ended:?}");
        assert!(
            bench
                .names()
                .iter()
                .all(|name| *name == job || name == "pack")
        );
        assert_eq!(bench.read(&job), bench.read(&format!("pack/{job}")));
        let document: serde_json::Value =
            serde_json::from_slice(&bench.read("pack/build-pack.json")).unwrap();
        let listed: Vec<&str> = document["pack"]["files"]
            .as_array()
            .unwrap()
            .iter()
            .map(|name| name.as_str().unwrap())
            .collect();
        let files = bench.all("pack");
        let found: Vec<&str> = files
            .iter()
            .map(|(name, _)| name.strip_prefix("pack/").unwrap())
            .collect();
        assert_eq!(listed, found);
        let answer = ended.json();
        assert_eq!(answer["pack"]["folder"], "pack");
        assert_eq!(answer["findings"], document["findings"]);
        let checked = bench.run(&["check", "--quick", &job, "--json"]);
        assert_eq!(checked.json()["panels"], document["panels"]);
    }
}

#[test]
fn the_same_job_gives_the_same_bytes_wherever_the_pack_goes() {
    let bench = Bench::new();
    let job = bench.example("l-shape");
    for folder in ["one", "two"] {
        let ended = bench.run(&["pack", &job, "-o", folder, "--paper", "letter"]);
        assert!(ended.code < 2, "{ended:?}");
    }
    let strip = |folder: &str| {
        let files = bench.all(folder).into_iter();
        let files = files.map(|(name, bytes)| (name[folder.len()..].to_owned(), bytes));
        files.collect::<Vec<_>>()
    };
    assert!(strip("one") == strip("two"));
}

#[test]
fn an_earlier_pack_is_replaced_as_a_whole() {
    let bench = Bench::new();
    let first = bench.example("two-compartment");
    let second = bench.example("bench-box");
    assert!(bench.run(&["pack", &first, "-o", "pack"]).code < 2);
    assert!(bench.path("pack").join(&first).exists());
    assert!(bench.run(&["pack", &second, "-o", "pack"]).code < 2);
    assert!(!bench.path("pack").join(&first).exists());
    assert!(bench.path("pack").join(&second).exists());
    assert_eq!(bench.names(), [second.as_str(), "pack", first.as_str()]);
}

#[test]
fn nobodys_files_are_lost() {
    let bench = Bench::new();
    let job = bench.example("shelf-box");
    bench.write("mine/letter.txt", "dear customer");
    bench.write("file", "a file");
    let refused = |folder: &str, words: &str| {
        let ended = bench.run(&["pack", &job, "-o", folder]);
        assert_eq!(ended.code, 2, "{folder}: {ended:?}");
        assert!(ended.err.contains(words), "{folder}: {}", ended.err);
    };
    refused("mine", "holds no earlier pack");
    refused("file", "is a file");
    refused(".", "the folder you are in");
    refused("no/such/folder", "is not there");
    refused("/", "cannot be a pack's folder");
    assert_eq!(bench.read("mine/letter.txt"), b"dear customer");
    std::fs::create_dir(bench.path("empty")).unwrap();
    assert!(bench.run(&["pack", &job, "-o", "empty"]).code < 2);
    bench.write("empty/note.txt", "remember the gasket");
    refused("empty", "`note.txt`, which no pack wrote");
    assert_eq!(bench.read("empty/note.txt"), b"remember the gasket");
}

#[test]
fn a_job_that_cannot_be_used_leaves_the_earlier_pack_alone() {
    let bench = Bench::new();
    let job = bench.example("shelf-box");
    assert!(bench.run(&["pack", &job, "-o", "pack"]).code < 2);
    let before = bench.all("pack");
    bench.write(&job, "[body]\nbox = [1, 2]\n");
    assert_eq!(bench.run(&["pack", &job, "-o", "pack"]).code, 2);
    assert!(bench.all("pack") == before);
    assert_eq!(bench.names(), ["pack", job.as_str()]);
}

#[test]
fn what_a_cut_off_run_left_aside_is_put_back() {
    let bench = Bench::new();
    let job = bench.example("shelf-box");
    assert!(bench.run(&["pack", &job, "-o", "pack"]).code < 2);
    // As left by a run that was killed between its two renames.
    std::fs::rename(bench.path("pack"), bench.path(".pack.earlier-pack")).unwrap();
    assert!(bench.run(&["pack", &job, "-o", "pack"]).code < 2);
    assert_eq!(bench.names(), ["pack", job.as_str()]);
}

#[cfg(unix)]
#[test]
fn a_folder_that_may_not_be_written_to_is_left_as_it_is() {
    use std::os::unix::fs::PermissionsExt;
    let bench = Bench::new();
    let job = bench.example("shelf-box");
    bench.write("shut/pack/x", "");
    std::fs::remove_file(bench.path("shut/pack/x")).unwrap();
    let shut = bench.path("shut");
    std::fs::set_permissions(&shut, std::fs::Permissions::from_mode(0o555)).unwrap();
    let ended = bench.run(&["pack", &job, "-o", "shut/pack"]);
    std::fs::set_permissions(&shut, std::fs::Permissions::from_mode(0o755)).unwrap();
    // The superuser may write everywhere.
    if ended.code < 2 {
        return;
    }
    assert_eq!(ended.code, 3, "{ended:?}");
    assert!(ended.err.contains("could not be written"));
}

/// Ctrl-C at the beginning, and when so many files of the new pack are written: whatever was reached, the
/// pack is whole and nothing else lies about.
#[cfg(target_os = "linux")]
#[test]
fn an_interrupted_pack_leaves_a_whole_one() {
    use std::process::Stdio;
    let bench = Bench::new();
    let job = bench.example("shelf-box");
    let call = ["pack", "--quick", &job, "-o", "pack"];
    assert!(bench.run(&call).code < 2);
    let whole = bench.all("pack");
    let mut stopped = 0;
    let written = || {
        let names = bench.names().into_iter();
        let hidden: Vec<String> = names.filter(|name| name.starts_with('.')).collect();
        let files = hidden.iter().flat_map(|name| bench.path(name).read_dir());
        files.flatten().count()
    };
    for files in 0..16 {
        let mut child = bench
            .command(&call)
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        common::interrupt_when(&mut child, || written() >= files);
        let ended = child.wait().unwrap();
        stopped += usize::from(ended.code() == Some(3));
        assert!(bench.all("pack") == whole, "after {files}");
        assert_eq!(bench.names(), ["pack", job.as_str()], "after {files}");
    }
    assert!(stopped > 0, "no run was stopped in time");
}
