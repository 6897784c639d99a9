//! Long work that several windows want, and answers in the units that each of them shows.

use super::{begin, edit, shop, shop_like, wait_for};
use crate::client::Server;
use serde_json::{Value, json};
use std::io::{BufRead, BufReader, Write};
use std::net::TcpStream;

/// A server with a job that takes a while.
fn busy_shop() -> (tempfile::TempDir, Server) {
    shop_like("frame-rail-sprayer")
}

/// Follows work until its first event; the line stays open while it is kept.
fn follow(server: &Server, id: u64) -> TcpStream {
    let mut stream = server.connect();
    let head = format!(
        "GET /api/work/{id}/events HTTP/1.1\r\nHost: localhost:{}\r\n\r\n",
        server.port
    );
    stream.write_all(head.as_bytes()).unwrap();
    let mut lines = BufReader::new(stream.try_clone().unwrap()).lines();
    assert!(lines.any(|line| line.unwrap().starts_with("event: ")));
    stream
}

fn status(server: &Server, id: u64) -> (u16, String) {
    let reply = server.get(&format!("/api/work/{id}/result"));
    (reply.status, reply.body)
}

#[test]
fn two_windows_share_one_piece_of_work() {
    let (_folder, server) = busy_shop();
    let one = begin(&server, "remedies");
    let two = begin(&server, "remedies");
    assert_eq!(one, two, "the second joins the first");
    let other_kind = begin(&server, "whole");
    assert_ne!(one, other_kind);
    let (first, second) = (follow(&server, one), follow(&server, two));
    // One of them stops waiting: the other's work goes on.
    let left = server.ask("DELETE", &format!("/api/work/{one}"), "", None);
    assert_eq!(left.status, 204);
    drop(first);
    let (_, said) = status(&server, one);
    assert!(said.contains("not done yet"), "{said}");
    // With the last of them it is dropped.
    server.ask("DELETE", &format!("/api/work/{one}"), "", None);
    wait_for(&server, &format!("/api/work/{one}/events"), "cancelled");
    drop(second);
    // Who asks again gets work of his own.
    assert_ne!(begin(&server, "remedies"), one);
}

/// Papers fetched while new ones are made are the old ones or the new ones.
#[test]
fn papers_of_two_packs_are_never_mixed() {
    let (_folder, server) = shop();
    let packed = |paper: &str| {
        let wanted = json!({ "what": "pack", "options": { "paper": paper } });
        let begun = server.ask("POST", "/api/jobs/box/work", "", Some(&wanted));
        begun.json()["work_id"].as_u64().unwrap()
    };
    let zip = || {
        let all = server.get("/api/jobs/box/papers.zip");
        assert_eq!(all.status, 200, "{}", all.body);
        all.body
    };
    let first = packed("a4");
    wait_for(&server, &format!("/api/work/{first}/events"), "done");
    let before = zip();
    let second = packed("letter");
    let mut fetched = Vec::new();
    while status(&server, second).0 == 409 {
        fetched.push(zip());
    }
    let after = zip();
    assert!(before != after && !fetched.is_empty());
    let is_whole = |zip: &String| *zip == before || *zip == after;
    assert!(fetched.iter().all(is_whole));
}

/// What was cancelled while it was being printed leaves no papers.
#[test]
fn a_pack_that_was_cancelled_is_not_written() {
    let (_folder, server) = shop();
    let whole = begin(&server, "remedies");
    wait_for(&server, &format!("/api/work/{whole}/events"), "done");
    let pack = begin(&server, "pack");
    drop(follow(&server, pack));
    server.ask("DELETE", &format!("/api/work/{pack}"), "", None);
    assert_eq!(status(&server, pack).0, 409);
    // One piece at a time: when the next is done, so is what went on of this one.
    let next = begin(&server, "whole");
    wait_for(&server, &format!("/api/work/{next}/events"), "done");
    let papers = server.get("/api/jobs/box/papers").json();
    assert_eq!(papers["files"], json!([]));
}

#[test]
fn work_that_fails_says_so_by_its_status() {
    let (_folder, server) = shop();
    let wrong = edit("body.thickness", json!("12 gal"));
    let etag = server.etag("box");
    server.change("PATCH", "/api/jobs/box", &etag, Some(&wrong));
    let id = begin(&server, "whole");
    let told = wait_for(&server, &format!("/api/work/{id}/events"), "failed");
    let (code, said) = status(&server, id);
    assert_eq!(code, 422, "{said}");
    let said: Value = serde_json::from_str(&said).unwrap();
    assert_eq!(said, told);
    assert_eq!(said["faults"][0]["key"], "body.thickness");
}

/// A page that outlives the server must not be given the work of somebody else.
#[test]
fn work_of_a_server_that_is_gone_is_not_found() {
    let (folder, mut server) = shop();
    let before = begin(&server, "whole");
    server.kill();
    let server = Server::start(folder.path());
    let now = begin(&server, "remedies");
    assert_ne!(before, now);
    assert_eq!(status(&server, before).0, 404);
    assert_eq!(
        server.get(&format!("/api/work/{before}/events")).status,
        404
    );
}

