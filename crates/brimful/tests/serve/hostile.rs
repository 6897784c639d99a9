//! Requests that mean harm: paths out of the folder, other hosts and origins, sizes, methods, bodies
//! that never come. All are refused, and the server goes on.

use super::{Server, shop};
use serde_json::json;
use std::fs;
use std::io::{ErrorKind, Read, Write};
use std::net::Shutdown;

const PATHS: [&str; 12] = [
    "/api/jobs/../../etc/passwd",
    "/api/jobs/..%2F..%2Fetc%2Fpasswd",
    "/api/jobs/%2e%2e%2fbox",
    "/api/jobs/box%00",
    "/api/jobs/.brimful",
    "/api/jobs/box.job.toml",
    "/api/jobs/box/papers/../../../box.job.toml",
    "/../../etc/passwd",
    "/assets/../../../etc/passwd",
    "/api//jobs///box",
    "/api/jobs/\u{202e}xob",
    "/.brimful/records.sqlite",
];
const METHODS: [&str; 8] = [
    "PUT", "TRACE", "CONNECT", "OPTIONS", "PROPFIND", "DELETE", "BREW", "get",
];
const HOSTS: [&str; 7] = [
    "evil.example",
    "localhost",
    "localhost:80",
    "127.0.0.1.evil.example",
    "[::1]:1",
    "",
    "0.0.0.0",
];

#[test]
fn a_thousand_hostile_requests() {
    let (folder, server) = shop();
    let secret = folder.path().parent().unwrap().join("outside.job.toml");
    let before = fs::read_to_string(folder.path().join("box.job.toml")).unwrap();
    let mut random = fastrand::Rng::with_seed(7);
    for number in 0..1_000 {
        let own = format!("localhost:{}", server.port);
        let path = PATHS[random.usize(..PATHS.len())];
        let method = METHODS[random.usize(..METHODS.len())];
        let host = HOSTS[random.usize(..HOSTS.len())];
        let junk: String = (0..random.usize(..300))
            .map(|_| random.char('\u{1}'..'\u{ff}'))
            .collect();
        let request = match number % 7 {
            0 => format!("GET {path} HTTP/1.1\r\nHost: {own}\r\nConnection: close\r\n\r\n"),
            1 => format!(
                "{method} /api/jobs/box/text HTTP/1.1\r\nHost: {own}\r\nConnection: close\r\nContent-Length: 0\r\n\r\n"
            ),
            2 => format!("GET /api/jobs/box HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\n\r\n"),
            3 => format!(
                "GET /api/jobs/box HTTP/1.1\r\nHost: {own}\r\nOrigin: http://{host}\r\nConnection: close\r\n\r\n"
            ),
            4 => format!(
                "POST /api/jobs HTTP/1.1\r\nHost: {own}\r\nConnection: close\r\nContent-Type: application/json\r\nContent-Length: {}\r\n\r\n{junk}",
                junk.len()
            ),
            5 => format!(
                "POST /api/jobs HTTP/1.1\r\nHost: {own}\r\nConnection: close\r\nContent-Type: application/json\r\nContent-Length: 9999999999\r\n\r\n{{}}"
            ),
            _ => format!("{junk}\r\n\r\n"),
        };
        // Of the last two kinds something is missing; they need no answer.
        let is_complete = number % 7 < 5;
        let status = status(&server, request.as_bytes(), is_complete);
        let refused = status.map_or(!is_complete, |status| (400..500).contains(&status));
        assert!(refused, "{status:?} for {request:?}");
    }
    assert_eq!(
        fs::read_to_string(folder.path().join("box.job.toml")).unwrap(),
        before
    );
    assert!(!secret.exists());
    let names: Vec<String> = fs::read_dir(folder.path())
        .unwrap()
        .map(|it| it.unwrap().file_name().to_string_lossy().into_owned())
        .collect();
    assert_eq!(names.len(), 2, "{names:?}");
    assert_eq!(server.get("/api/jobs/box").status, 200);
}

/// The status that is answered, if one is; after what is not complete nothing more is sent.
fn status(server: &Server, bytes: &[u8], is_complete: bool) -> Option<u16> {
    let mut stream = server.connect();
    let _ = stream.write_all(bytes);
    if !is_complete {
        let _ = stream.shutdown(Shutdown::Write);
    }
    let mut head = [0; 16];
    stream.read_exact(&mut head).ok()?;
    std::str::from_utf8(&head)
        .ok()?
        .split(' ')
        .nth(1)?
        .parse()
        .ok()
}

/// Who sends the body a byte a second is let go, and others are answered in that time.
#[test]
fn slow_senders_keep_nobody_waiting() {
    let (_folder, server) = shop();
    let slow: Vec<_> = (0..60)
        .map(|_| {
            let mut stream = server.connect();
            let head = format!("POST /api/jobs HTTP/1.1\r\nHost: localhost:{}\r\nContent-Type: application/json\r\nContent-Length: 100\r\n\r\n{{", server.port);
            stream.write_all(head.as_bytes()).unwrap();
            stream
        })
        .collect();
    assert_eq!(server.get("/api/jobs/box").status, 200);
    let mut first = slow.into_iter().next().unwrap();
    let mut answer = [0; 12];
    first.set_nonblocking(true).unwrap();
    let early = first.peek(&mut answer).unwrap_err();
    assert_eq!(early.kind(), ErrorKind::WouldBlock, "others come first");
    first.set_nonblocking(false).unwrap();
    first.read_exact(&mut answer).unwrap();
    assert_eq!(&answer, b"HTTP/1.1 408");
}

#[test]
fn sizes_have_limits() {
    let (folder, server) = shop();
    let text = "#".repeat(1_100_000);
    let large = server.change(
        "PUT",
        "/api/jobs/box/text",
        &server.etag("box"),
        Some(&json!({ "text": text })),
    );
    assert_eq!(large.status, 413, "{}", large.headers);
    let endless = format!(
        "POST /api/jobs HTTP/1.1\r\nHost: localhost:{}\r\nContent-Type: application/json\r\nContent-Length: 9999999999\r\n\r\n{}",
        server.port,
        " ".repeat(3_000_000)
    );
    assert_eq!(status(&server, endless.as_bytes(), true), Some(413));
    let note = json!([{ "client_id": "a", "step": "s", "kind": "note", "value": "x".repeat(9_000), "made_s": 1 }]);
    assert_eq!(
        server
            .ask("POST", "/api/jobs/box/build/entries", "", Some(&note))
            .status,
        413
    );
    let name = "x".repeat(200);
    assert_eq!(
        server
            .ask("POST", "/api/jobs", "", Some(&json!({ "name": name })))
            .status,
        422
    );
    fs::write(folder.path().join("huge.job.toml"), vec![b'#'; 2_000_000]).unwrap();
    assert_eq!(server.get("/api/jobs/huge").status, 413);
    assert_eq!(server.get("/api/jobs").status, 200);
}

/// A link among the jobs leads nowhere.
#[test]
fn no_link_leads_out_of_the_folder() {
    let (folder, server) = shop();
    let outside = tempfile::tempdir().unwrap();
    let path = outside.path().join("secret.toml");
    fs::write(&path, "[job]\nname = \"secret\"\n").unwrap();
    std::os::unix::fs::symlink(&path, folder.path().join("link.job.toml")).unwrap();
    assert_eq!(server.get("/api/jobs/link").status, 404);
    assert!(!server.get("/api/jobs").body.contains("secret"));
}
