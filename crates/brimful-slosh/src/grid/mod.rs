//! A staggered grid over a cavity: how much of every cell and every face is open.
//!
//! The lines of the grid are straight and square to the axes; plates, the bounds of the cavity and a still surface
//! lie on them, and between those they are stretched to the spacing that is asked for (`lines`). Walls that
//! run otherwise cut the cells. What is open is exact but for rounding (`cut`, `blocked`): shares of area are the
//! weights of faces in the finite volumes of Y. T. Ng, C. Min, F. Gibou, *An efficient fluid-solid coupling algorithm for
//! single-phase flows*, J. Comput. Phys. 228 (2009) 8807-8829 (from memory), which are of second order at walls.
//!
//! A plate closes the faces it lies on: nothing leaks through it, however thin. What lies on both sides of a wall
//! that is thinner than a quarter of the spacing, or oblique and thinner than a cell, shares cells and is joined.
//!
//! Cells are numbered x first, then y, then z; so are the faces square to an axis, of which there is one more
//! along that axis.

mod blocked;
mod cut;
mod fault;
mod index;
mod lines;
mod part;
mod sheet;
mod staggered;

pub use fault::GridFault;
pub use part::{HolePiece, Patch, PlatePiece, WallPiece};
pub(crate) use sheet::Sheet;
pub use staggered::Grid;
