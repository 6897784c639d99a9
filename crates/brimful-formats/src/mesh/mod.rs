//! Reading triangle surfaces as scanners write them: OBJ, PLY, STL, glTF.
//!
//! What comes out is in the file's own units; nobody but whoever scanned knows what they are. All
//! faces become triangles (a face of more corners is cut into a fan from its first). Nothing a file
//! says is believed before it is looked at: sizes are bounded, numbers must be numbers, corners must
//! be there.

mod bytes;
mod error;
mod gltf;
mod obj;
mod ply;
mod stl;
#[cfg(test)]
mod tests;

pub use error::MeshError;

/// A scan of more is thinned out first.
pub const MOST_TRIANGLES: usize = 5_000_000;
/// Triangles that share no corner have three points each.
const MOST_POINTS: usize = 3 * MOST_TRIANGLES;

/// Points, and triangles between them.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct TriangleMesh {
    /// In the file's units.
    pub points: Vec<[f64; 3]>,
    /// Numbers of points.
    pub triangles: Vec<[usize; 3]>,
}

/// A format of surfaces.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MeshFormat {
    /// Wavefront OBJ, text.
    Obj,
    /// Stanford PLY, text or binary.
    Ply,
    /// STL, text or binary.
    Stl,
    /// glTF 2.0, binary (GLB) or text with its buffers inside.
    Gltf,
}

impl MeshFormat {
    /// The format that the name of a file says.
    pub fn of_name(name: &str) -> Option<Self> {
        let (_, ending) = name.rsplit_once('.')?;
        match ending.to_ascii_lowercase().as_str() {
            "obj" => Some(Self::Obj),
            "ply" => Some(Self::Ply),
            "stl" => Some(Self::Stl),
            "glb" | "gltf" => Some(Self::Gltf),
            _ => None,
        }
    }
}

/// Reads a surface.
///
/// # Errors
/// [`MeshError`] with the line or the byte at which the file cannot be followed.
pub fn read_mesh(bytes: &[u8], format: MeshFormat) -> Result<TriangleMesh, MeshError> {
    let mesh = match format {
        MeshFormat::Obj => obj::read(bytes),
        MeshFormat::Ply => ply::read(bytes),
        MeshFormat::Stl => stl::read(bytes),
        MeshFormat::Gltf => gltf::read(bytes),
    }?;
    if mesh.triangles.is_empty() {
        return Err(MeshError::Empty);
    }
    Ok(mesh)
}

impl TriangleMesh {
    /// Adds a point.
    fn point(&mut self, point: [f64; 3], place: impl FnOnce() -> String) -> Result<(), MeshError> {
        if point.iter().any(|value| !value.is_finite()) {
            return Err(MeshError::form(place(), "a coordinate is no number"));
        }
        if self.points.len() >= MOST_POINTS {
            return Err(MeshError::TooLarge);
        }
        self.points.push(point);
        Ok(())
    }

    /// Adds a face of three corners or more.
    fn face(&mut self, corners: &[usize], place: impl Fn() -> String) -> Result<(), MeshError> {
        if corners.len() < 3 {
            return Err(MeshError::form(
                place(),
                "a face has fewer than three corners",
            ));
        }
        if corners.iter().any(|&corner| corner >= self.points.len()) {
            return Err(MeshError::form(
                place(),
                "a face names a point that is not there",
            ));
        }
        if self.triangles.len() + corners.len() > MOST_TRIANGLES {
            return Err(MeshError::TooLarge);
        }
        let fan = (1..corners.len() - 1).map(|i| [corners[0], corners[i], corners[i + 1]]);
        self.triangles.extend(fan);
        Ok(())
    }
}
