//! A process that is killed at any time loses nothing that it acknowledged.

use super::{Server, edit};
use serde_json::{Value, json};
use std::collections::BTreeSet;
use std::fs::{self, File};
use std::io::Write;
use std::time::{Duration, SystemTime};

/// Sends one more change and does not wait for the answer: it is made as a whole or not at all.
fn send_unanswered_edit(server: &Server, etag: &str) {
    let body = edit("job.notes", json!("late")).to_string();
    let head = format!(
        "PATCH /api/jobs/box HTTP/1.1\r\nHost: localhost:{}\r\nContent-Type: application/json\r\nIf-Match: \"{etag}\"\r\nContent-Length: {}\r\n\r\n{body}",
        server.port,
        body.len()
    );
    server.connect().write_all(head.as_bytes()).unwrap();
}

#[test]
fn fifty_kills_lose_nothing_acknowledged() {
    let folder = tempfile::tempdir().unwrap();
    let mut server = Server::start(folder.path());
    let new = json!({ "name": "box", "like": "shelf-box" });
    assert_eq!(server.ask("POST", "/api/jobs", "", Some(&new)).status, 201);
    let mut acknowledged: BTreeSet<String> = BTreeSet::new();
    let mut etag = server.etag("box");
    for round in 0..50 {
        let value = json!(format!("round {round}"));
        let changed = server.change(
            "PATCH",
            "/api/jobs/box",
            &etag,
            Some(&edit("job.customer", value.clone())),
        );
        assert_eq!(changed.status, 200, "{changed:?}");
        etag = changed.json()["etag"].as_str().unwrap().to_owned();
        let id = format!("tick {round}");
        let entry =
            json!([{ "client_id": id, "step": "s", "kind": "note", "value": "n", "made_s": 1.0 }]);
        assert_eq!(
            server
                .ask("POST", "/api/jobs/box/build/entries", "", Some(&entry))
                .status,
            200
        );
        acknowledged.insert(id);
        send_unanswered_edit(&server, &etag);
        server.kill();
        server = Server::start(folder.path());
        let job = server.get("/api/jobs/box").json();
        assert_eq!(job["faults"], json!([]), "{job}");
        assert_eq!(job["written"]["job"]["customer"], value, "{job}");
        etag = job["etag"].as_str().unwrap().to_owned();
        let kept = server.get("/api/jobs/box/build").json();
        let ids = kept["entries"].as_array().unwrap().iter();
        let ids: BTreeSet<String> = ids
            .map(|it| it["client_id"].as_str().unwrap().to_owned())
            .collect();
        assert_eq!(ids, acknowledged);
    }
    // Every version is still there to go back through.
    let mut steps = 0;
    loop {
        let back: Value = server
            .change("POST", "/api/jobs/box/undo", &etag, None)
            .json();
        etag = back["etag"].as_str().unwrap().to_owned();
        steps += 1;
        if back["can_undo"] == false {
            break;
        }
    }
    assert!(steps >= 50, "{steps}");
}

/// What was about to be put in its place when a server was killed does not stay for ever.
#[test]
fn what_killed_servers_left_is_swept() {
    let (folder, mut server) = super::shop();
    server.kill();
    let hidden = folder.path().join(".brimful");
    fs::create_dir_all(hidden.join("papers")).unwrap();
    let long_ago = SystemTime::now() - Duration::from_secs(3600);
    let left = [
        folder.path().join(".brimful-aB3xY9"),
        hidden.join("versions/box/.brimful-aB3xY9"),
        hidden.join("papers/.brimful-aB3xY9"),
    ];
    for path in &left {
        fs::write(path, "half").unwrap();
        let file = File::options().write(true).open(path).unwrap();
        file.set_modified(long_ago).unwrap();
    }
    let server = Server::start(folder.path());
    assert!(left.iter().all(|path| !path.exists()));
    assert_eq!(server.get("/api/jobs/box").status, 200);
}
