//! Readers for triangle meshes: OBJ, PLY, STL and glTF.
//!
//! Whatever the file, out come points and triangles in the file's own unit. Faces of more corners
//! become fans. Colours, normals and texture places are passed over. Points are as the file has
//! them: STL repeats each corner. glTF has y up; it is turned so that z is up.

mod gltf;
mod obj;
mod ply;
mod stl;
#[cfg(test)]
mod tests;

use std::fmt;

/// Most triangles taken.
pub const MOST_TRIANGLES: usize = 5_000_000;

/// Most points taken: STL has three a triangle.
const MOST_POINTS: usize = 3 * MOST_TRIANGLES;

/// Points and triangles, in the file's unit.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct TriangleMesh {
    /// Corners.
    pub points: Vec<[f64; 3]>,
    /// Corners' positions in `points`, counter-clockwise as in the file.
    pub triangles: Vec<[usize; 3]>,
}

/// Kinds of file that are read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MeshFormat {
    /// Wavefront OBJ, text.
    Obj,
    /// Stanford PLY 1.0: text, or binary of either byte order.
    Ply,
    /// Stereolithography, text or binary.
    Stl,
    /// glTF 2.0 (ISO/IEC 12113): GLB, or JSON with its data inside.
    Gltf,
}

impl MeshFormat {
    /// By the ending of a file's name, whichever case.
    pub fn of_name(name: &str) -> Option<Self> {
        match name.rsplit_once('.')?.1.to_ascii_lowercase().as_str() {
            "obj" => Some(Self::Obj),
            "ply" => Some(Self::Ply),
            "stl" => Some(Self::Stl),
            "glb" | "gltf" => Some(Self::Gltf),
            _ => None,
        }
    }
}

/// Where in a file something is wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// A line, from 1.
    Line(usize),
    /// A byte, from 0.
    Byte(usize),
    /// In the glTF document as a whole.
    Document,
}

impl fmt::Display for Place {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Line(line) => write!(f, "line {line}"),
            Self::Byte(byte) => write!(f, "byte {byte}"),
            Self::Document => write!(f, "the document"),
        }
    }
}

/// Why a mesh cannot be read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MeshError {
    /// Where.
    pub place: Place,
    /// What is wrong, as a clause.
    pub what: String,
}

impl fmt::Display for MeshError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "The mesh cannot be read: {}, at {}. Write it again from the program that made it.",
            self.what, self.place
        )
    }
}

impl std::error::Error for MeshError {}

fn wrong<T>(place: Place, what: impl Into<String>) -> Result<T, MeshError> {
    Err(MeshError {
        place,
        what: what.into(),
    })
}

/// The triangles of a file.
///
/// # Errors
/// A [`MeshError`] with the place; also for a file without a triangle and for one with more than
/// [`MOST_TRIANGLES`].
pub fn read_mesh(bytes: &[u8], format: MeshFormat) -> Result<TriangleMesh, MeshError> {
    let mesh = match format {
        MeshFormat::Obj => obj::read(bytes),
        MeshFormat::Ply => ply::read(bytes),
        MeshFormat::Stl => stl::read(bytes),
        MeshFormat::Gltf => gltf::read(bytes),
    }?;
    if mesh.triangles.is_empty() {
        return wrong(Place::Byte(bytes.len()), "it holds no triangle");
    }
    Ok(mesh)
}

impl TriangleMesh {
    fn add_point(&mut self, point: [f64; 3], place: Place) -> Result<(), MeshError> {
        if !point.iter().all(|c| c.is_finite()) {
            return wrong(place, "a coordinate is not a finite number");
        }
        if self.points.len() >= MOST_POINTS {
            return wrong(place, format!("it has more than {MOST_POINTS} points"));
        }
        self.points.push(point);
        Ok(())
    }

    /// A face as a fan of triangles.
    fn add_face(&mut self, corners: &[usize], place: Place) -> Result<(), MeshError> {
        if corners.len() < 3 {
            return wrong(place, "a face has fewer than three corners");
        }
        for pair in corners[1..].windows(2) {
            if self.triangles.len() >= MOST_TRIANGLES {
                return wrong(
                    place,
                    format!("it has more than {MOST_TRIANGLES} triangles"),
                );
            }
            self.triangles.push([corners[0], pair[0], pair[1]]);
        }
        Ok(())
    }

    /// Every corner must name a point there is.
    fn with_corners_there(self, place: Place) -> Result<Self, MeshError> {
        match self
            .triangles
            .iter()
            .flatten()
            .find(|&&v| v >= self.points.len())
        {
            Some(v) => wrong(
                place,
                format!(
                    "a face names point {v}, and there are {}",
                    self.points.len()
                ),
            ),
            None => Ok(self),
        }
    }
}

/// The numbers of a text line; words that are none are an error.
fn numbers<'a>(words: impl Iterator<Item = &'a str>, line: usize) -> Result<[f64; 3], MeshError> {
    let mut out = [0.0; 3];
    let mut count = 0;
    for word in words.take(3) {
        out[count] = match word.parse() {
            Ok(number) => number,
            Err(_) => return wrong(Place::Line(line), format!("{word:?} is not a number")),
        };
        count += 1;
    }
    if count < 3 {
        return wrong(Place::Line(line), "a point needs three numbers");
    }
    Ok(out)
}

/// Lines of bytes that should be text, with their numbers from 1.
fn lines(bytes: &[u8]) -> impl Iterator<Item = (usize, std::borrow::Cow<'_, str>)> {
    let split = bytes.split(|&b| b == b'\n').enumerate();
    split.map(|(i, line)| (i + 1, String::from_utf8_lossy(line)))
}
