//! STL: triangles without shared points, as text or as records of 50 bytes. Equal corners become one.

use super::bytes::{Kind, Order, Reader};
use super::error::MeshError;
use super::limit::MOST_TRIANGLES;
use super::surface::TriangleMesh;
use std::collections::BTreeMap;

const HEAD: usize = 80;
const RECORD: usize = 50;

pub(super) fn read(bytes: &[u8]) -> Result<TriangleMesh, MeshError> {
    // A binary file may begin with `solid` as well: its length tells.
    let count = bytes
        .get(HEAD..HEAD + 4)
        .map(|it| u32::from_le_bytes([it[0], it[1], it[2], it[3]]) as usize);
    let binary = count.is_some_and(|count| bytes.len() == HEAD + 4 + RECORD * count);
    let text = bytes.trim_ascii_start().starts_with(b"solid") && !binary;
    if text {
        read_text(bytes)
    } else {
        read_records(bytes)
    }
}

fn read_records(bytes: &[u8]) -> Result<TriangleMesh, MeshError> {
    let mut reader = Reader::new(bytes);
    reader.take(HEAD)?;
    let count = reader.index(Kind::U32, Order::Little)?;
    if count > MOST_TRIANGLES {
        return Err(MeshError::TooLarge);
    }
    let mut welded = Welded::default();
    for _ in 0..count {
        // The normal is computed from the corners.
        reader.take(12)?;
        let mut corners = [[0.0; 3]; 3];
        for value in corners.iter_mut().flatten() {
            *value = reader.number(Kind::F32, Order::Little)?;
        }
        reader.take(2)?;
        welded.triangle(corners, || format!("byte {}", reader.at - RECORD))?;
    }
    Ok(welded.mesh)
}

fn read_text(bytes: &[u8]) -> Result<TriangleMesh, MeshError> {
    let text = String::from_utf8_lossy(bytes);
    let mut welded = Welded::default();
    let mut corners = Vec::new();
    for (number, line) in text.lines().enumerate() {
        let place = || format!("line {}", number + 1);
        let mut words = line.split_whitespace();
        match words.next() {
            Some("vertex") => {
                let values: Vec<f64> = words.filter_map(|word| word.parse().ok()).collect();
                let point = <[f64; 3]>::try_from(values)
                    .map_err(|_| MeshError::form(place(), "a corner has no three numbers"))?;
                corners.push(point);
            }
            Some("endloop") => {
                let triangle = <[[f64; 3]; 3]>::try_from(std::mem::take(&mut corners))
                    .map_err(|_| MeshError::form(place(), "a facet has not three corners"))?;
                welded.triangle(triangle, place)?;
            }
            _ => {}
        }
    }
    Ok(welded.mesh)
}

/// A surface whose equal points are one.
#[derive(Default)]
struct Welded {
    mesh: TriangleMesh,
    numbers: BTreeMap<[u64; 3], usize>,
}

impl Welded {
    fn triangle(
        &mut self,
        corners: [[f64; 3]; 3],
        place: impl Fn() -> String,
    ) -> Result<(), MeshError> {
        let mut face = [0; 3];
        for (number, corner) in face.iter_mut().zip(corners) {
            // Adding zero makes one zero of both.
            let key = corner.map(|value| (value + 0.0).to_bits());
            *number = match self.numbers.get(&key) {
                Some(&known) => known,
                None => {
                    self.mesh.point(corner, &place)?;
                    self.numbers.insert(key, self.mesh.points.len() - 1);
                    self.mesh.points.len() - 1
                }
            };
        }
        // A facet that has shrunk to a line is none.
        if face[0] == face[1] || face[1] == face[2] || face[2] == face[0] {
            return Ok(());
        }
        self.mesh.face(&face, place)
    }
}
