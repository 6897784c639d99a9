//! The clear inside as measured.

use crate::finding::Finding;
use brimful_geom::solid::Solid;

/// The clear inside as measured, wholly inside any twisted side.
pub(super) struct Shell {
    pub(super) solid: Solid,
    /// The solid that the clearance is taken off, where that is a plainer one.
    pub(super) facing: Option<Solid>,
    /// What is left of it within all that is kept free, where that is known already.
    pub(super) kept_within: Option<Solid>,
    /// Rack, twist, misfits and holes.
    pub(super) findings: Vec<Finding>,
}
