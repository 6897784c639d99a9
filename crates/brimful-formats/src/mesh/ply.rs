//! Stanford PLY: a head that says what follows, then rows as text or bytes.

use super::bytes::{Kind, Order, Reader};
use super::error::MeshError;
use super::surface::TriangleMesh;

/// Corners of the largest face that is believed.
const MOST_CORNERS: usize = 10_000;

#[derive(Clone, Copy, PartialEq, Eq)]
enum Coding {
    Text,
    Bytes(Order),
}

struct Element {
    name: String,
    count: usize,
    properties: Vec<Property>,
}

struct Property {
    name: String,
    kind: Kind,
    /// Of a list: what its length is written as.
    length: Option<Kind>,
}

pub(super) fn read(bytes: &[u8]) -> Result<TriangleMesh, MeshError> {
    const END: &[u8] = b"end_header";
    let end = bytes
        .windows(END.len())
        .position(|window| window == END)
        .ok_or_else(|| MeshError::form("line 1", "the head of the file has no end"))?;
    let head = String::from_utf8_lossy(&bytes[..end]).into_owned();
    let (coding, elements) = read_head(&head)?;
    let body = &bytes[end + END.len()..];
    let line = body
        .iter()
        .position(|byte| *byte == b'\n')
        .ok_or(MeshError::Ended)?;
    let body = &body[line + 1..];
    match coding {
        Coding::Bytes(order) => {
            let mut reader = Reader::new(body);
            let base = bytes.len() - body.len();
            rows(
                &elements,
                |kind| reader.number(kind, order),
                |_| format!("a row after byte {base}"),
            )
        }
        Coding::Text => {
            let text = String::from_utf8_lossy(body).into_owned();
            let mut words = text.split_whitespace();
            rows(
                &elements,
                |_| {
                    let word = words.next().ok_or(MeshError::Ended)?;
                    word.parse()
                        .map_err(|_| MeshError::form("the rows", format!("`{word}` is no number")))
                },
                |row| format!("row {row}"),
            )
        }
    }
}

fn read_head(head: &str) -> Result<(Coding, Vec<Element>), MeshError> {
    let mut coding = None;
    let mut elements: Vec<Element> = Vec::new();
    for (number, line) in head.lines().enumerate() {
        let fault = |what: &str| MeshError::form(format!("line {}", number + 1), what);
        let words: Vec<&str> = line.split_whitespace().collect();
        match words[..] {
            ["ply"] if number == 0 => {}
            _ if number == 0 => return Err(fault("the file does not begin with `ply`")),
            ["format", coded, _] => {
                coding = Some(match coded {
                    "ascii" => Coding::Text,
                    "binary_little_endian" => Coding::Bytes(Order::Little),
                    "binary_big_endian" => Coding::Bytes(Order::Big),
                    _ => return Err(fault("the format is not one of PLY")),
                });
            }
            ["element", name, count] => elements.push(Element {
                name: name.to_owned(),
                count: count.parse().map_err(|_| fault("a count is no number"))?,
                properties: Vec::new(),
            }),
            ["property", "list", length, of, name] => {
                let property = Property {
                    name: name.to_owned(),
                    kind: kind(of).ok_or_else(|| fault("a kind of number is not known"))?,
                    length: Some(
                        kind(length).ok_or_else(|| fault("a kind of number is not known"))?,
                    ),
                };
                last(&mut elements, property).ok_or_else(|| fault("a property of nothing"))?;
            }
            ["property", of, name] => {
                let property = Property {
                    name: name.to_owned(),
                    kind: kind(of).ok_or_else(|| fault("a kind of number is not known"))?,
                    length: None,
                };
                last(&mut elements, property).ok_or_else(|| fault("a property of nothing"))?;
            }
            _ => {}
        }
    }
    let coding = coding.ok_or_else(|| MeshError::form("line 2", "the head says no format"))?;
    Ok((coding, elements))
}

fn last(elements: &mut [Element], property: Property) -> Option<()> {
    elements.last_mut()?.properties.push(property);
    Some(())
}

fn kind(word: &str) -> Option<Kind> {
    Some(match word {
        "char" | "int8" => Kind::I8,
        "uchar" | "uint8" => Kind::U8,
        "short" | "int16" => Kind::I16,
        "ushort" | "uint16" => Kind::U16,
        "int" | "int32" => Kind::I32,
        "uint" | "uint32" => Kind::U32,
        "float" | "float32" => Kind::F32,
        "double" | "float64" => Kind::F64,
        _ => return None,
    })
}

/// Reads all rows; those of other elements are passed over.
fn rows(
    elements: &[Element],
    mut next: impl FnMut(Kind) -> Result<f64, MeshError>,
    place: impl Fn(usize) -> String,
) -> Result<TriangleMesh, MeshError> {
    let mut mesh = TriangleMesh::default();
    for element in elements {
        // An element without properties has no rows to be read, whatever its count.
        let count = if element.properties.is_empty() {
            0
        } else {
            element.count
        };
        for row in 0..count {
            let (mut point, mut face) = ([f64::NAN; 3], None);
            for property in &element.properties {
                let Some(length) = property.length else {
                    let value = next(property.kind)?;
                    let axis = ["x", "y", "z"]
                        .iter()
                        .position(|axis| *axis == property.name);
                    if let Some(axis) = axis {
                        point[axis] = value;
                    }
                    continue;
                };
                let length = next(length)?;
                if !(0.0..=MOST_CORNERS as f64).contains(&length) {
                    return Err(MeshError::form(
                        place(row + 1),
                        "a list has no length that can be",
                    ));
                }
                let list: Result<Vec<f64>, MeshError> =
                    (0..length as usize).map(|_| next(property.kind)).collect();
                let list = list?;
                if matches!(property.name.as_str(), "vertex_indices" | "vertex_index") {
                    face = Some(list);
                }
            }
            match (element.name.as_str(), face) {
                ("vertex", _) => mesh.point(point, || place(row + 1))?,
                ("face", Some(corners)) => {
                    let whole = |corner: &f64| *corner >= 0.0 && corner.fract() == 0.0;
                    if !corners.iter().all(whole) {
                        return Err(MeshError::form(
                            place(row + 1),
                            "a number of a point is none",
                        ));
                    }
                    let corners: Vec<usize> = corners.iter().map(|it| *it as usize).collect();
                    mesh.face(&corners, || place(row + 1))?;
                }
                _ => {}
            }
        }
    }
    Ok(mesh)
}
