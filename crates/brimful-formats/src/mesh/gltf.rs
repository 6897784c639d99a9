//! glTF 2.0: positions and indices of every triangle primitive under the scene's nodes.
//!
//! Binary files, and JSON files whose buffers are inside as base64; buffers in files of their own
//! cannot be reached from here and are an error.

use super::{MeshError, Place, TriangleMesh, wrong};
use serde_json::Value;

/// A glTF matrix, by columns.
type Matrix = [f64; 16];

const UNIT: Matrix = [
    1.0, 0.0, 0.0, 0.0, 0.0, 1.0, 0.0, 0.0, 0.0, 0.0, 1.0, 0.0, 0.0, 0.0, 0.0, 1.0,
];

/// Nodes within nodes deeper than this are taken for a ring.
const DEEPEST: usize = 64;

/// Most nodes walked over.
const MOST_NODES: usize = 100_000;

pub fn read(bytes: &[u8]) -> Result<TriangleMesh, MeshError> {
    let (json, chunk) = if bytes.starts_with(b"glTF") {
        chunks(bytes)?
    } else {
        (bytes, None)
    };
    let document: Value = serde_json::from_slice(json).or_else(|error| {
        wrong(
            Place::Line(error.line()),
            format!("its JSON is not understood ({error})"),
        )
    })?;
    let model = Model {
        buffers: buffers(&document, chunk)?,
        document,
    };
    let mut mesh = TriangleMesh::default();
    let mut stack: Vec<(usize, Matrix, usize)> = model
        .roots()
        .into_iter()
        .rev()
        .map(|node| (node, UNIT, 0))
        .collect();
    let mut walked = 0;
    while let Some((node, above, depth)) = stack.pop() {
        walked += 1;
        let node = &model.document["nodes"][node];
        if depth > DEEPEST || walked > MOST_NODES {
            return wrong(Place::Document, "its nodes go round in a ring");
        }
        let matrix = product(&above, &own_matrix(node));
        if let Some(number) = index(&node["mesh"]) {
            model.add_mesh(number, &matrix, &mut mesh)?;
        }
        let children = indices(&node["children"]);
        stack.extend(children.into_iter().rev().map(|c| (c, matrix, depth + 1)));
    }
    mesh.with_corners_there(Place::Document)
}

/// The JSON chunk and the binary one of a GLB.
fn chunks(bytes: &[u8]) -> Result<(&[u8], Option<&[u8]>), MeshError> {
    let mut at = 12;
    let (mut json, mut binary) = (None, None);
    while at + 8 <= bytes.len() {
        let word =
            |i: usize| u32::from_le_bytes([bytes[i], bytes[i + 1], bytes[i + 2], bytes[i + 3]]);
        let (length, kind) = (word(at) as usize, word(at + 4));
        let Some(data) = bytes.get(at + 8..at + 8 + length) else {
            return wrong(Place::Byte(at), "a chunk is cut short");
        };
        match kind {
            0x4E4F_534A => json = json.or(Some(data)),
            0x004E_4942 => binary = binary.or(Some(data)),
            _ => {}
        }
        at += 8 + length;
    }
    match json {
        Some(json) => Ok((json, binary)),
        None => wrong(Place::Byte(12), "it has no JSON chunk"),
    }
}

fn buffers(document: &Value, chunk: Option<&[u8]>) -> Result<Vec<Vec<u8>>, MeshError> {
    let list = document["buffers"].as_array();
    let bytes_of = |(i, buffer): (usize, &Value)| match buffer["uri"].as_str() {
        None => match chunk.filter(|_| i == 0) {
            Some(chunk) => Ok(chunk.to_vec()),
            None => wrong(Place::Document, format!("buffer {i} has no data")),
        },
        Some(uri) => match uri.split_once(";base64,") {
            Some((head, data)) if head.starts_with("data:") => match base64(data) {
                Some(bytes) => Ok(bytes),
                None => wrong(Place::Document, format!("buffer {i} is no base64")),
            },
            _ => wrong(
                Place::Document,
                format!("buffer {i} is in another file; write one file with all of it (.glb)"),
            ),
        },
    };
    list.into_iter()
        .flatten()
        .enumerate()
        .map(bytes_of)
        .collect()
}

