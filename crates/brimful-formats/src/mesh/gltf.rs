//! glTF 2.0 (Khronos): triangles of all meshes where the nodes of the scene put them. Buffers lie in
//! the file itself, as the second chunk of a GLB or as data in base 64.
//!
//! Read here and not by a library: the one there is (`gltf` 1.4.1, 2024) panics on offsets, counts and
//! strides that its release does not check, and a scan comes from anywhere.

use super::bytes::{Kind, Order, Reader};
use super::error::MeshError;
use super::surface::TriangleMesh;
use base64::Engine;
use base64::alphabet::STANDARD;
use base64::engine::{DecodePaddingMode, GeneralPurpose, GeneralPurposeConfig};
use serde::Deserialize;
use serde::de::IgnoredAny;

/// RFC 4648; some writers leave out the padding.
const BASE64: GeneralPurpose = GeneralPurpose::new(
    &STANDARD,
    GeneralPurposeConfig::new().with_decode_padding_mode(DecodePaddingMode::Indifferent),
);
/// Nodes one below the other at most.
const DEEPEST: usize = 64;
const TRIANGLES: u32 = 4;

#[derive(Default, Deserialize)]
#[serde(rename_all = "camelCase", default)]
struct Document {
    scene: usize,
    scenes: Vec<Scene>,
    nodes: Vec<Node>,
    meshes: Vec<Mesh>,
    accessors: Vec<Accessor>,
    buffer_views: Vec<View>,
    buffers: Vec<Buffer>,
}

#[derive(Default, Deserialize)]
#[serde(default)]
struct Scene {
    nodes: Vec<usize>,
}

#[derive(Default, Deserialize)]
#[serde(default)]
struct Node {
    mesh: Option<usize>,
    children: Vec<usize>,
    /// By columns.
    matrix: Option<[f64; 16]>,
    translation: Option<[f64; 3]>,
    rotation: Option<[f64; 4]>,
    scale: Option<[f64; 3]>,
}

#[derive(Default, Deserialize)]
#[serde(default)]
struct Mesh {
    primitives: Vec<Primitive>,
}

#[derive(Default, Deserialize)]
#[serde(default)]
struct Primitive {
    attributes: Attributes,
    indices: Option<usize>,
    mode: Option<u32>,
}

#[derive(Default, Deserialize)]
#[serde(default)]
struct Attributes {
    #[serde(rename = "POSITION")]
    position: Option<usize>,
}

#[derive(Default, Deserialize)]
#[serde(rename_all = "camelCase", default)]
struct Accessor {
    buffer_view: Option<usize>,
    byte_offset: usize,
    component_type: u32,
    count: usize,
    r#type: String,
    sparse: Option<IgnoredAny>,
}

#[derive(Default, Deserialize)]
#[serde(rename_all = "camelCase", default)]
struct View {
    buffer: usize,
    byte_offset: usize,
    byte_stride: Option<usize>,
}

#[derive(Default, Deserialize)]
#[serde(default)]
struct Buffer {
    uri: Option<String>,
}

