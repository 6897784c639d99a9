//! Transient conduction through a wall that may melt; knows nothing of welding.
//!
//! One dimension, finite volumes, the enthalpy method: what is kept is the heat in each cell, and its temperature and
//! conductivity follow from that, so that melting needs no front to be tracked (V. Voller and M. Cross, *Accurate
//! solutions of moving boundary problems using the enthalpy method*, Int. J. Heat Mass Transfer 24 (1981) 545-556,
//! from memory). Steps are explicit and as long as is stable, so that the error falls with the square of the cells'
//! width where nothing melts. Plain SI numbers: m, s, K (or degC throughout), J, W, kg.
//!
//! Left out: flow and pressing of what is molten, a density that changes with melting, and heat along the wall.

mod material;
mod wall;

pub use material::{Material, Phase};
pub use wall::{Face, Sides, Wall};
