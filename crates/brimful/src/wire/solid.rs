//! Solids as JSON.

use super::point::point;
use brimful_geom::solid;
use schemars::JsonSchema;
use serde::Serialize;

/// A closed solid of flat faces.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct Solid {
    points_m: Vec<[f64; 3]>,
    /// Each face: its outline, then its holes, by numbers of points from 0, counter-clockwise seen
    /// from outside.
    faces: Vec<Vec<Vec<usize>>>,
}

pub(super) fn solid(solid: &solid::Solid) -> Solid {
    Solid {
        points_m: solid.vertices.iter().map(|&p| point(p)).collect(),
        faces: solid.faces.iter().map(|face| face.loops.clone()).collect(),
    }
}
