//! PLY 1.0: a text header that says which numbers follow, then the numbers, as text or binary.

use super::{MeshError, Place, TriangleMesh, wrong};

#[derive(Clone, Copy, PartialEq)]
enum Coding {
    Text,
    Little,
    Big,
}

#[derive(Clone, Copy)]
enum Scalar {
    I8,
    U8,
    I16,
    U16,
    I32,
    U32,
    F32,
    F64,
}

struct Property {
    name: String,
    kind: Scalar,
    /// For a list, the kind of its length.
    list: Option<Scalar>,
}

struct Element {
    name: String,
    count: usize,
    properties: Vec<Property>,
}

struct Header {
    coding: Coding,
    elements: Vec<Element>,
    end: usize,
    lines: usize,
}

pub fn read(bytes: &[u8]) -> Result<TriangleMesh, MeshError> {
    let header = header(bytes)?;
    let mut body = Body {
        bytes,
        at: header.end,
        line: header.lines,
        coding: header.coding,
    };
    let mut mesh = TriangleMesh::default();
    for element in &header.elements {
        for _ in 0..element.count {
            match element.name.as_str() {
                "vertex" => vertex(&mut body, element, &mut mesh)?,
                "face" => face(&mut body, element, &mut mesh)?,
                _ => {
                    for property in &element.properties {
                        body.values(property)?;
                    }
                }
            }
        }
    }
    mesh.with_corners_there(body.place())
}

fn vertex(body: &mut Body, element: &Element, mesh: &mut TriangleMesh) -> Result<(), MeshError> {
    let mut point = [f64::NAN; 3];
    let place = body.place();
    for property in &element.properties {
        let values = body.values(property)?;
        let axis = ["x", "y", "z"].iter().position(|a| *a == property.name);
        if let (Some(axis), Some(&value)) = (axis, values.first()) {
            point[axis] = value;
        }
    }
    mesh.add_point(point, place)
}

fn face(body: &mut Body, element: &Element, mesh: &mut TriangleMesh) -> Result<(), MeshError> {
    let place = body.place();
    for property in &element.properties {
        let values = body.values(property)?;
        if matches!(property.name.as_str(), "vertex_indices" | "vertex_index") {
            if values.iter().any(|v| *v < 0.0 || v.fract() != 0.0) {
                return wrong(place, "a corner is not a whole number");
            }
            let corners: Vec<usize> = values.iter().map(|v| *v as usize).collect();
            mesh.add_face(&corners, place)?;
        }
    }
    Ok(())
}

/// The longest header looked at, bytes.
const LONGEST_HEADER: usize = 1 << 20;

fn header(bytes: &[u8]) -> Result<Header, MeshError> {
    let mut header = Header {
        coding: Coding::Text,
        elements: Vec::new(),
        end: 0,
        lines: 0,
    };
    let mut coding = None;
    for line in bytes[..bytes.len().min(LONGEST_HEADER)].split_inclusive(|&b| b == b'\n') {
        header.end += line.len();
        header.lines += 1;
        let place = Place::Line(header.lines);
        let text = String::from_utf8_lossy(line);
        let words: Vec<&str> = text.split_whitespace().collect();
        match words.as_slice() {
            ["ply"] if header.lines == 1 => {}
            _ if header.lines == 1 => return wrong(place, "it does not begin with \"ply\""),
            ["format", name, _] => {
                coding = match *name {
                    "ascii" => Some(Coding::Text),
                    "binary_little_endian" => Some(Coding::Little),
                    "binary_big_endian" => Some(Coding::Big),
                    _ => return wrong(place, format!("{name:?} is no coding")),
                }
            }
            ["element", name, count] => {
                let Ok(count) = count.parse() else {
                    return wrong(place, format!("{count:?} is no count"));
                };
                header.elements.push(Element {
                    name: (*name).into(),
                    count,
                    properties: Vec::new(),
                });
            }
            ["property", rest @ ..] => {
                let Some(element) = header.elements.last_mut() else {
                    return wrong(place, "a property comes before any element");
                };
                element.properties.push(property(rest, place)?);
            }
            ["end_header"] => {
                let Some(coding) = coding else {
                    return wrong(place, "the header names no format");
                };
                header.coding = coding;
                return sensible(header);
            }
            _ => {}
        }
    }
    wrong(Place::Byte(header.end), "the header does not end")
}

