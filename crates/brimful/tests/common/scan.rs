//! A scan of a known space, made by sampling its sides with noise, in every format that is read.

use brimful_geom::solid::Solid;
use brimful_geom::triangulate::solid_triangles;
use brimful_geom::vector::{Point3, Vec3};
use std::collections::BTreeMap;
use std::fmt::Write;

/// Points and triangles, metres.
#[derive(Clone, Default)]
pub struct Sampled {
    pub points: Vec<Point3>,
    pub triangles: Vec<[usize; 3]>,
}

/// The sides of a solid in triangles with no side over `size`, every point off by a standard
/// deviation of `noise` along each axis; the same each time.
pub fn sampled(solid: &Solid, size: f64, noise: f64) -> Sampled {
    let mut scan = Sampled::default();
    let mut known = BTreeMap::new();
    for corners in solid_triangles(solid) {
        halve(
            &mut scan,
            &mut known,
            corners.map(|v| solid.vertices[v]),
            size,
        );
    }
    let mut random = fastrand::Rng::with_seed(1);
    for point in &mut scan.points {
        let mut off = || noise * normal(&mut random);
        *point = *point + Vec3::new(off(), off(), off());
    }
    scan
}

/// Halves the longest side until none is longer: neighbours halve their common side alike.
fn halve(
    scan: &mut Sampled,
    known: &mut BTreeMap<[i64; 3], usize>,
    [a, b, c]: [Point3; 3],
    size: f64,
) {
    let sides = [(a, b, c), (b, c, a), (c, a, b)];
    let (a, b, c) = sides
        .into_iter()
        .max_by(|s, t| s.0.distance(s.1).total_cmp(&t.0.distance(t.1)))
        .unwrap();
    if a.distance(b) <= size {
        let number = |point: Point3| {
            // A tenth of a micrometre, off the grid that measures lie on.
            let key = point.to_array().map(|v| (v * 1e7 + 0.317).floor() as i64);
            *known.entry(key).or_insert_with(|| {
                scan.points.push(point);
                scan.points.len() - 1
            })
        };
        scan.triangles.push([a, b, c].map(number));
        return;
    }
    let middle = a.midpoint(b);
    halve(scan, known, [a, middle, c], size);
    halve(scan, known, [middle, b, c], size);
}

/// A normal number of two even ones (G. E. P. Box, M. E. Muller 1958).
fn normal(random: &mut fastrand::Rng) -> f64 {
    let (u, v) = (random.f64().max(1e-12), random.f64());
    (-2.0 * u.ln()).sqrt() * (std::f64::consts::TAU * v).cos()
}

impl Sampled {
    fn scaled(&self, unit: f64) -> impl Iterator<Item = [f64; 3]> + '_ {
        self.points
            .iter()
            .map(move |p| p.to_array().map(|v| v / unit))
    }

    pub fn obj(&self, unit: f64) -> Vec<u8> {
        let mut text = String::new();
        for [x, y, z] in self.scaled(unit) {
            writeln!(text, "v {x} {y} {z}").unwrap();
        }
        for [a, b, c] in &self.triangles {
            writeln!(text, "f {} {} {}", a + 1, b + 1, c + 1).unwrap();
        }
        text.into_bytes()
    }

    pub fn ply(&self, unit: f64) -> Vec<u8> {
        let mut text = format!(
            "ply\nformat ascii 1.0\nelement vertex {}\nproperty double x\nproperty double y\nproperty double z\nelement face {}\nproperty list uchar int vertex_indices\nend_header\n",
            self.points.len(),
            self.triangles.len()
        );
        for [x, y, z] in self.scaled(unit) {
            writeln!(text, "{x} {y} {z}").unwrap();
        }
        for [a, b, c] in &self.triangles {
            writeln!(text, "3 {a} {b} {c}").unwrap();
        }
        text.into_bytes()
    }

    /// Binary.
    pub fn stl(&self, unit: f64) -> Vec<u8> {
        let mut bytes = vec![b' '; 80];
        bytes.extend((self.triangles.len() as u32).to_le_bytes());
        let points: Vec<[f64; 3]> = self.scaled(unit).collect();
        for corners in &self.triangles {
            bytes.extend([0; 12]);
            for v in corners.iter().flat_map(|&v| points[v]) {
                bytes.extend((v as f32).to_le_bytes());
            }
            bytes.extend([0; 2]);
        }
        bytes
    }

    /// Binary glTF, metres.
    pub fn glb(&self) -> Vec<u8> {
        let mut data: Vec<u8> = Vec::new();
        for v in self.scaled(1.0).flatten() {
            data.extend((v as f32).to_le_bytes());
        }
        let places = data.len();
        for &v in self.triangles.iter().flatten() {
            data.extend((v as u32).to_le_bytes());
        }
        let mut json = format!(
            r#"{{"asset":{{"version":"2.0"}},"scene":0,"scenes":[{{"nodes":[0]}}],"nodes":[{{"mesh":0}}],"meshes":[{{"primitives":[{{"attributes":{{"POSITION":0}},"indices":1}}]}}],"accessors":[{{"bufferView":0,"componentType":5126,"count":{},"type":"VEC3"}},{{"bufferView":1,"componentType":5125,"count":{},"type":"SCALAR"}}],"bufferViews":[{{"buffer":0,"byteLength":{places}}},{{"buffer":0,"byteOffset":{places},"byteLength":{}}}],"buffers":[{{"byteLength":{}}}]}}"#,
            self.points.len(),
            3 * self.triangles.len(),
            data.len() - places,
            data.len()
        )
        .into_bytes();
        json.resize(json.len().next_multiple_of(4), b' ');
        let mut bytes = b"glTF".to_vec();
        let whole = 12 + 8 + json.len() + 8 + data.len();
        for word in [2, whole as u32, json.len() as u32] {
            bytes.extend(word.to_le_bytes());
        }
        bytes.extend(b"JSON");
        bytes.extend(json);
        bytes.extend((data.len() as u32).to_le_bytes());
        bytes.extend(b"BIN\0");
        bytes.extend(data);
        bytes
    }
}
