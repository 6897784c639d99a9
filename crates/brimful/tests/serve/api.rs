//! Answers are as the OpenAPI description says.

use super::schema::{assert_fits, committed};
use super::{Server, begin, edit, shop, shop_like, wait_for};
use serde_json::{Value, json};

/// Holds an answer to what the description says of a call.
fn described(description: &Value, method: &str, path: &str, status: u16, answer: &Value) {
    let responses = format!("#/paths/{}/{method}/responses", path.replace('/', "~1"));
    let status = if status < 400 {
        status.to_string()
    } else {
        "4XX".to_owned()
    };
    let schema = format!("{responses}/{status}/content/application~1json/schema");
    assert_fits(description, &schema, answer, &format!("{method} {path}"));
}

fn asked(
    server: &Server,
    description: &Value,
    method: &str,
    path: &str,
    body: Option<&Value>,
) -> Value {
    let (name, query) = path.split_once('?').unwrap_or((path, ""));
    let query = if query.is_empty() {
        String::new()
    } else {
        format!("?{query}")
    };
    let etag = format!("If-Match: \"{}\"\r\n", server.etag("box"));
    let real = name.replace("{name}", "box");
    let reply = server.ask(
        &method.to_uppercase(),
        &format!("{real}{query}"),
        &etag,
        body,
    );
    described(description, method, name, reply.status, &reply.json());
    reply.json()
}

fn work(server: &Server, description: &Value, what: &str) {
    let id = begin(server, what);
    let done = wait_for(server, &format!("/api/work/{id}/events"), "done");
    let result = server.get(done["result"].as_str().unwrap()).json();
    described(description, "get", "/api/work/{id}/result", 200, &result);
}

#[test]
fn every_answer_is_as_the_description_says() {
    let (_folder, server) = shop();
    let description = server.get("/openapi.json").json();
    assert!(
        description == committed("openapi.json"),
        "what is served is what is committed"
    );
    let get = |path: &str| asked(&server, &description, "get", path, None);
    get("/api/about");
    get("/api/examples");
    get("/api/jobs");
    get("/api/jobs/{name}");
    get("/api/jobs/{name}/plan");
    get("/api/jobs/{name}/plan?depth=whole");
    get("/api/jobs/{name}/liquid?dip_m=0.1");
    get("/api/jobs/{name}/bench");
    let entry =
        json!([{ "client_id": "a", "step": "s", "kind": "tick", "value": "", "made_s": 1.0 }]);
    asked(
        &server,
        &description,
        "post",
        "/api/jobs/{name}/build/entries",
        Some(&entry),
    );
    get("/api/jobs/{name}/build");
    for what in ["whole", "remedies", "pack"] {
        work(&server, &description, what);
    }
    get("/api/jobs/{name}/model");
    get("/api/jobs/{name}/papers");
    orders(&server, get);
    let wrong = edit("body.thickness", json!("12 gal"));
    let changed = asked(
        &server,
        &description,
        "patch",
        "/api/jobs/{name}",
        Some(&wrong),
    );
    assert_eq!(changed["faults"][0]["key"], "body.thickness");
    let refused = get("/api/jobs/{name}/plan");
    assert_eq!(refused["faults"], changed["faults"]);
}

/// The order of work, one that is tried, one that cannot be followed, and the poses of a run.
fn orders(server: &Server, get: impl Fn(&str) -> Value) {
    let order = get("/api/jobs/{name}/order");
    let marks: Vec<&str> = order["panels"]
        .as_array()
        .unwrap()
        .iter()
        .map(|panel| panel["mark"].as_str().unwrap())
        .collect();
    let mut other = marks.clone();
    other.swap(1, 2);
    let tried = get(&format!(
        "/api/jobs/{{name}}/order?panels={}",
        other.join(",")
    ));
    assert_eq!(tried["best"], order["best"]);
    assert_eq!(tried["panels"][1]["mark"], other[1]);
    let refused = get(&format!("/api/jobs/{{name}}/order?panels={}", marks[0]));
    assert!(
        refused["error"]["says"]
            .as_str()
            .unwrap()
            .contains("leaves out")
    );
    get("/api/jobs/{name}/order?panels=none");
    let steps = order["steps"].as_array().unwrap();
    let welds = steps.iter().find(|step| step["runs"][0].is_object());
    let run = &welds.unwrap()["runs"][0];
    let poses = get(&format!(
        "/api/jobs/{{name}}/order/poses?run={}&standing={}",
        run["run"],
        marks[..2].join(",")
    ));
    let places = run["places"].as_array().unwrap();
    assert_eq!(poses["poses"].as_array().unwrap().len(), places.len());
    // Without the whole check nothing is known of reach.
    let fresh = json!({ "name": "fresh", "like": null });
    server.ask("POST", "/api/jobs", "", Some(&fresh));
    assert_eq!(server.get("/api/jobs/fresh/order").status, 409);
}

#[test]
fn what_fits_is_as_the_description_says() {
    let (_folder, server) = shop_like("rain-alcove");
    work(&server, &committed("openapi.json"), "fit");
}
