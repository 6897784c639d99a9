//! glTF 2.0 (Khronos): triangles of all meshes where the nodes of the scene put them. Buffers lie in
//! the file itself, as the second chunk of a GLB or as data in base 64.

use super::bytes::{Kind, Order, Reader};
use super::{MeshError, TriangleMesh};
use base64::Engine;
use base64::alphabet::STANDARD;
use base64::engine::{DecodePaddingMode, GeneralPurpose, GeneralPurposeConfig};
use serde_json::Value;

/// RFC 4648; some writers leave out the padding.
const BASE64: GeneralPurpose = GeneralPurpose::new(
    &STANDARD,
    GeneralPurposeConfig::new().with_decode_padding_mode(DecodePaddingMode::Indifferent),
);

/// Nodes one below the other at most: a file may lead round in a circle.
const DEEPEST: usize = 64;
const TRIANGLES: u64 = 4;

type Matrix = [[f64; 4]; 4];

const UNIT: Matrix = [
    [1.0, 0.0, 0.0, 0.0],
    [0.0, 1.0, 0.0, 0.0],
    [0.0, 0.0, 1.0, 0.0],
    [0.0, 0.0, 0.0, 1.0],
];

pub(super) fn read(bytes: &[u8]) -> Result<TriangleMesh, MeshError> {
    let (text, chunk) = if bytes.starts_with(b"glTF") {
        chunks(bytes)?
    } else {
        (bytes, None)
    };
    let document: Value = serde_json::from_slice(text).map_err(|fault| {
        MeshError::form(format!("line {}", fault.line()), "the file is no JSON")
    })?;
    let mut file = File {
        buffers: buffers(&document, chunk)?,
        document: &document,
        mesh: TriangleMesh::default(),
    };
    let roots = roots(&document);
    for root in roots {
        file.node(root, &UNIT, 0)?;
    }
    Ok(file.mesh)
}

/// JSON and binary chunk of a GLB.
fn chunks(bytes: &[u8]) -> Result<(&[u8], Option<&[u8]>), MeshError> {
    let mut reader = Reader::new(bytes);
    reader.take(12)?;
    let (mut text, mut binary) = (None, None);
    while reader.at < bytes.len() {
        let length = reader.index(Kind::U32, Order::Little)?;
        let kind = reader.take(4)?;
        let chunk = reader.take(length)?;
        match kind {
            b"JSON" => text = text.or(Some(chunk)),
            b"BIN\0" => binary = binary.or(Some(chunk)),
            _ => {}
        }
    }
    Ok((text.ok_or(MeshError::Ended)?, binary))
}

fn buffers(document: &Value, chunk: Option<&[u8]>) -> Result<Vec<Vec<u8>>, MeshError> {
    let list = document["buffers"].as_array().into_iter().flatten();
    list.enumerate()
        .map(|(number, buffer)| match buffer["uri"].as_str() {
            None if number == 0 => chunk.map(<[u8]>::to_vec).ok_or(MeshError::Ended),
            None => Err(MeshError::Ended),
            Some(uri) => match uri.split_once(";base64,") {
                Some((head, data)) if head.starts_with("data:") => {
                    let read = BASE64.decode(data);
                    read.map_err(|_| fault("a buffer is not in base 64"))
                }
                _ => Err(MeshError::OtherFile {
                    name: uri.chars().take(80).collect(),
                }),
            },
        })
        .collect()
}

/// The nodes of the scene that is shown; without scenes all that no other has.
fn roots(document: &Value) -> Vec<usize> {
    let scene = document["scene"].as_u64().unwrap_or(0) as usize;
    let numbers = |list: &Value| -> Vec<usize> {
        let list = list.as_array().into_iter().flatten();
        list.filter_map(|it| it.as_u64().map(|it| it as usize))
            .collect()
    };
    let shown = &document["scenes"][scene]["nodes"];
    if shown.is_array() {
        return numbers(shown);
    }
    let nodes: Vec<Value> = document["nodes"].as_array().cloned().unwrap_or_default();
    let children: Vec<usize> = nodes
        .iter()
        .flat_map(|node| numbers(&node["children"]))
        .collect();
    (0..nodes.len())
        .filter(|node| !children.contains(node))
        .collect()
}

fn fault(what: &str) -> MeshError {
    MeshError::form("its description", what)
}

struct File<'a> {
    document: &'a Value,
    buffers: Vec<Vec<u8>>,
    mesh: TriangleMesh,
}

