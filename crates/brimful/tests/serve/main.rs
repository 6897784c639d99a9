//! The server behind the page, over real sockets: jobs and their changes, long work, records, and
//! requests that mean harm.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

mod api;
mod client;
mod crash;
mod hostile;
mod scans;
#[path = "../common/schema.rs"]
mod schema;
mod shared_work;

use client::Server;
use serde_json::{Value, json};
use std::fs;
use std::io::{BufRead, BufReader, Write};
use std::time::Duration;
use tempfile::TempDir;

/// A server with one job, the shelf box.
fn shop() -> (TempDir, Server) {
    shop_like("shelf-box")
}

/// A server with one job like an example.
fn shop_like(example: &str) -> (TempDir, Server) {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::start(folder.path());
    let new = json!({ "name": "box", "like": example });
    let made = server.ask("POST", "/api/jobs", "", Some(&new));
    assert_eq!(made.status, 201, "{made:?}");
    (folder, server)
}

fn edit(path: &str, value: Value) -> Value {
    json!({ "edits": [{ "path": path, "set": value }] })
}

#[test]
fn a_change_keeps_comments_and_can_be_undone_and_redone() {
    let (folder, server) = shop();
    let before = fs::read_to_string(folder.path().join("box.job.toml")).unwrap();
    let etag = server.etag("box");
    let changed = server.change(
        "PATCH",
        "/api/jobs/box",
        &etag,
        Some(&edit("body.box[2]", json!("12 in"))),
    );
    let changed = changed.json();
    assert_eq!(changed["faults"], json!([]), "{changed}");
    let on_disk = fs::read_to_string(folder.path().join("box.job.toml")).unwrap();
    assert_eq!(on_disk, changed["text"]);
    let differs = |text: &str| text.lines().filter(|line| !before.contains(line)).count();
    assert_eq!(differs(&on_disk), 1, "one line changes: {on_disk}");
    assert_eq!(server.get("/api/jobs/box/plan").json()["draft"], true);

    let now = changed["etag"].as_str().unwrap();
    let undone = server
        .change("POST", "/api/jobs/box/undo", now, None)
        .json();
    assert_eq!(undone["text"], before);
    assert_eq!(
        (&undone["can_undo"], &undone["can_redo"]),
        (&json!(false), &json!(true))
    );
    let redone = server
        .change("POST", "/api/jobs/box/redo", &etag, None)
        .json();
    assert_eq!(redone["text"], on_disk);
}

#[test]
fn what_is_typed_wrong_is_kept_and_explained() {
    let (_folder, server) = shop();
    let etag = server.etag("box");
    let wrong = server.change(
        "PATCH",
        "/api/jobs/box",
        &etag,
        Some(&edit("body.thickness", json!("12 gal"))),
    );
    let wrong = wrong.json();
    assert_eq!(wrong["written"]["body"]["thickness"], "12 gal");
    assert_eq!(wrong["faults"][0]["key"], "body.thickness");
    assert!(wrong["faults"][0]["line"].as_u64().unwrap() > 1, "{wrong}");
    let plan = server.get("/api/jobs/box/plan");
    assert_eq!(
        (plan.status, &plan.json()["faults"][0]["key"]),
        (422, &json!("body.thickness"))
    );
    // A text that is no TOML at all is kept as well.
    let text = json!({ "text": "[body\nbox = oops" });
    let etag = wrong["etag"].as_str().unwrap();
    let broken = server
        .change("PUT", "/api/jobs/box/text", etag, Some(&text))
        .json();
    assert_eq!(
        (&broken["written"], &broken["job"]),
        (&Value::Null, &Value::Null)
    );
    assert_eq!(broken["faults"][0]["line"], 1);
}

/// Two windows on one job: the second, which has not seen the first one's change, overwrites nothing.
#[test]
fn nothing_is_overwritten_unseen() {
    let (folder, server) = shop();
    let seen = server.etag("box");
    let one = server.change(
        "PATCH",
        "/api/jobs/box",
        &seen,
        Some(&edit("body.thickness", json!(10))),
    );
    assert_eq!(one.status, 200);
    let two = server.change(
        "PATCH",
        "/api/jobs/box",
        &seen,
        Some(&edit("body.thickness", json!(15))),
    );
    assert_eq!(two.status, 412);
    assert!(
        two.json()["text"]
            .as_str()
            .unwrap()
            .contains("thickness = 10")
    );
    // The same for a file that an editor has changed.
    let path = folder.path().join("box.job.toml");
    let text = fs::read_to_string(&path)
        .unwrap()
        .replace("thickness = 10", "thickness = 11");
    fs::write(&path, &text).unwrap();
    let seen = one.json()["etag"].as_str().unwrap().to_owned();
    assert_eq!(
        server
            .change("POST", "/api/jobs/box/undo", &seen, None)
            .status,
        412
    );
    // What came from elsewhere is a version too: undoing it gives back what was there before.
    let undone = server
        .change("POST", "/api/jobs/box/undo", &server.etag("box"), None)
        .json();
    assert!(
        undone["text"].as_str().unwrap().contains("thickness = 10"),
        "{undone}"
    );
    assert_eq!(
        server
            .ask("PATCH", "/api/jobs/box", "", Some(&edit("a", json!(1))))
            .status,
        428
    );
}

