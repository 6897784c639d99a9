//! OBJ: `v` and `f` lines; corners count from 1, or backwards from -1.

use super::{MeshError, Place, TriangleMesh, lines, numbers, wrong};

pub fn read(bytes: &[u8]) -> Result<TriangleMesh, MeshError> {
    let mut mesh = TriangleMesh::default();
    for (line, text) in lines(bytes) {
        let mut words = text.split_whitespace();
        match words.next() {
            Some("v") => mesh.add_point(numbers(words, line)?, Place::Line(line))?,
            Some("f") => {
                let corner = |word| corner(word, mesh.points.len(), line);
                let corners = words.map(corner).collect::<Result<Vec<_>, _>>()?;
                mesh.add_face(&corners, Place::Line(line))?;
            }
            _ => {}
        }
    }
    mesh.with_corners_there(Place::Byte(bytes.len()))
}

/// `7`, `7/1`, `7//3` or `-1`.
fn corner(word: &str, points: usize, line: usize) -> Result<usize, MeshError> {
    let number = word.split('/').next().and_then(|n| n.parse::<i64>().ok());
    let place = Place::Line(line);
    match number {
        Some(n) if n > 0 => Ok(n as usize - 1),
        Some(n) if n < 0 => match points.checked_sub(n.unsigned_abs() as usize) {
            Some(at) => Ok(at),
            None => wrong(place, format!("corner {n} lies before the first point")),
        },
        _ => wrong(place, format!("{word:?} is no corner")),
    }
}