/// RFC 4648, section 4.
fn base64(text: &str) -> Option<Vec<u8>> {
    let mut bytes = Vec::with_capacity(text.len() / 4 * 3);
    let (mut held, mut bits) = (0u32, 0);
    for letter in text.bytes().filter(|&b| b != b'=') {
        let value = match letter {
            b'A'..=b'Z' => letter - b'A',
            b'a'..=b'z' => letter - b'a' + 26,
            b'0'..=b'9' => letter - b'0' + 52,
            b'+' => 62,
            b'/' => 63,
            _ => return None,
        };
        held = (held << 6 | u32::from(value)) & 0xFFFF;
        bits += 6;
        if bits >= 8 {
            bits -= 8;
            bytes.push((held >> bits) as u8);
        }
    }
    Some(bytes)
}

struct Model {
    document: Value,
    buffers: Vec<Vec<u8>>,
}

impl Model {
    /// The nodes of the scene shown; where there is no scene, all that are nobody's child.
    fn roots(&self) -> Vec<usize> {
        let scene = index(&self.document["scene"]).unwrap_or(0);
        let scene = &self.document["scenes"][scene]["nodes"];
        if scene.is_array() {
            return indices(scene);
        }
        let nodes = self.document["nodes"]
            .as_array()
            .map_or(&[][..], Vec::as_slice);
        let children: Vec<usize> = nodes.iter().flat_map(|n| indices(&n["children"])).collect();
        (0..nodes.len()).filter(|n| !children.contains(n)).collect()
    }

    fn add_mesh(
        &self,
        number: usize,
        matrix: &Matrix,
        mesh: &mut TriangleMesh,
    ) -> Result<(), MeshError> {
        let primitives = self.document["meshes"][number]["primitives"].as_array();
        for primitive in primitives.into_iter().flatten() {
            if primitive["extensions"]["KHR_draco_mesh_compression"].is_object() {
                return wrong(Place::Document, "a mesh is compressed; write it without");
            }
            let Some(accessor) = index(&primitive["attributes"]["POSITION"]) else {
                continue;
            };
            let first = mesh.points.len();
            let numbers = self.accessor(accessor, 3)?;
            for p in numbers.chunks_exact(3) {
                mesh.add_point(placed(matrix, [p[0], p[1], p[2]]), Place::Document)?;
            }
            let count = mesh.points.len() - first;
            let order: Vec<usize> = match index(&primitive["indices"]) {
                Some(accessor) => {
                    let numbers = self.accessor(accessor, 1)?;
                    numbers.iter().map(|n| *n as usize).collect()
                }
                None => (0..count).collect(),
            };
            if order.iter().any(|&v| v >= count) {
                return wrong(Place::Document, "a face names a point that there is not");
            }
            for t in triangles(primitive["mode"].as_u64().unwrap_or(4), &order) {
                mesh.add_face(&t.map(|v| first + v), Place::Document)?;
            }
        }
        Ok(())
    }

