//! What is kept free at a face of the space.

use crate::panel::Role;
use brimful_geom::vector::Vec3;
use brimful_job::Space;
use brimful_units::Length;

/// A side of the space that leans out by less than this is stood on; a steeper one is beside the
/// tank, as the side of a hull (a judgement: a tank slides down what is steeper).
const COSINE_OF_STOOD_ON: f64 = 0.866;

/// What is kept free at a face of the space that looks out along `normal`.
pub fn kept_at(space: &Space, normal: Vec3) -> Length {
    if is_stood_on(normal) {
        return space.keep_below;
    }
    match Role::of(normal) {
        Role::Lid => space.clearance.max(space.keep_above),
        _ => space.clearance,
    }
}

/// Whether a tank stands on a face that looks out along `normal`, and is not beside it.
pub fn is_stood_on(normal: Vec3) -> bool {
    normal.z < -COSINE_OF_STOOD_ON
}