fn sentences(plan: &Value) -> String {
    let findings = plan["findings"].as_array().unwrap().iter();
    let said = findings.flat_map(|one| [&one["says"], &one["cure"]]);
    let texts: Vec<&str> = said.filter_map(Value::as_str).collect();
    texts.join("\n")
}

/// Every load of a plan without its name, which has figures in it.
fn figures_of_loads(plan: &Value) -> Vec<Value> {
    let mut loads = plan["strength"]["whole"]["load_cases"].clone();
    let loads = loads.as_array_mut().unwrap();
    for load in loads.iter_mut() {
        load["name"] = Value::Null;
    }
    std::mem::take(loads)
}

#[test]
fn every_answer_speaks_in_the_units_asked_for() {
    let (_folder, server) = shop_like("camper-bench");
    let id = begin(&server, "whole");
    wait_for(&server, &format!("/api/work/{id}/events"), "done");
    let asked = |units: &str| {
        let path = format!("/api/jobs/box/plan?depth=best&units={units}");
        server.get(&path).json()
    };
    let (metric, inch) = (asked("metric"), asked("inch"));
    assert_eq!(
        (&metric["draft"], &inch["draft"]),
        (&json!(false), &json!(false))
    );
    // The figures are the same to the last bit: nothing was run again.
    assert_eq!(figures_of_loads(&metric), figures_of_loads(&inch));
    let (metric, inch) = (sentences(&metric), sentences(&inch));
    let has = |said: &str, unit: &str| {
        let mut pairs = said.split_whitespace().zip(said.split_whitespace().skip(1));
        pairs.any(|(figure, word)| {
            figure.ends_with(|c: char| c.is_ascii_digit())
                && word.trim_end_matches(|c: char| c.is_ascii_punctuation()) == unit
        })
    };
    assert!(has(&metric, "mm") && !has(&metric, "in"), "{metric}");
    assert!(
        has(&inch, "in") && !has(&inch, "mm") && !has(&inch, "kg"),
        "{inch}"
    );
    let bench = server.get("/api/jobs/box/bench?units=inch");
    assert_eq!(bench.status, 200);
    assert_eq!(server.get("/api/jobs/box/plan?units=ells").status, 422);
}

#[test]
fn the_bulge_of_every_load_can_be_looked_at() {
    let (_folder, server) = shop();
    let id = begin(&server, "whole");
    let done = wait_for(&server, &format!("/api/work/{id}/events"), "done");
    let whole = server.get(done["result"].as_str().unwrap()).json();
    let runs = whole["strength"]["whole"]["load_cases"].as_array().unwrap();
    let listed = server.get("/api/jobs/box/model").json()["bulge"]["load_cases"].clone();
    assert_eq!(listed.as_array().unwrap().len(), runs.len());
    for run in runs {
        let id = run["id"].as_str().unwrap();
        let query: String = id.bytes().map(|byte| format!("%{byte:02X}")).collect();
        let model = server
            .get(&format!("/api/jobs/box/model?bulge={query}"))
            .json();
        let bulge = &model["bulge"];
        assert_eq!(bulge["load_case"]["id"], id);
        // The picture is of the run that the figures are read from: those are evened out, and a bulge is
        // told without what all of the tank moves; the rim of a small hole counts three times.
        let greatest = |list: &str, value: &dyn Fn(&Value) -> f64| {
            let panels = bulge["panels"].as_array().unwrap().iter();
            let values = panels.flat_map(|panel| panel[list].as_array().unwrap());
            values.map(value).fold(0.0, f64::max)
        };
        let told = |figure: &str| {
            let panels = run["panels"].as_array().unwrap().iter();
            let figures = panels.filter_map(|panel| panel[figure].as_f64());
            figures.fold(0.0, f64::max)
        };
        let used = greatest("utilisation", &|used| used.as_f64().unwrap());
        let moved = greatest("displacement_m", &|moved| {
            let parts = moved.as_array().unwrap().iter();
            parts
                .map(|part| part.as_f64().unwrap().powi(2))
                .sum::<f64>()
                .sqrt()
        });
        for (drawn, told) in [(used, told("utilisation")), (moved, told("outward_m"))] {
            assert!(
                drawn > 0.8 * told / 3.0 && drawn < 2.0 * told + 0.001,
                "{id}: {drawn} against {told}"
            );
        }
    }
    // Its names are in the units asked for, as those of the plan are.
    let names = |units: &str| {
        let path = format!("/api/jobs/box/model?units={units}");
        server.get(&path).json()["bulge"]["load_cases"].clone()
    };
    assert_ne!(names("metric"), names("inch"));
    let none = server.get("/api/jobs/box/model?bulge=storm").json();
    assert_eq!(none["bulge"], Value::Null);
}