    /// All numbers of an accessor with so many in an item.
    fn accessor(&self, number: usize, width: usize) -> Result<Vec<f64>, MeshError> {
        let accessor = &self.document["accessors"][number];
        let fault = |what: &str| wrong(Place::Document, format!("accessor {number} {what}"));
        let size = match accessor["componentType"].as_u64() {
            Some(5120 | 5121) => 1,
            Some(5122 | 5123) => 2,
            Some(5125 | 5126) => 4,
            _ => return fault("has a kind of number that is not known"),
        };
        if accessor["sparse"].is_object() {
            return fault("is sparse, which is not read");
        }
        if accessor["type"].as_str() != Some(if width == 3 { "VEC3" } else { "SCALAR" }) {
            return fault("has the wrong type");
        }
        let (Some(count), Some(view)) = (index(&accessor["count"]), index(&accessor["bufferView"]))
        else {
            return fault("has no count or no data");
        };
        let view = &self.document["bufferViews"][view];
        let number_of = |value: &Value| index(value).unwrap_or(0);
        let Some(data) = self.buffers.get(number_of(&view["buffer"])) else {
            return fault("names a buffer that there is not");
        };
        let stride = index(&view["byteStride"]).unwrap_or(size * width);
        let start =
            number_of(&view["byteOffset"]).saturating_add(number_of(&accessor["byteOffset"]));
        if stride < size * width || count > data.len() {
            return fault("reaches beyond its data");
        }
        let mut numbers = Vec::with_capacity(count * width);
        for item in 0..count {
            for k in 0..width {
                let at = start
                    .saturating_add(item.saturating_mul(stride))
                    .saturating_add(k * size);
                let Some(b) = data.get(at..at.saturating_add(size)) else {
                    return fault("reaches beyond its data");
                };
                numbers.push(match accessor["componentType"].as_u64() {
                    Some(5120) => f64::from(b[0] as i8),
                    Some(5121) => f64::from(b[0]),
                    Some(5122) => f64::from(i16::from_le_bytes([b[0], b[1]])),
                    Some(5123) => f64::from(u16::from_le_bytes([b[0], b[1]])),
                    Some(5125) => f64::from(u32::from_le_bytes([b[0], b[1], b[2], b[3]])),
                    _ => f64::from(f32::from_le_bytes([b[0], b[1], b[2], b[3]])),
                });
            }
        }
        Ok(numbers)
    }
}

/// The triangles of a list (4), strip (5) or fan (6); other modes have none.
fn triangles(mode: u64, order: &[usize]) -> Vec<[usize; 3]> {
    match mode {
        4 => order.chunks_exact(3).map(|t| [t[0], t[1], t[2]]).collect(),
        5 => order
            .windows(3)
            .enumerate()
            .map(|(i, t)| {
                if i % 2 == 0 {
                    [t[0], t[1], t[2]]
                } else {
                    [t[1], t[0], t[2]]
                }
            })
            .collect(),
        6 if order.len() > 2 => order[1..]
            .windows(2)
            .map(|t| [order[0], t[0], t[1]])
            .collect(),
        _ => Vec::new(),
    }
}

fn index(value: &Value) -> Option<usize> {
    value.as_u64().and_then(|n| usize::try_from(n).ok())
}

fn indices(value: &Value) -> Vec<usize> {
    value
        .as_array()
        .into_iter()
        .flatten()
        .filter_map(index)
        .collect()
}

fn floats<const N: usize>(value: &Value) -> Option<[f64; N]> {
    let list: Option<Vec<f64>> = value.as_array()?.iter().map(Value::as_f64).collect();
    list?.try_into().ok()
}

fn own_matrix(node: &Value) -> Matrix {
    if let Some(matrix) = floats(&node["matrix"]) {
        return matrix;
    }
    let [tx, ty, tz] = floats(&node["translation"]).unwrap_or([0.0; 3]);
    let [x, y, z, w] = floats(&node["rotation"]).unwrap_or([0.0, 0.0, 0.0, 1.0]);
    let [sx, sy, sz] = floats(&node["scale"]).unwrap_or([1.0; 3]);
    [
        sx * (1.0 - 2.0 * (y * y + z * z)),
        sx * 2.0 * (x * y + z * w),
        sx * 2.0 * (x * z - y * w),
        0.0,
        sy * 2.0 * (x * y - z * w),
        sy * (1.0 - 2.0 * (x * x + z * z)),
        sy * 2.0 * (y * z + x * w),
        0.0,
        sz * 2.0 * (x * z + y * w),
        sz * 2.0 * (y * z - x * w),
        sz * (1.0 - 2.0 * (x * x + y * y)),
        0.0,
        tx,
        ty,
        tz,
        1.0,
    ]
}

fn product(a: &Matrix, b: &Matrix) -> Matrix {
    let mut out = [0.0; 16];
    for (i, value) in out.iter_mut().enumerate() {
        let (row, column) = (i % 4, i / 4);
        *value = (0..4).map(|k| a[4 * k + row] * b[4 * column + k]).sum();
    }
    out
}

/// Put through the matrix and turned from y up to z up.
fn placed(m: &Matrix, [x, y, z]: [f64; 3]) -> [f64; 3] {
    let row = |i: usize| m[i] * x + m[4 + i] * y + m[8 + i] * z + m[12 + i];
    [row(0), -row(2), row(1)]
}
