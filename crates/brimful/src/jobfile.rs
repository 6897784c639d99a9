//! Changing a job file: comments kept, the whole file or none of it, and the old one kept beside.

use crate::fault::{Failure, Fault};
use crate::file::Fresh;
use brimful_geom::frame::Frame;
use brimful_geom::solid::Solid;
use brimful_geom::vector::Point3;
use brimful_job::{Job, LengthUnit};
use brimful_text::{Language, Text, say};
use std::path::Path;
use toml_edit::{Array, DocumentMut, Item, Table, Value};

/// What a shape is written with; all of it gives way to a new one.
const SHAPE_KEYS: [&str; 12] = [
    "fitted", "box", "plan", "side", "front", "height", "length", "width", "corners", "faces",
    "at", "cut",
];
/// Corners are written to this share of the unit: a thousandth of a nanometre, so that faces stay
/// flat to the last.
const DIGITS: f64 = 1e9;
/// A normal this near to an axis is along it.
const ALONG: f64 = 1.0 - 1e-9;

/// The text of a job with another body in it; everything else as it was.
///
/// # Errors
/// Why the text cannot be changed, in a sentence.
pub(crate) fn with_body(
    text: &str,
    job: &Job,
    body: &Solid,
    words: Language,
) -> Result<String, Text> {
    let mut document: DocumentMut = text.parse().map_err(|fault: toml_edit::TomlError| {
        say!(
            words,
            "The job file cannot be changed: {fault}.",
            fault = words.given(&fault.to_string())
        )
    })?;
    let table = document
        .entry("body")
        .or_insert_with(|| Item::Table(Table::new()))
        .as_table_mut()
        .ok_or_else(|| {
            say!(
                words,
                "The {section} of the job file is no plain section.",
                section = words.given("[body]")
            )
        })?;
    for key in SHAPE_KEYS {
        table.remove(key);
    }
    let unit = Unit(job.about.lengths);
    let (low, high) = body.bounds();
    if is_box(body) {
        let size = Point3::ORIGIN + (high - low);
        table["box"] = unit.point(size);
        table["at"] = unit.point(low);
    } else if let Some((plan, height)) = drawn_up(body) {
        table["plan"] = rows(plan.iter().map(|&[x, y]| unit.list([x, y])));
        table["height"] = Item::Value(unit.value(height));
        table["at"] = unit.point(Point3::new(0.0, 0.0, low.z));
    } else {
        let corners = body.vertices.iter().map(|p| unit.list(p.to_array()));
        table["corners"] = rows(corners);
        if body.faces.iter().any(|face| face.loops.len() > 1) {
            return Err(say!(
                words,
                "A face of this body has a hole, which a job file cannot say."
            ));
        }
        let number = |&v: &usize| i64::try_from(v + 1).unwrap_or(i64::MAX);
        let faces = body
            .faces
            .iter()
            .map(|face| face.loops[0].iter().map(number).collect());
        table["faces"] = rows(faces);
    }
    let changed = document.to_string();
    match Job::parse(&changed) {
        Ok(_) => Ok(changed),
        Err(faults) => Err(faults.first().map_or_else(
            || say!(words, "The job file with its new body cannot be read."),
            |fault| words.job_fault(fault).in_one_line(words),
        )),
    }
}

/// Puts a new text in the place of a job file, and keeps the old one beside it: its name, which ends by what it was kept
/// before.
pub(crate) fn replace(
    path: &Path,
    old: &str,
    new: &str,
    before: &str,
    words: Language,
) -> Result<String, Failure> {
    let failed = |fault: std::io::Error| {
        Failure::own(Fault::new(
            say!(
                words,
                "`{path}` could not be written: {fault}.",
                path = words.given(&path.display().to_string()),
                fault = words.given(&fault.to_string())
            ),
            say!(
                words,
                "It is left as it was; see whether there is room, and permission to write."
            ),
        ))
    };
    let kept = kept_name(path, before);
    for (target, text) in [(kept.as_path(), old), (path, new)] {
        Fresh::new(target, path, text)
            .and_then(Fresh::put)
            .map_err(failed)?;
    }
    Ok(kept.display().to_string())
}

/// The first free name for the old file: `NAME.before-fit`, `NAME.before-fit-2`, ...
fn kept_name(path: &Path, before: &str) -> std::path::PathBuf {
    let name = |number: usize| {
        let mut name = path.file_name().unwrap_or_default().to_owned();
        name.push(match number {
            1 => format!(".before-{before}"),
            n => format!(".before-{before}-{n}"),
        });
        path.with_file_name(name)
    };
    (1..)
        .map(name)
        .find(|path| !path.exists())
        .unwrap_or_else(|| name(1))
}

/// Lengths as this job writes them.
struct Unit(Option<LengthUnit>);

impl Unit {
    fn value(&self, metres: f64) -> Value {
        let rounded = |number: f64| (number * DIGITS).round() / DIGITS + 0.0;
        match self.0 {
            Some(unit) => whole_or_not(rounded(metres / unit.length(1.0).m())),
            None => format!("{} mm", rounded(metres * 1e3)).into(),
        }
    }

    fn list<const N: usize>(&self, metres: [f64; N]) -> Array {
        metres
            .into_iter()
            .map(|metres| self.value(metres))
            .collect()
    }

    fn point(&self, point: Point3) -> Item {
        Item::Value(Value::Array(self.list(point.to_array())))
    }
}

/// A number without `.0` where it is whole.
fn whole_or_not(number: f64) -> Value {
    #[expect(
        clippy::cast_possible_truncation,
        reason = "it is whole and below 2^53"
    )]
    if number.fract() == 0.0 && number.abs() < 1e15 {
        (number as i64).into()
    } else {
        number.into()
    }
}

/// A list of lists, one a line.
fn rows(rows: impl Iterator<Item = Array>) -> Item {
    let mut list = Array::new();
    for row in rows {
        let mut value = Value::Array(row);
        value.decor_mut().set_prefix("\n    ");
        list.push_formatted(value);
    }
    list.set_trailing("\n");
    list.set_trailing_comma(true);
    Item::Value(Value::Array(list))
}

fn is_box(body: &Solid) -> bool {
    let square = |face: &brimful_geom::solid::Face| {
        let n = face.plane.normal;
        n.x.abs().max(n.y.abs()).max(n.z.abs()) > ALONG
    };
    body.faces.len() == 6 && body.faces.iter().all(square)
}

/// Plan and height of a body with upright sides between a level floor and a level lid.
fn drawn_up(body: &Solid) -> Option<(Vec<[f64; 2]>, f64)> {
    let level = |face: &&brimful_geom::solid::Face| face.plane.normal.z.abs() > ALONG;
    let upright = |face: &brimful_geom::solid::Face| face.plane.normal.z.abs() < 1.0 - ALONG;
    let ends: Vec<_> = body.faces.iter().filter(level).collect();
    let sides = body.faces.iter().filter(|face| upright(face)).count();
    let lid = ends.iter().find(|face| face.plane.normal.z > 0.0)?;
    if ends.len() != 2 || sides + 2 != body.faces.len() || lid.loops.len() != 1 {
        return None;
    }
    let plan = lid.loops[0]
        .iter()
        .map(|&v| Frame::WORLD.flat_from_world(body.vertices[v]))
        .map(|p| [p.x, p.y])
        .collect();
    let (low, high) = body.bounds();
    Some((plan, high.z - low.z))
}
