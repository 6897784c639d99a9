//! Coloured triangles as a binary glTF 2.0 file (ISO/IEC 12113).
//!
//! Input is in metres with z up; glTF has y up, so `(x, y, z)` is written as `(x, z, -y)`.
//! Every triangle has its own corners and the normal of its plane, so edges stay sharp.

use brimful_geom::vector::{Point3, Vec3};
use serde_json::{Value, json};

use crate::decimal::can_be_written;
use crate::error::FormatError;

/// One named part in one colour.
#[derive(Clone, Debug, PartialEq)]
pub struct GltfPart {
    /// Name of its node and mesh.
    pub name: String,
    /// Red, green, blue as on a screen (sRGB).
    pub colour: [u8; 3],
    /// 1 for solid, less to see through.
    pub opacity: f32,
    /// Triangles, counterclockwise from outside, metres. Those without area are left out.
    pub triangles: Vec<[Point3; 3]>,
}

/// The parts as one file.
///
/// # Errors
/// [`FormatError::Number`] for a corner that is not finite, [`FormatError::TooFewCorners`] for
/// a part without a triangle of any area, [`FormatError::TooLarge`] above 4 GiB.
pub fn to_glb(parts: &[GltfPart]) -> Result<Vec<u8>, FormatError> {
    let mut binary = Vec::new();
    let (mut views, mut accessors) = (Vec::new(), Vec::new());
    let (mut meshes, mut materials, mut nodes) = (Vec::new(), Vec::new(), Vec::new());
    for (at, part) in parts.iter().enumerate() {
        let Corners { positions, normals } = corners(part)?;
        let (low, high) = extent(&positions);
        for (values, bounds) in [(&positions, Some((low, high))), (&normals, None)] {
            views.push(json!({
                "buffer": 0, "byteOffset": binary.len(), "byteLength": values.len() * 12, "target": ARRAY_BUFFER,
            }));
            binary.extend(
                values
                    .iter()
                    .flatten()
                    .flat_map(|number| number.to_le_bytes()),
            );
            let mut accessor = json!({
                "bufferView": views.len() - 1, "componentType": FLOAT, "count": values.len(), "type": "VEC3",
            });
            if let Some((low, high)) = bounds {
                accessor["min"] = json!(low);
                accessor["max"] = json!(high);
            }
            accessors.push(accessor);
        }
        meshes.push(json!({
            "name": part.name,
            "primitives": [{ "attributes": { "POSITION": 2 * at, "NORMAL": 2 * at + 1 }, "material": at }],
        }));
        materials.push(material(part));
        nodes.push(json!({ "name": part.name, "mesh": at }));
    }
    let mut document = json!({
        "asset": { "version": "2.0", "generator": "Brimful" },
        "scene": 0,
        "scenes": [{}],
    });
    if !parts.is_empty() {
        // The format forbids empty lists.
        document["scenes"][0]["nodes"] = json!((0..parts.len()).collect::<Vec<_>>());
        document["nodes"] = Value::Array(nodes);
        document["meshes"] = Value::Array(meshes);
        document["materials"] = Value::Array(materials);
        document["accessors"] = Value::Array(accessors);
        document["bufferViews"] = Value::Array(views);
        document["buffers"] = json!([{ "byteLength": binary.len() }]);
    }
    container(document.to_string().into_bytes(), binary)
}

/// `ARRAY_BUFFER` and `FLOAT` of the format.
const ARRAY_BUFFER: u32 = 34962;
const FLOAT: u32 = 5126;

struct Corners {
    positions: Vec<[f32; 3]>,
    normals: Vec<[f32; 3]>,
}

