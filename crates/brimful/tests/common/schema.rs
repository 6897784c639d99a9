//! Holds JSON to the schemas in `docs/schema`.

use serde_json::{Value, json};

/// A schema as it is committed.
pub fn committed(file: &str) -> Value {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../docs/schema");
    let text = std::fs::read_to_string(format!("{folder}/{file}")).unwrap();
    serde_json::from_str(&text).unwrap()
}

/// Holds a value to the schema at a reference such as `#/$defs/Document`.
pub fn assert_fits(root: &Value, reference: &str, value: &Value, place: &str) {
    let fits = fits(root, &json!({ "$ref": reference }), value, place);
    assert!(fits.is_ok(), "{}", fits.unwrap_err());
}

/// As far as our schemas go: types, choices, known words, required and known keys, items, lengths
/// and references.
fn fits(root: &Value, schema: &Value, value: &Value, place: &str) -> Result<(), String> {
    if let Some(reference) = schema["$ref"].as_str() {
        let schema = root.pointer(reference.trim_start_matches('#'));
        let schema = schema.ok_or_else(|| format!("{place}: no {reference}"))?;
        return fits(root, schema, value, place);
    }
    for kind in ["anyOf", "oneOf"] {
        if let Some(choices) = schema[kind].as_array() {
            let mut tried = choices
                .iter()
                .map(|it| fits(root, &with_choice(schema, kind, it), value, place));
            let none = || format!("{place}: {value} is none of {choices:?}");
            return tried.find(Result::is_ok).ok_or_else(none)?;
        }
    }
    let words = schema["enum"].as_array();
    if words.is_some_and(|words| !words.contains(value))
        || schema.get("const").is_some_and(|word| word != value)
        || !is_of_type(schema, value)
    {
        return Err(format!("{place}: {value} is not as {schema}"));
    }
    if let Some(items) = value.as_array() {
        let length = items.len() as u64;
        if schema["minItems"]
            .as_u64()
            .is_some_and(|least| length < least)
            || schema["maxItems"]
                .as_u64()
                .is_some_and(|most| length > most)
        {
            return Err(format!("{place}: {length} items"));
        }
        for (number, item) in items.iter().enumerate() {
            let own = schema["prefixItems"].get(number);
            let own = own.unwrap_or(&schema["items"]);
            fits(root, own, item, &format!("{place}[{number}]"))?;
        }
    }
    if let (Some(entries), true) = (value.as_object(), schema.get("type").is_some()) {
        for key in schema["required"].as_array().into_iter().flatten() {
            if !entries.contains_key(key.as_str().unwrap()) {
                return Err(format!("{place}: no {key}"));
            }
        }
        for (key, entry) in entries {
            let known = schema["properties"].get(key);
            let known = known.or(schema.get("additionalProperties"));
            let known = known.ok_or_else(|| format!("{place}: `{key}` is not in the schema"))?;
            fits(root, known, entry, &format!("{place}.{key}"))?;
        }
    }
    Ok(())
}

/// A schema with one of its choices, which adds keys to those that every choice has.
fn with_choice(schema: &Value, kind: &str, choice: &Value) -> Value {
    let Some(common) = schema["properties"].as_object() else {
        return choice.clone();
    };
    let mut whole = schema.clone();
    let mut properties = common.clone();
    properties.extend(
        choice["properties"]
            .as_object()
            .cloned()
            .unwrap_or_default(),
    );
    let required = [schema, choice].map(|it| it["required"].as_array().cloned());
    whole["properties"] = properties.into();
    whole["required"] = required.into_iter().flatten().flatten().collect();
    whole.as_object_mut().unwrap().remove(kind);
    whole
}

fn is_of_type(schema: &Value, value: &Value) -> bool {
    let of_type = |name: &Value| match name.as_str().unwrap_or_default() {
        "null" => value.is_null(),
        "string" => value.is_string(),
        "number" => value.is_number(),
        "integer" => value.is_u64() || value.is_i64(),
        "boolean" => value.is_boolean(),
        "array" => value.is_array(),
        "object" => value.is_object(),
        _ => false,
    };
    match schema.get("type") {
        None => true,
        Some(Value::Array(types)) => types.iter().any(of_type),
        Some(one) => of_type(one),
    }
}
