//! Writers for PDF, DXF, STEP, glTF, CSV and finite-element decks; readers for scanned surfaces.
//!
//! Each writer turns plain shapes, in metres, into the bytes of one file. The same input gives
//! the same bytes: no clock, no random names, no hash order. Nothing here knows what the shapes
//! are for.

pub mod csv;
mod decimal;
pub mod deck;
pub mod dxf;
pub mod error;
pub mod gltf;
pub mod mesh;
#[cfg(feature = "pdf")]
pub mod pdf;
pub mod step;
