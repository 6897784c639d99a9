//! Exact plane and solid geometry: polygons, planar-faced solids, clipping, volumes.
//!
//! Everything is in metres, right-handed, z up. The crate knows nothing of tanks. Start at
//! [`solid`] for what a solid is, [`boolean`] for how solids are combined and [`moments`] for
//! what is measured on them.

pub mod basin;
pub mod boolean;
pub mod frame;
pub mod inscribed;
pub mod mesh;
pub mod moments;
pub mod offset;
pub mod passage;
pub mod plate;
pub mod polygon;
pub mod predicate;
pub mod scan;
pub mod solid;
pub mod sweep;
#[cfg(test)]
mod testing;
pub mod triangulate;
pub mod vector;