impl File<'_> {
    fn node(&mut self, number: usize, above: &Matrix, depth: usize) -> Result<(), MeshError> {
        let node = &self.document["nodes"][number];
        if depth > DEEPEST || node.is_null() {
            return Err(fault("its nodes lead nowhere or round in a circle"));
        }
        let place = multiply(above, &own_place(node));
        if let Some(mesh) = node["mesh"].as_u64() {
            let primitives = &self.document["meshes"][mesh as usize]["primitives"];
            for primitive in primitives.as_array().into_iter().flatten() {
                if primitive["mode"].as_u64().unwrap_or(TRIANGLES) == TRIANGLES {
                    self.primitive(primitive, &place)?;
                }
            }
        }
        for child in node["children"].as_array().into_iter().flatten() {
            let child = child
                .as_u64()
                .ok_or_else(|| fault("a node has no number"))?;
            self.node(child as usize, &place, depth + 1)?;
        }
        Ok(())
    }

    fn primitive(&mut self, primitive: &Value, place: &Matrix) -> Result<(), MeshError> {
        let first = self.mesh.points.len();
        let places = self.values(&primitive["attributes"]["POSITION"], 3)?;
        for point in places.chunks_exact(3) {
            let moved = [0, 1, 2].map(|row| {
                let line = &place[row];
                line[0] * point[0] + line[1] * point[1] + line[2] * point[2] + line[3]
            });
            self.mesh.point(moved, || "its points".to_owned())?;
        }
        let count = self.mesh.points.len() - first;
        let corners: Vec<usize> = if primitive["indices"].is_null() {
            (0..count).collect()
        } else {
            self.values(&primitive["indices"], 1)?
                .iter()
                .map(|it| *it as usize)
                .collect()
        };
        for corner in corners.chunks_exact(3) {
            if corner.iter().any(|corner| *corner >= count) {
                return Err(fault("a face names a point that is not there"));
            }
            let face = [first + corner[0], first + corner[1], first + corner[2]];
            self.mesh.face(&face, || "its faces".to_owned())?;
        }
        Ok(())
    }

    /// The numbers of an accessor, `width` of them an entry.
    fn values(&self, accessor: &Value, width: usize) -> Result<Vec<f64>, MeshError> {
        let number = accessor
            .as_u64()
            .ok_or_else(|| fault("points or corners are missing"))?;
        let accessor = &self.document["accessors"][number as usize];
        let size = |value: &Value, otherwise: usize| {
            value.as_u64().map_or(otherwise, |value| value as usize)
        };
        let wanted = if width == 3 { "VEC3" } else { "SCALAR" };
        if accessor["type"] != wanted || !accessor["sparse"].is_null() {
            return Err(fault(
                "points or corners are written in a way that is not read",
            ));
        }
        let kind = match accessor["componentType"].as_u64() {
            Some(5120) => Kind::I8,
            Some(5121) => Kind::U8,
            Some(5122) => Kind::I16,
            Some(5123) => Kind::U16,
            Some(5125) => Kind::U32,
            Some(5126) => Kind::F32,
            _ => return Err(fault("a kind of number is not known")),
        };
        let view = &self.document["bufferViews"][size(&accessor["bufferView"], usize::MAX)];
        let buffer = self
            .buffers
            .get(size(&view["buffer"], usize::MAX))
            .ok_or(MeshError::Ended)?;
        let start = size(&view["byteOffset"], 0).checked_add(size(&accessor["byteOffset"], 0));
        let start = start.ok_or(MeshError::Ended)?;
        let stride = size(&view["byteStride"], width * kind.size());
        let count = size(&accessor["count"], 0);
        let mut values = Vec::new();
        for entry in 0..count {
            let at = entry
                .checked_mul(stride)
                .and_then(|way| way.checked_add(start));
            let own = at.and_then(|at| buffer.get(at..)).ok_or(MeshError::Ended)?;
            let mut reader = Reader::new(own);
            for _ in 0..width {
                values.push(reader.number(kind, Order::Little)?);
            }
        }
        Ok(values)
    }
}

/// Where a node puts what it holds: a matrix by columns, or a scale, a turn and a shift.
fn own_place(node: &Value) -> Matrix {
    let numbers = |value: &Value| -> Vec<f64> {
        let list = value.as_array().into_iter().flatten();
        list.filter_map(Value::as_f64).collect()
    };
    let matrix = numbers(&node["matrix"]);
    if matrix.len() == 16 {
        return [0, 1, 2, 3].map(|row| [0, 1, 2, 3].map(|column| matrix[4 * column + row]));
    }
    let three = |value: &Value, otherwise: f64| {
        <[f64; 3]>::try_from(numbers(value)).unwrap_or([otherwise; 3])
    };
    let (shift, scale) = (three(&node["translation"], 0.0), three(&node["scale"], 1.0));
    let turn = <[f64; 4]>::try_from(numbers(&node["rotation"])).unwrap_or([0.0, 0.0, 0.0, 1.0]);
    let [x, y, z, w] = turn;
    let rotation = [
        [
            1.0 - 2.0 * (y * y + z * z),
            2.0 * (x * y - z * w),
            2.0 * (x * z + y * w),
        ],
        [
            2.0 * (x * y + z * w),
            1.0 - 2.0 * (x * x + z * z),
            2.0 * (y * z - x * w),
        ],
        [
            2.0 * (x * z - y * w),
            2.0 * (y * z + x * w),
            1.0 - 2.0 * (x * x + y * y),
        ],
    ];
    let mut place = UNIT;
    for row in 0..3 {
        for column in 0..3 {
            place[row][column] = rotation[row][column] * scale[column];
        }
        place[row][3] = shift[row];
    }
    place
}

fn multiply(a: &Matrix, b: &Matrix) -> Matrix {
    [0, 1, 2, 3]
        .map(|row| [0, 1, 2, 3].map(|column| (0..4).map(|k| a[row][k] * b[k][column]).sum()))
}
