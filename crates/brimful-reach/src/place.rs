//! A place on a line of work.

use crate::blocks::Plates;
use brimful_geom::vector::{Point3, Vec3};

/// A place on a line of work.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Place {
    /// Where it is.
    pub at: Point3,
    /// Along the line, of length one.
    pub along: Vec3,
    /// Out of the work, square to the line, in the middle between what meets there; of length one.
    pub out: Vec3,
    /// The plates that meet there: they always stand.
    pub own: Plates,
}
