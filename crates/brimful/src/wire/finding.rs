//! A finding as JSON.

use crate::words;
use brimful_panels::finding::{self, Quantity};
use brimful_panels::name::PanelName;
use brimful_panels::panel::Panel;
use brimful_text::Words;
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::Serialize;
use serde_json::{Value, json};
use std::borrow::Cow;
use std::fmt::Display;
use std::slice;

/// What a check says.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct Finding {
    /// `stop`, `mend` or `note`.
    #[schemars(extend("enum" = ["stop", "mend", "note"]))]
    grade: &'static str,
    #[serde(flatten)]
    kind: KindAsData,
    /// The panel, seam, opening or part of the job, as data.
    subject: Subject,
    /// The same in words.
    about: String,
    /// What is found, in a sentence.
    says: String,
    /// What was computed; null where it is no number.
    figure: Option<Figure>,
    /// What it is held against.
    limit: Option<Figure>,
    /// Where the limit or the rule comes from.
    source: String,
    /// What would cure it; empty for a note that needs nothing.
    cure: String,
    /// What the cure is called in the job file; empty where it has no entry of its own.
    entry: &'static str,
    /// The line of the job file it comes from, from 1; null where it is not one line.
    line: Option<usize>,
}

/// What a finding is about.
#[derive(Debug, Serialize, JsonSchema)]
struct Subject {
    r#type: SubjectType,
    /// Its ids: a part of every job, a name in the job file, the mark of a seam, a load case, ...
    ids: Vec<String>,
    /// The panels and seams, by their marks.
    marks: Vec<String>,
    /// The span of the panel, from 1, where one of several is meant.
    #[serde(skip_serializing_if = "Option::is_none")]
    span: Option<usize>,
}

/// What the ids of a subject are of.
#[derive(Debug, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
enum SubjectType {
    /// A part of every tank or job, such as `capacity` or `order_of_work`.
    Part,
    /// Panels, by their names.
    Panel,
    /// Seams, by their marks.
    Seam,
    /// An opening, by its name in the job.
    Opening,
    /// An inner panel, a rib or an obstacle, by its name in the job.
    Named,
    /// A load case.
    LoadCase,
    /// A body that fits the space.
    Candidate,
    /// A room for liquid.
    Compartment,
    /// The vents of a room for liquid.
    Vent,
    /// The overflows of a room for liquid.
    Overflow,
    /// How a room for liquid is filled.
    Filling,
}

/// What is found, as data.
#[derive(Debug, Serialize)]
struct KindAsData {
    /// The stage and what was found there.
    kind: String,
    /// Its quantities and ids.
    data: Value,
}

/// A number with its unit.
#[derive(Debug, Serialize, JsonSchema)]
struct Figure {
    /// The number.
    value: f64,
    /// Its unit: `m`, `m2`, `m3`, `kg`, `pa`, `n`, `k`, `m_s`, `rad`, `ratio` or `count`.
    unit: &'static str,
}

pub(super) fn finding(finding: &finding::Finding, panels: &[Panel], words: &Words<'_>) -> Finding {
    let told = words.finding(finding);
    let place = finding.place.as_ref();
    Finding {
        grade: words::grade(finding.grade),
        kind: kind(&finding.kind),
        subject: subject(&finding.subject, panels),
        about: told.about.into(),
        says: told.says.into(),
        figure: finding.figures.and_then(|both| figure(both.figure)),
        limit: finding.figures.and_then(|both| figure(both.limit)),
        source: told.source.into(),
        cure: told.cure.into(),
        entry: told.entry,
        line: place.map(|place| place.line).filter(|line| *line > 0),
    }
}

/// A figure; none where it is no number, which JSON has no word for.
fn figure(quantity: Quantity) -> Option<Figure> {
    let value = quantity.value();
    value.is_finite().then(|| Figure {
        value,
        unit: quantity.unit(),
    })
}

fn subject(subject: &finding::Subject, panels: &[Panel]) -> Subject {
    use finding::Subject as Of;
    let ids = |r#type, ids: Vec<String>| Subject {
        r#type,
        ids,
        marks: Vec::new(),
        span: None,
    };
    let of_panels = |names: &[PanelName]| Subject {
        marks: names.iter().filter_map(|name| mark(name, panels)).collect(),
        ..ids(
            SubjectType::Panel,
            names.iter().map(PanelName::to_string).collect(),
        )
    };
    let of_seams = |marks: &[String]| Subject {
        marks: marks.to_vec(),
        ..ids(SubjectType::Seam, marks.to_vec())
    };
    let of = |r#type, id: &dyn Display| ids(r#type, vec![id.to_string()]);
    match subject {
        Of::Part(part) => ids(SubjectType::Part, vec![part_id(*part)]),
        Of::Panel(name) => of_panels(slice::from_ref(name)),
        Of::Panels(names) => of_panels(names),
        Of::Span(name, span) => Subject {
            span: Some(*span),
            ..of_panels(slice::from_ref(name))
        },
        Of::Seam(mark, _) => of_seams(slice::from_ref(mark)),
        Of::Seams(marks) => of_seams(marks),
        Of::Opening(name) => of(SubjectType::Opening, name),
        Of::Named(name) => of(SubjectType::Named, name),
        Of::Case(case) => of(SubjectType::LoadCase, case),
        Of::Candidate(name) => of(SubjectType::Candidate, name),
        Of::Compartment(room) => of(SubjectType::Compartment, room),
        Of::Vent(room) => of(SubjectType::Vent, room),
        Of::Overflow(room) => of(SubjectType::Overflow, room),
        Of::Filling(room) => of(SubjectType::Filling, room),
    }
}

