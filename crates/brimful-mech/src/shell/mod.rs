//! Flat plates that meet along lines, as one thin shell.
//!
//! A [`model::Shell`] is nodes, triangles and what holds them; a [`model::Load`] is what acts on
//! it. Plain SI `f64` throughout: metres, newtons, pascals, kilograms, seconds, kelvins, radians.

pub mod model;
