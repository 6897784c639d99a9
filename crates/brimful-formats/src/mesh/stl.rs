//! STL: binary (80 bytes, a count, 50 bytes a triangle) or text (`vertex` lines, three a facet).

use super::{MeshError, Place, TriangleMesh, lines, numbers, wrong};

const HEAD: usize = 84;
const RECORD: usize = 50;

pub fn read(bytes: &[u8]) -> Result<TriangleMesh, MeshError> {
    // Binary files may begin with the word `solid` too: only their length tells.
    let count = bytes
        .get(80..HEAD)
        .map(|c| u32::from_le_bytes([c[0], c[1], c[2], c[3]]) as usize);
    match count {
        Some(count) if Some(bytes.len() - HEAD) == count.checked_mul(RECORD) => binary(bytes),
        _ if bytes.trim_ascii_start().starts_with(b"solid") => text(bytes),
        Some(count) => wrong(
            Place::Byte(80),
            format!(
                "it announces {count} triangles and has {} bytes for them",
                bytes.len() - HEAD
            ),
        ),
        None => wrong(Place::Byte(bytes.len()), "it ends within its head"),
    }
}

fn binary(bytes: &[u8]) -> Result<TriangleMesh, MeshError> {
    let mut mesh = TriangleMesh::default();
    for (i, record) in bytes[HEAD..].chunks_exact(RECORD).enumerate() {
        let place = Place::Byte(HEAD + i * RECORD);
        let number = |k: usize| {
            let b = &record[12 + 4 * k..];
            f64::from(f32::from_le_bytes([b[0], b[1], b[2], b[3]]))
        };
        add(
            &mut mesh,
            [0, 3, 6].map(|k| [number(k), number(k + 1), number(k + 2)]),
            place,
        )?;
    }
    Ok(mesh)
}

fn text(bytes: &[u8]) -> Result<TriangleMesh, MeshError> {
    let mut mesh = TriangleMesh::default();
    let mut corners = Vec::new();
    for (line, text) in lines(bytes) {
        let mut words = text.split_whitespace();
        match words.next() {
            Some("vertex") => corners.push(numbers(words, line)?),
            Some("endfacet") => {
                let Ok(triangle) = <[_; 3]>::try_from(corners.as_slice()) else {
                    return wrong(
                        Place::Line(line),
                        format!("a facet has {} corners", corners.len()),
                    );
                };
                add(&mut mesh, triangle, Place::Line(line))?;
                corners.clear();
            }
            _ => {}
        }
    }
    if !corners.is_empty() {
        return wrong(Place::Byte(bytes.len()), "it ends within a facet");
    }
    Ok(mesh)
}

fn add(mesh: &mut TriangleMesh, corners: [[f64; 3]; 3], place: Place) -> Result<(), MeshError> {
    let first = mesh.points.len();
    for corner in corners {
        mesh.add_point(corner, place)?;
    }
    mesh.add_face(&[first, first + 1, first + 2], place)
}
