//! The schema of every answer.

use super::document::{Document, NewJob};
use crate::fault::Faults;
use schemars::generate::SchemaSettings;
use serde_json::{Value, json};

/// The JSON Schema (draft 2020-12) of whatever a verb answers with `--json`.
pub fn schema() -> Value {
    let mut generator = SchemaSettings::draft2020_12()
        .for_serialize()
        .into_generator();
    let answers = [
        generator.subschema_for::<Document>(),
        generator.subschema_for::<NewJob>(),
        generator.subschema_for::<Faults>(),
    ];
    json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "What brimful answers with --json",
        "description": "A Document from fit, check, cut, weld, slosh, gauge and pack; a NewJob from new; Faults where there is no answer (exit codes 2 and 3). SI throughout, the unit at the end of each name.",
        "anyOf": answers,
        "$defs": generator.take_definitions(true),
    })
}