fn corners(part: &GltfPart) -> Result<Corners, FormatError> {
    let mut corners = Corners {
        positions: Vec::new(),
        normals: Vec::new(),
    };
    for triangle in &part.triangles {
        if triangle
            .iter()
            .flat_map(|p| p.to_array())
            .any(|x| !can_be_written(x))
        {
            return Err(FormatError::Number {
                place: format!("Part {:?}", part.name),
            });
        }
        let [a, b, c] = *triangle;
        let Some(normal) = (b - a).cross(c - a).unit() else {
            continue;
        };
        let normal = y_up(normal);
        corners
            .positions
            .extend(triangle.map(|corner| y_up(corner - Point3::ORIGIN)));
        corners.normals.extend([normal; 3]);
    }
    if corners.positions.is_empty() {
        return Err(FormatError::TooFewCorners {
            place: format!("Part {:?}", part.name),
            corners: 0,
        });
    }
    Ok(corners)
}

fn y_up(v: Vec3) -> [f32; 3] {
    // Adding zero turns a negative zero into zero.
    [v.x, v.z, -v.y].map(|number| number as f32 + 0.0)
}

fn extent(positions: &[[f32; 3]]) -> ([f32; 3], [f32; 3]) {
    positions
        .iter()
        .fold(([f32::MAX; 3], [f32::MIN; 3]), |(low, high), p| {
            let pick = |from: [f32; 3], choose: fn(f32, f32) -> f32| {
                [
                    choose(from[0], p[0]),
                    choose(from[1], p[1]),
                    choose(from[2], p[2]),
                ]
            };
            (pick(low, f32::min), pick(high, f32::max))
        })
}

fn material(part: &GltfPart) -> Value {
    let [red, green, blue] = part.colour.map(linear);
    let opacity = if part.opacity.is_nan() {
        1.0
    } else {
        part.opacity.clamp(0.0, 1.0)
    };
    json!({
        "name": part.name,
        "pbrMetallicRoughness": {
            "baseColorFactor": [red, green, blue, opacity],
            "metallicFactor": 0.0,
            "roughnessFactor": 0.8,
        },
        "alphaMode": if opacity < 1.0 { "BLEND" } else { "OPAQUE" },
    })
}

/// Screen value to light, after IEC 61966-2-1 (sRGB).
fn linear(screen: u8) -> f32 {
    let value = f32::from(screen) / 255.0;
    if value <= 0.04045 {
        value / 12.92
    } else {
        ((value + 0.055) / 1.055).powf(2.4)
    }
}

/// The two chunks behind the file's head, each filled up to whole words.
fn container(mut document: Vec<u8>, binary: Vec<u8>) -> Result<Vec<u8>, FormatError> {
    document.resize(document.len().next_multiple_of(4), b' ');
    let chunks: Vec<(&[u8; 4], Vec<u8>)> = std::iter::once((b"JSON", document))
        .chain((!binary.is_empty()).then_some((b"BIN\0", binary)))
        .collect();
    let total = chunks
        .iter()
        .map(|(_, bytes)| 8 + bytes.len())
        .sum::<usize>()
        + 12;
    let word = |size: usize| {
        u32::try_from(size)
            .map(u32::to_le_bytes)
            .map_err(|_| FormatError::TooLarge { format: "glTF" })
    };
    let mut file = Vec::with_capacity(total);
    file.extend(b"glTF");
    file.extend(2_u32.to_le_bytes());
    file.extend(word(total)?);
    for (kind, bytes) in chunks {
        file.extend(word(bytes.len())?);
        file.extend(kind);
        file.extend(bytes);
    }
    Ok(file)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn part(triangles: Vec<[Point3; 3]>) -> GltfPart {
        GltfPart {
            name: "lid".into(),
            colour: [255, 0, 128],
            opacity: 0.5,
            triangles,
        }
    }

    #[test]
    fn up_is_up() {
        assert_eq!(y_up(Vec3::Z), [0.0, 1.0, 0.0]);
        assert_eq!(y_up(Vec3::Y), [0.0, 0.0, -1.0]);
    }

    #[test]
    fn bad_parts_are_refused() {
        let o = Point3::ORIGIN;
        assert!(matches!(
            to_glb(&[part(vec![[o, o, o]])]),
            Err(FormatError::TooFewCorners { .. })
        ));
        let far = Point3::new(f64::INFINITY, 0.0, 0.0);
        assert!(matches!(
            to_glb(&[part(vec![[o, far, o]])]),
            Err(FormatError::Number { .. })
        ));
    }
}
