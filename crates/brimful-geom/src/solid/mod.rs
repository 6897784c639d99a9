//! Solids with planar faces.
//!
//! A solid is a list of vertices and a list of faces; a face is a plane and closed loops of
//! vertex numbers, the first counter-clockwise seen from outside, the others (holes) clockwise.
//! Any dihedral angle, convex and re-entrant edges, holes in faces, more than three faces at a
//! vertex and several shells are allowed. [`Solid::faults`] proves a solid; every step of the
//! project is tested with it.

mod boundary;
mod faults;

pub use boundary::{Edge, Face, PLANAR_TOLERANCE, Solid};
pub use faults::SolidFault;
