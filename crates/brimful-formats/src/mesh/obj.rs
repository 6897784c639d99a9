//! Wavefront OBJ: `v x y z` and `f a b c ...`, numbers of points from 1, or back from the last.

use super::error::MeshError;
use super::surface::TriangleMesh;

pub(super) fn read(bytes: &[u8]) -> Result<TriangleMesh, MeshError> {
    let text = String::from_utf8_lossy(bytes);
    let mut mesh = TriangleMesh::default();
    // A long statement goes on after a backslash at the end of its line.
    let text = text.replace("\\\r\n", " ").replace("\\\n", " ");
    for (number, line) in text.lines().enumerate() {
        let place = || format!("line {}", number + 1);
        let line = line.split('#').next().unwrap_or("");
        let mut words = line.split_whitespace();
        match words.next() {
            Some("v") => {
                let mut point = [0.0; 3];
                for value in &mut point {
                    let word = words.next().unwrap_or("");
                    *value = word
                        .parse()
                        .map_err(|_| MeshError::form(place(), "a point has no three numbers"))?;
                }
                mesh.point(point, place)?;
            }
            Some("f") => {
                let corners: Option<Vec<usize>> =
                    words.map(|word| corner(word, mesh.points.len())).collect();
                let corners = corners.ok_or_else(|| {
                    MeshError::form(place(), "a face names a point that is not there")
                })?;
                mesh.face(&corners, place)?;
            }
            _ => {}
        }
    }
    Ok(mesh)
}

/// `7`, `7/1`, `7//3` or `-1`.
fn corner(word: &str, count: usize) -> Option<usize> {
    let number: i64 = word.split('/').next()?.parse().ok()?;
    let count = i64::try_from(count).ok()?;
    let index = if number < 0 {
        count + number
    } else {
        number - 1
    };
    usize::try_from(index).ok()
}
