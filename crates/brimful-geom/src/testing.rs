//! What several test modules build.

use crate::solid::Solid;
use crate::vector::Point3;

/// A box between two corners.
pub(crate) fn cube(low: [f64; 3], high: [f64; 3]) -> Solid {
    let p = |a: [f64; 3]| Point3::new(a[0], a[1], a[2]);
    Solid::cuboid(p(low), p(high))
}
