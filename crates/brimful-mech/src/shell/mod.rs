//! Flat plates that meet along lines, as one thin shell.
//!
//! A [`model::Shell`] is nodes, triangles and what holds them; a [`model::Load`] is what acts on
//! it. Plain SI `f64` throughout: metres, newtons, pascals, kilograms, seconds, kelvins, radians.

// Tensors are written with their indices, as in the papers.
#![allow(clippy::needless_range_loop)]

mod corotation;
mod element;
mod factor;
mod fault;
mod frame;
pub mod inherent;
pub mod linear;
mod loading;
pub mod model;
pub mod modes;
pub mod nonlinear;
pub mod recover;
mod small;
mod state;
mod support;
mod system;

pub use factor::Workspace;
pub use fault::Fault;
pub use state::State;
pub use system::System;