/// An element of nothing could be counted without end.
fn sensible(header: Header) -> Result<Header, MeshError> {
    match header
        .elements
        .iter()
        .find(|e| e.properties.is_empty() && e.count > 0)
    {
        Some(e) => wrong(
            Place::Line(header.lines),
            format!("element {:?} has no property", e.name),
        ),
        None => Ok(header),
    }
}

fn property(words: &[&str], place: Place) -> Result<Property, MeshError> {
    match words {
        ["list", count, kind, name] => Ok(Property {
            name: (*name).into(),
            kind: scalar(kind, place)?,
            list: Some(scalar(count, place)?),
        }),
        [kind, name] => Ok(Property {
            name: (*name).into(),
            kind: scalar(kind, place)?,
            list: None,
        }),
        _ => wrong(place, "a property is not understood"),
    }
}

fn scalar(name: &str, place: Place) -> Result<Scalar, MeshError> {
    Ok(match name {
        "char" | "int8" => Scalar::I8,
        "uchar" | "uint8" => Scalar::U8,
        "short" | "int16" => Scalar::I16,
        "ushort" | "uint16" => Scalar::U16,
        "int" | "int32" => Scalar::I32,
        "uint" | "uint32" => Scalar::U32,
        "float" | "float32" => Scalar::F32,
        "double" | "float64" => Scalar::F64,
        _ => return wrong(place, format!("{name:?} is no kind of number")),
    })
}

/// What follows the header.
struct Body<'a> {
    bytes: &'a [u8],
    at: usize,
    line: usize,
    coding: Coding,
}

impl Body<'_> {
    fn place(&self) -> Place {
        match self.coding {
            Coding::Text => Place::Line(self.line + 1),
            _ => Place::Byte(self.at),
        }
    }

    fn values(&mut self, property: &Property) -> Result<Vec<f64>, MeshError> {
        let Some(length) = property.list else {
            return Ok(vec![self.value(property.kind)?]);
        };
        let place = self.place();
        let count = self.value(length)?;
        if count < 0.0 || count.fract() != 0.0 || count > self.bytes.len() as f64 {
            return wrong(place, format!("{count} is no length of a list"));
        }
        (0..count as usize)
            .map(|_| self.value(property.kind))
            .collect()
    }

    fn value(&mut self, kind: Scalar) -> Result<f64, MeshError> {
        if self.coding == Coding::Text {
            return self.word();
        }
        Ok(match kind {
            Scalar::I8 => f64::from(i8::from_le_bytes(self.take()?)),
            Scalar::U8 => f64::from(u8::from_le_bytes(self.take()?)),
            Scalar::I16 => f64::from(i16::from_le_bytes(self.take()?)),
            Scalar::U16 => f64::from(u16::from_le_bytes(self.take()?)),
            Scalar::I32 => f64::from(i32::from_le_bytes(self.take()?)),
            Scalar::U32 => f64::from(u32::from_le_bytes(self.take()?)),
            Scalar::F32 => f64::from(f32::from_le_bytes(self.take()?)),
            Scalar::F64 => f64::from_le_bytes(self.take()?),
        })
    }

    /// The next bytes, least first.
    fn take<const N: usize>(&mut self) -> Result<[u8; N], MeshError> {
        let next = self.bytes.get(self.at..self.at + N);
        let Some(mut bytes) = next.and_then(|b| <[u8; N]>::try_from(b).ok()) else {
            return wrong(Place::Byte(self.at), "it ends too early");
        };
        self.at += N;
        if self.coding == Coding::Big {
            bytes.reverse();
        }
        Ok(bytes)
    }

    fn word(&mut self) -> Result<f64, MeshError> {
        let rest = &self.bytes[self.at..];
        let blank = rest.iter().take_while(|b| b.is_ascii_whitespace()).count();
        self.line += rest[..blank].iter().filter(|&&b| b == b'\n').count();
        let length = rest[blank..]
            .iter()
            .take_while(|b| !b.is_ascii_whitespace())
            .count();
        let word = &rest[blank..blank + length];
        self.at += blank + length;
        let number = std::str::from_utf8(word).ok().and_then(|w| w.parse().ok());
        match number {
            Some(number) => Ok(number),
            None if word.is_empty() => wrong(self.place(), "it ends too early"),
            None => wrong(
                self.place(),
                format!("{:?} is not a number", String::from_utf8_lossy(word)),
            ),
        }
    }
}
