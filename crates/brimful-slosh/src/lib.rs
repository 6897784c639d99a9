//! Liquid with a free surface in a closed cavity with thin plates in it.
//!
//! Plain SI numbers: m, m2, m3, s, rad; right-handed, z against gravity. The crate knows nothing of tanks: a
//! [`Cavity`] is a closed solid with planar faces, a [`Plate`] a sheet without thickness in it, a [`Hole`] an opening in
//! a plate.
//!
//! [`grid`] lays a staggered grid into a cavity and says how much of each cell and each face is open; what moves
//! liquid on it stands on it. [`modes`] has its natural modes in small waves.

mod cavity;
mod conductance;
pub mod grid;
pub mod modes;

pub use cavity::{Cavity, Hole, Plate};