/// Ticks, papers and versions of a job that was taken away are not those of the next of its name.
#[test]
fn a_new_job_of_an_old_name_begins_clean() {
    let (folder, server) = shop();
    let entry =
        json!([{ "client_id": "a", "step": "s", "kind": "tick", "value": "", "made_s": 1.0 }]);
    let kept = server.ask("POST", "/api/jobs/box/build/entries", "", Some(&entry));
    assert_eq!(kept.status, 200);
    let id = begin(&server, "pack");
    wait_for(&server, &format!("/api/work/{id}/events"), "done");
    let etag = server.etag("box");
    assert_eq!(
        server.change("DELETE", "/api/jobs/box", &etag, None).status,
        204
    );
    let new = json!({ "name": "box", "like": "camper-bench" });
    let made = server.ask("POST", "/api/jobs", "", Some(&new)).json();
    assert_eq!(made["can_undo"], false);
    assert_eq!(
        server.get("/api/jobs/box/build").json()["entries"],
        json!([])
    );
    assert_eq!(
        server.get("/api/jobs/box/papers").json()["files"],
        json!([])
    );
    // All of it is still there, under a name that no job has.
    let hidden = folder.path().join(".brimful");
    assert!(hidden.join("versions/box.removed/000001.toml").exists());
    assert!(hidden.join("papers/box.removed/build-pack.pdf").exists());
}

/// Follows a stream until an event of this name.
fn wait_for(server: &Server, path: &str, name: &str) -> Value {
    wait_until(server, path, |event, _| event == name)
}

/// Follows a stream until an event with name and data as wanted, and gives its data.
fn wait_until(server: &Server, path: &str, wanted: impl Fn(&str, &Value) -> bool) -> Value {
    let mut stream = server.connect();
    let head = format!(
        "GET {path} HTTP/1.1\r\nHost: localhost:{}\r\n\r\n",
        server.port
    );
    stream.write_all(head.as_bytes()).unwrap();
    let mut lines = BufReader::new(stream).lines().map(Result::unwrap);
    loop {
        let name = lines.find_map(|line| Some(line.strip_prefix("event: ")?.to_owned()));
        let data = lines.next().unwrap();
        let data = serde_json::from_str(data.strip_prefix("data: ").unwrap()).unwrap();
        if wanted(&name.unwrap(), &data) {
            return data;
        }
    }
}

#[test]
fn open_windows_are_told_of_changes_elsewhere() {
    let (folder, server) = shop();
    let waiting = std::thread::scope(|scope| {
        let told = scope.spawn(|| wait_for(&server, "/api/jobs/box/events", "changed"));
        let path = folder.path().join("box.job.toml");
        let mut text = fs::read_to_string(&path).unwrap();
        let mut etags = Vec::new();
        // The window may open later than the first of these.
        while !told.is_finished() {
            text.push_str("\n# by hand\n");
            // In one go, so that no half of it is ever seen.
            let new = folder.path().join("new");
            fs::write(&new, &text).unwrap();
            fs::rename(&new, &path).unwrap();
            etags.push(server.etag("box"));
            std::thread::sleep(Duration::from_millis(50));
        }
        (told.join().unwrap(), etags)
    });
    let (waiting, etags) = waiting;
    let told = waiting["etag"].as_str().unwrap();
    assert!(etags.iter().any(|etag| etag == told), "{told}");
    assert_eq!(waiting["by"], "");
}

fn begin(server: &Server, what: &str) -> u64 {
    let begun = server.ask(
        "POST",
        "/api/jobs/box/work",
        "",
        Some(&json!({ "what": what })),
    );
    assert_eq!(begun.status, 202, "{begun:?}");
    begun.json()["work_id"].as_u64().unwrap()
}

