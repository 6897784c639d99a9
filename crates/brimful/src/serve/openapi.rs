//! The OpenAPI description (3.1) of the server's paths.

use super::records::Entry;
use crate::wire;
use schemars::generate::{SchemaGenerator, SchemaSettings};
use serde_json::{Map, Value, json};

/// The whole description.
pub(crate) fn document() -> Value {
    let mut schemas = SchemaSettings::draft2020_12()
        .with(|settings| settings.definitions_path = "/components/schemas".into())
        .into_generator();
    let paths = paths(&mut schemas);
    let mut components = schemas.take_definitions(true);
    components.insert("refusal".into(), refusal());
    components.insert("job".into(), job());
    json!({
        "openapi": "3.1.0",
        "info": {
            "title": "Brimful",
            "version": env!("CARGO_PKG_VERSION"),
            "description": "The local server behind the page. SI throughout, the unit at the end of each name. Changes name the text they are made to in the If-Match header.",
        },
        "paths": paths,
        "components": { "schemas": components },
    })
}

fn paths(schemas: &mut SchemaGenerator) -> Value {
    let entry = schemas.subschema_for::<Entry>().to_value();
    let plan = schemas.subschema_for::<wire::Document>().to_value();
    let model = schemas.subschema_for::<wire::model::Model>().to_value();
    let liquid = schemas.subschema_for::<wire::model::Liquid>().to_value();
    let bench = schemas.subschema_for::<wire::bench::Bench>().to_value();
    let any = json!({});
    let job = json!({ "$ref": "#/components/schemas/job" });
    let text = object(&[("text", json!({ "type": "string" }))], &["text"]);
    let edit = edit();
    let edits = object(
        &[("edits", json!({ "type": "array", "items": edit }))],
        &["edits"],
    );
    let new = object(
        &[
            ("name", json!({ "type": "string" })),
            ("like", json!({ "type": ["string", "null"] })),
        ],
        &["name"],
    );
    let wanted = object(
        &[
            (
                "what",
                json!({ "enum": ["whole", "remedies", "pack", "fit"] }),
            ),
            (
                "options",
                object(
                    &[
                        ("paper", json!({ "enum": ["a4", "letter", null] })),
                        ("units", json!({ "enum": ["metric", "inch", null] })),
                    ],
                    &[],
                ),
            ),
        ],
        &["what"],
    );
    let code = object(&[("code", json!({ "type": "string" }))], &["code"]);
    let name = || vec![parameter("name", "path", json!({ "type": "string" }))];
    let id = || {
        vec![parameter(
            "id",
            "path",
            json!({ "type": "integer", "minimum": 0 }),
        )]
    };
    let with = |mut all: Vec<Value>, more: Vec<Value>| {
        all.extend(more);
        all
    };
    let etag = || vec![parameter("If-Match", "header", json!({ "type": "string" }))];
    let query = |name: &str, kind: Value| json!({ "name": name, "in": "query", "required": false, "schema": kind });
    let number = || json!({ "type": "number" });
    let dip = json!({ "name": "dip_m", "in": "query", "required": true, "schema": number() });
    let tilts = vec![
        dip,
        query("compartment", json!({ "type": "string" })),
        query("heel_rad", number()),
        query("pitch_rad", number()),
    ];
    let units = || query("units", json!({ "enum": ["metric", "inch"] }));
    let depth = vec![
        query("depth", json!({ "enum": ["quick", "whole", "best"] })),
        units(),
    ];
    let load = vec![query("bulge", json!({ "type": "string" })), units()];
    json!({
        "/api/about": { "get": call("What this server is", vec![], None, 200, &any) },
        "/api/enter": { "post": call("Come in by the code", vec![], Some(code), 200, &any) },
        "/api/examples": { "get": call("Examples to begin from", vec![], None, 200, &any) },
        "/api/jobs": {
            "get": call("All jobs", vec![], None, 200, &any),
            "post": call("Begin a job", vec![], Some(new), 201, &job),
        },
        "/api/jobs/{name}": {
            "get": call("One job", name(), None, 200, &job),
            "patch": call("Change entries, all else left as it is", with(name(), etag()), Some(edits), 200, &job),
            "delete": call("Take a job away; its text stays among the versions", with(name(), etag()), None, 204, &any),
        },
        "/api/jobs/{name}/text": { "put": call("Write the text as a whole", with(name(), etag()), Some(text), 200, &job) },
        "/api/jobs/{name}/undo": { "post": call("Go to the version before", with(name(), etag()), None, 200, &job) },
        "/api/jobs/{name}/redo": { "post": call("Go to the version after", with(name(), etag()), None, 200, &job) },
        "/api/jobs/{name}/plan": { "get": call("What is worked out, with `draft` and `etag`", with(name(), depth), None, 200, &plan) },
        "/api/jobs/{name}/model": { "get": call("The shape for a picture; the bulge under the load named", with(name(), load), None, 200, &model) },
        "/api/jobs/{name}/liquid": { "get": call("Liquid at a dip and tilt", with(name(), tilts), None, 200, &liquid) },
        "/api/jobs/{name}/bench": { "get": call("The steps at the bench", with(name(), vec![units()]), None, 200, &bench) },
        "/api/jobs/{name}/build": { "get": call("Records of the build", name(), None, 200, &any) },
        "/api/jobs/{name}/build/entries": {
            "post": call("Keep entries; acknowledged ones outlive the process", name(), Some(json!({ "type": "array", "items": entry })), 200, &any),
        },
        "/api/jobs/{name}/papers": { "get": call("The papers made", name(), None, 200, &any) },
        "/api/jobs/{name}/work": { "post": call("Begin long work, or join what is being done already; it is dropped when nobody has followed its events or asked for its result for 8 s", name(), Some(wanted), 202, &any) },
        "/api/work/{id}": { "delete": call("Leave work; with the last who asked for it, it is dropped", id(), None, 204, &any) },
        "/api/work/{id}/result": { "get": call("What work came to; why it failed, with the status of that, where it did", id(), None, 200, &any) },
    })
}