pub(super) fn read(bytes: &[u8]) -> Result<TriangleMesh, MeshError> {
    let (text, chunk) = if bytes.starts_with(b"glTF") {
        chunks(bytes)?
    } else {
        (bytes, None)
    };
    let document: Document = serde_json::from_slice(text).map_err(|fault| {
        let what = "the description is not one of glTF";
        MeshError::form(format!("line {}", fault.line()), what)
    })?;
    let mut file = File {
        buffers: buffers(&document, chunk)?,
        seen: vec![false; document.nodes.len()],
        document: &document,
        mesh: TriangleMesh::default(),
    };
    for root in roots(&document) {
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

fn buffers(document: &Document, chunk: Option<&[u8]>) -> Result<Vec<Vec<u8>>, MeshError> {
    let list = document.buffers.iter().enumerate();
    list.map(|(number, buffer)| match &buffer.uri {
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
fn roots(document: &Document) -> Vec<usize> {
    if let Some(shown) = document.scenes.get(document.scene) {
        return shown.nodes.clone();
    }
    let mut is_root = vec![true; document.nodes.len()];
    for &child in document.nodes.iter().flat_map(|node| &node.children) {
        if let Some(child) = is_root.get_mut(child) {
            *child = false;
        }
    }
    (0..is_root.len()).filter(|&node| is_root[node]).collect()
}

fn fault(what: &str) -> MeshError {
    MeshError::form("its description", what)
}

struct File<'a> {
    document: &'a Document,
    buffers: Vec<Vec<u8>>,
    /// Nodes that have been read: they are a tree, so each is met once.
    seen: Vec<bool>,
    mesh: TriangleMesh,
}

impl File<'_> {
    fn node(&mut self, number: usize, above: &Matrix, depth: usize) -> Result<(), MeshError> {
        let lost = || fault("its nodes are not a tree");
        let node = self.document.nodes.get(number).ok_or_else(lost)?;
        if depth > DEEPEST || std::mem::replace(&mut self.seen[number], true) {
            return Err(lost());
        }
        let place = multiply(above, &node.place());
        if let Some(mesh) = node.mesh {
            let mesh = self.document.meshes.get(mesh);
            for primitive in mesh.iter().flat_map(|mesh| &mesh.primitives) {
                if primitive.mode.unwrap_or(TRIANGLES) == TRIANGLES {
                    self.primitive(primitive, &place)?;
                }
            }
        }
        for &child in &node.children {
            self.node(child, &place, depth + 1)?;
        }
        Ok(())
    }

    fn primitive(&mut self, primitive: &Primitive, place: &Matrix) -> Result<(), MeshError> {
        let first = self.mesh.points.len();
        let places = self.values(primitive.attributes.position, 3)?;
        for point in places.chunks_exact(3) {
            let moved = [0, 1, 2].map(|row| {
                let line = &place[row];
                line[0] * point[0] + line[1] * point[1] + line[2] * point[2] + line[3]
            });
            self.mesh.point(moved, || "its points".to_owned())?;
        }
        let count = self.mesh.points.len() - first;
        let corners: Vec<usize> = match primitive.indices {
            None => (0..count).collect(),
            indices => {
                let values = self.values(indices, 1)?;
                values.iter().map(|it| *it as usize).collect()
            }
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
    fn values(&self, accessor: Option<usize>, width: usize) -> Result<Vec<f64>, MeshError> {
        let missing = || fault("points or corners are missing");
        let accessor = accessor.and_then(|number| self.document.accessors.get(number));
        let accessor = accessor.ok_or_else(missing)?;
        let wanted = if width == 3 { "VEC3" } else { "SCALAR" };
        if accessor.r#type != wanted || accessor.sparse.is_some() {
            return Err(fault(
                "points or corners are written in a way that is not read",
            ));
        }
        let kind = match accessor.component_type {
            5120 => Kind::I8,
            5121 => Kind::U8,
            5122 => Kind::I16,
            5123 => Kind::U16,
            5125 => Kind::U32,
            5126 => Kind::F32,
            _ => return Err(fault("a kind of number is not known")),
        };
        let view = accessor.buffer_view;
        let view = view.and_then(|number| self.document.buffer_views.get(number));
        let view = view.ok_or_else(missing)?;
        let buffer = self.buffers.get(view.buffer).ok_or(MeshError::Ended)?;
        let start = view.byte_offset.checked_add(accessor.byte_offset);
        let start = start.ok_or(MeshError::Ended)?;
        let entry = width * kind.size();
        let stride = view.byte_stride.unwrap_or(entry);
        if stride < entry {
            return Err(fault("points or corners lie one over the other"));
        }
        let mut values = Vec::new();
        for number in 0..accessor.count {
            let at = stride
                .checked_mul(number)
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

type Matrix = [[f64; 4]; 4];

const UNIT: Matrix = [
    [1.0, 0.0, 0.0, 0.0],
    [0.0, 1.0, 0.0, 0.0],
    [0.0, 0.0, 1.0, 0.0],
    [0.0, 0.0, 0.0, 1.0],
];

impl Node {
    /// Where it puts what it holds: by its matrix, or by a scale, a rotation and a shift.
    fn place(&self) -> Matrix {
        if let Some(matrix) = &self.matrix {
            return [0, 1, 2, 3].map(|row| [0, 1, 2, 3].map(|column| matrix[4 * column + row]));
        }
        let scale = self.scale.unwrap_or([1.0; 3]);
        let shift = self.translation.unwrap_or([0.0; 3]);
        let [x, y, z, w] = self.rotation.unwrap_or([0.0, 0.0, 0.0, 1.0]);
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
}

fn multiply(a: &Matrix, b: &Matrix) -> Matrix {
    [0, 1, 2, 3]
        .map(|row| [0, 1, 2, 3].map(|column| (0..4).map(|k| a[row][k] * b[k][column]).sum()))
}
