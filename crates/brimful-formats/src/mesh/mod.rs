//! Reading triangle surfaces as scanners write them: OBJ, PLY, STL, glTF.
//!
//! What comes out is in the file's own units; nobody but whoever scanned knows what they are. All
//! faces become triangles (a face of more corners is cut into a fan from its first). Nothing a file
//! says is believed before it is looked at: sizes are bounded, numbers must be numbers, corners must
//! be there.

mod bytes;
mod error;
mod gltf;
mod limit;
mod obj;
mod ply;
mod stl;
mod surface;
#[cfg(test)]
mod tests;

pub use error::MeshError;
pub use limit::MOST_TRIANGLES;
pub use surface::TriangleMesh;

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