fn call(
    summary: &str,
    parameters: Vec<Value>,
    body: Option<Value>,
    status: u16,
    answer: &Value,
) -> Value {
    let mut call = json!({ "summary": summary, "parameters": parameters });
    if let Some(schema) = body {
        call["requestBody"] =
            json!({ "required": true, "content": { "application/json": { "schema": schema } } });
    }
    let done = if status == 204 {
        json!({ "description": "Done" })
    } else {
        json!({ "description": "Done", "content": { "application/json": { "schema": answer } } })
    };
    let refused = json!({
        "description": "Why it is not done, with a remedy",
        "content": { "application/json": { "schema": { "$ref": "#/components/schemas/refusal" } } },
    });
    let mut responses = Map::new();
    responses.insert(status.to_string(), done);
    responses.insert("4XX".to_owned(), refused.clone());
    responses.insert("500".to_owned(), refused);
    call["responses"] = Value::Object(responses);
    call
}

fn parameter(name: &str, place: &str, schema: Value) -> Value {
    json!({ "name": name, "in": place, "required": true, "schema": schema })
}

fn object(entries: &[(&str, Value)], required: &[&str]) -> Value {
    let properties: Map<String, Value> = entries
        .iter()
        .map(|(name, schema)| ((*name).to_owned(), schema.clone()))
        .collect();
    json!({ "type": "object", "additionalProperties": false, "properties": properties, "required": required })
}

fn edit() -> Value {
    json!({
        "type": "object",
        "required": ["path"],
        "additionalProperties": false,
        "description": "One of `set`, `append`, `insert` and `remove`, at a place such as `opening[2].at[1]`, counted from 1.",
        "properties": {
            "path": { "type": "string" },
            "set": { "description": "What is written there; a list grows by one entry at most." },
            "append": { "description": "A block, or an entry, that is added at the end of the list there." },
            "insert": { "description": "An entry that is put into a list before the one at `path`, whose last step is its number; the number after the last is the end." },
            "remove": { "type": "boolean", "description": "Whether what is there goes." },
        },
    })
}

fn refusal() -> Value {
    json!({
        "type": "object",
        "required": ["error"],
        "properties": {
            "error": {
                "type": "object",
                "required": ["says", "remedy"],
                "properties": { "says": { "type": "string" }, "remedy": { "type": "string" } },
            },
        },
    })
}

fn job() -> Value {
    json!({
        "type": "object",
        "required": ["name", "title", "etag", "text", "written", "job", "faults", "can_undo", "can_redo"],
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_reference_leads_somewhere() {
        let document = document();
        let text = document.to_string();
        let mut references = text.split("\"$ref\":\"#").skip(1);
        assert!(references.clone().count() > 20);
        let missing = references.find(|rest| {
            let pointer = rest.split('"').next().unwrap_or("");
            document.pointer(pointer).is_none()
        });
        assert!(missing.is_none(), "{missing:?}");
    }
}