#[test]
fn long_work_is_followed_and_its_papers_fetched() {
    let (_folder, server) = shop();
    let id = begin(&server, "whole");
    let done = wait_for(&server, &format!("/api/work/{id}/events"), "done");
    let whole = server.get(done["result"].as_str().unwrap()).json();
    assert_eq!(whole["draft"], false);
    assert!(
        whole["strength"]["whole"]["load_cases"]
            .as_array()
            .unwrap()
            .len()
            > 3
    );
    let model = server.get("/api/jobs/box/model").json();
    assert!(!model["bulge"]["panels"].as_array().unwrap().is_empty());
    // The plan is there: the pack takes no longer than its printing.
    let id = begin(&server, "pack");
    wait_for(&server, &format!("/api/work/{id}/events"), "done");
    let papers = server.get("/api/jobs/box/papers").json();
    assert_eq!(papers["etag"].as_str().unwrap(), server.etag("box"));
    let names: Vec<&str> = papers["files"]
        .as_array()
        .unwrap()
        .iter()
        .map(|it| it["name"].as_str().unwrap())
        .collect();
    assert!(
        names.contains(&"build-pack.pdf") && names.contains(&"tank.step"),
        "{names:?}"
    );
    assert_eq!(server.get("/api/jobs/box/papers/tank.step").status, 200);
    assert_eq!(server.get("/api/jobs/box/papers.zip").status, 200);
    for path in [
        "../box.job.toml",
        "..%2Fbox.job.toml",
        "%2Fetc%2Fpasswd",
        "panels",
        "nothing",
    ] {
        assert_eq!(
            server.get(&format!("/api/jobs/box/papers/{path}")).status,
            404,
            "{path}"
        );
    }
}

#[test]
fn the_newest_edit_wins() {
    let (_folder, server) = shop_like("frame-rail-sprayer");
    let id = begin(&server, "remedies");
    let changed = server.change(
        "PATCH",
        "/api/jobs/box",
        &server.etag("box"),
        Some(&edit("job.customer", json!("me"))),
    );
    assert_eq!(changed.status, 200);
    wait_for(&server, &format!("/api/work/{id}/events"), "cancelled");
    assert_eq!(server.get(&format!("/api/work/{id}/result")).status, 409);
    // The place is free again: the next one gets its turn.
    let other = begin(&server, "whole");
    wait_until(
        &server,
        &format!("/api/work/{other}/events"),
        |name, data| name == "progress" && data["says"] != "waiting",
    );
    assert_eq!(
        server
            .ask("DELETE", &format!("/api/work/{other}"), "", None)
            .status,
        204
    );
    wait_for(&server, &format!("/api/work/{other}/events"), "cancelled");
}

#[test]
fn fifty_phones_at_the_bench() {
    let (_folder, server) = shop();
    std::thread::scope(|scope| {
        for phone in 0..50 {
            let server = &server;
            scope.spawn(move || {
                for step in 0..10 {
                    assert_eq!(server.get("/api/jobs/box/bench").status, 200);
                    let entry = json!([{ "client_id": format!("{phone}-{step}"), "step": "set-P1", "kind": "tick", "value": "", "made_s": 1.0 }]);
                    let kept = server.ask("POST", "/api/jobs/box/build/entries", "", Some(&entry));
                    assert_eq!(kept.status, 200, "{kept:?}");
                }
            });
        }
    });
    let kept = server.get("/api/jobs/box/build").json();
    assert_eq!(kept["entries"].as_array().unwrap().len(), 500);
}

/// Who opens a place that is not there sees the page, which says so; a program gets JSON.
#[test]
fn a_place_that_is_not_there_shows_the_page() {
    let (_folder, server) = shop();
    let kind = |path: &str, accept: &str| {
        let reply = server.ask("GET", path, &format!("Accept: {accept}\r\n"), None);
        let headers = reply.headers.to_ascii_lowercase();
        assert_eq!(reply.status, 404, "{path}");
        headers.contains("content-type: text/html")
    };
    let browser = "text/html,application/xhtml+xml,application/xml;q=0.9,*/*;q=0.8";
    assert!(kind("/zzz", browser));
    assert!(!kind("/zzz", "*/*"));
    for path in ["/api/zzz", "/api/jobs/zzz", "/assets/zzz.js"] {
        assert!(!kind(path, browser), "{path}");
    }
}

/// The bound of the design is 60 MB for a server that waits.
#[test]
fn a_waiting_server_is_small() {
    let (_folder, server) = shop();
    assert_eq!(server.get("/api/jobs").status, 200);
    assert!(server.memory() < 60_000_000, "{}", server.memory());
}

#[test]
fn what_cannot_be_served_is_said() {
    let folder = tempfile::tempdir().unwrap();
    let run = |arguments: &[&str]| {
        let output = std::process::Command::new(env!("CARGO_BIN_EXE_brimful"))
            .args(arguments)
            .output()
            .unwrap();
        (
            output.status.code(),
            String::from_utf8_lossy(&output.stderr).into_owned(),
        )
    };
    let nowhere = folder.path().join("nowhere");
    let (code, said) = run(&["serve", nowhere.to_str().unwrap()]);
    assert_eq!(code, Some(2), "{said}");
    fs::write(folder.path().join("Düse.job.toml"), "").unwrap();
    let mut server = Server::start(folder.path());
    let port = server.port.to_string();
    let (code, said) = run(&["serve", folder.path().to_str().unwrap(), "--port", &port]);
    assert_eq!(code, Some(2), "{said}");
    assert!(said.contains(&port), "{said}");
    server.kill();
    let said = server.said();
    assert!(said.contains("\n  Düse.job.toml\n"), "{said}");
}