fn part_id(part: finding::Part) -> String {
    let id = serde_json::to_value(part).unwrap_or_default();
    id.as_str().unwrap_or_default().to_owned()
}

fn mark(name: &PanelName, panels: &[Panel]) -> Option<String> {
    let panel = panels.iter().find(|panel| panel.name == *name)?;
    Some(panel.mark.clone())
}

/// Stage and kind make one id: kinds of two stages may share a word.
fn kind(kind: &finding::Kind) -> KindAsData {
    let mut told = serde_json::to_value(kind).expect("kinds have no keys but words");
    let word = |key: &str| told[key].as_str().unwrap_or_default().to_owned();
    KindAsData {
        kind: kind_id(&word("stage"), &word("kind")),
        data: told["data"].take(),
    }
}

fn kind_id(stage: &str, kind: &str) -> String {
    format!("{stage}.{kind}")
}

impl JsonSchema for KindAsData {
    fn schema_name() -> Cow<'static, str> {
        "FindingKind".into()
    }

    /// The kinds of every stage in one list, from the schemas that are derived from them.
    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        let stages = finding::Kind::json_schema(generator).to_value();
        let mut kinds = Vec::new();
        for stage in listed(&stages) {
            let Some(name) = stage["$ref"]
                .as_str()
                .and_then(|path| path.rsplit('/').next())
            else {
                continue;
            };
            let stage = &stage["properties"]["stage"]["const"];
            let Some(of_stage) = generator.definitions_mut().remove(name) else {
                continue;
            };
            kinds.extend(
                listed(&of_stage)
                    .iter()
                    .map(|kind| as_in_finding(stage, kind)),
            );
        }
        json_schema!({ "type": "object", "oneOf": kinds })
    }
}

fn listed(choices: &Value) -> &[Value] {
    choices["oneOf"].as_array().map_or(&[], Vec::as_slice)
}

fn as_in_finding(stage: &Value, kind: &Value) -> Value {
    let properties = &kind["properties"];
    let id = kind_id(
        stage.as_str().unwrap_or_default(),
        properties["kind"]["const"].as_str().unwrap_or_default(),
    );
    let data = properties.get("data").cloned();
    json!({
        "description": kind["description"],
        "properties": {
            "kind": { "type": "string", "const": id },
            "data": data.unwrap_or_else(|| json!({ "type": "null" })),
        },
        "required": ["kind", "data"],
    })
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a test may panic")]
mod tests {
    use super::*;
    use brimful_geom::vector::Point3;
    use brimful_panels::case::{CaseId, LoadKind};
    use brimful_panels::finding::kind::StrengthKind;
    use std::collections::BTreeSet;

    #[test]
    fn a_figure_that_is_no_number_is_null() {
        assert!(figure(Quantity::Ratio(f64::NAN)).is_none());
        assert!(figure(Quantity::Ratio(f64::INFINITY)).is_none());
        assert_eq!(figure(Quantity::Ratio(1.5)).unwrap().value, 1.5);
    }

    fn schema() -> Value {
        schemars::schema_for!(Finding).to_value()
    }

    #[test]
    fn a_kind_has_one_id_and_its_quantities() {
        let told = kind(&finding::Kind::Strength(StrengthKind::WeldOverLimit {
            case: CaseId::of(LoadKind::Rest),
            at: Point3::new(0.1, 0.2, 0.3),
        }));
        assert_eq!(told.kind, "strength.weld_over_limit");
        assert_eq!(
            told.data,
            json!({ "case": "rest", "at_m": [0.1, 0.2, 0.3] })
        );
        assert_eq!(
            kind(&finding::Kind::Strength(StrengthKind::NoLid)).data,
            Value::Null
        );
    }

    #[test]
    fn the_schema_lists_every_kind_once() {
        let schema = schema();
        let kinds = listed(&schema).iter();
        let ids: Vec<&str> = kinds
            .map(|kind| kind["properties"]["kind"]["const"].as_str().unwrap())
            .collect();
        assert!(ids.len() > 100, "{ids:?}");
        assert_eq!(ids.iter().collect::<BTreeSet<_>>().len(), ids.len());
        assert!(ids.contains(&"practice.no_events"));
    }

    /// The units of a schema and of its items.
    fn units(schema: &Value) -> Vec<&str> {
        let own = schema["format"]
            .as_str()
            .filter(|_| schema["type"] == "number");
        let own = own.filter(|format| *format != "double");
        let parts = ["items", "prefixItems", "anyOf"].map(|part| &schema[part]);
        let parts = parts.into_iter().flat_map(|part| match part {
            Value::Array(all) => all.iter().collect(),
            one => vec![one],
        });
        let parts = parts.filter(|part| part.is_object()).flat_map(units);
        own.into_iter().chain(parts).collect()
    }

    fn check_keys(schema: &Value) {
        if let Some(properties) = schema["properties"].as_object() {
            for (key, value) in properties {
                for unit in units(value) {
                    assert!(key.ends_with(&format!("_{unit}")), "{key} is in {unit}");
                }
            }
        }
        match schema {
            Value::Object(parts) => parts.values().for_each(check_keys),
            Value::Array(parts) => parts.iter().for_each(check_keys),
            _ => {}
        }
    }

    #[test]
    fn every_quantity_tells_its_unit_at_the_end_of_its_key() {
        let schema = schema();
        assert!(schema.to_string().contains("\"format\":\"m3\""));
        check_keys(&schema);
    }
}
