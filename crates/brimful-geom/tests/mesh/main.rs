//! Meshes of flats that meet: closed, tees, crossings, holes, strips, random boxes.
//!
//! What is asked of every mesh is counted in `check` from nodes and triangles alone.

#![allow(clippy::unwrap_used, clippy::print_stdout)]

mod cases;
mod check;
mod random;
mod shapes;
