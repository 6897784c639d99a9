//! A solid to be written.

use brimful_geom::vector::{Point3, Vec3};

/// A closed solid.
#[derive(Clone, Debug, PartialEq)]
pub struct StepSolid {
    /// Name of the product.
    pub name: String,
    /// Corners, metres.
    pub vertices: Vec<Point3>,
    /// Flat faces that close the solid, but for the round holes.
    pub faces: Vec<StepFace>,
    /// Round holes straight through.
    pub round_holes: Vec<RoundHole>,
}

/// A flat face.
#[derive(Clone, Debug, PartialEq)]
pub struct StepFace {
    /// Out of the material; any length but zero.
    pub normal: Vec3,
    /// The outer loop first, counterclockwise seen from outside; then the inner loops,
    /// clockwise. Each is a list of positions in [`StepSolid::vertices`].
    pub loops: Vec<Vec<usize>>,
}

/// A round hole from one face to another parallel to it.
#[derive(Clone, Debug, PartialEq)]
pub struct RoundHole {
    /// Centre of the circle in the first face, metres.
    pub start: Point3,
    /// Centre of the circle in the second face, straight across, metres.
    pub end: Point3,
    /// Radius, metres.
    pub radius: f64,
    /// Position of the first face in [`StepSolid::faces`].
    pub start_face: usize,
    /// Position of the second face.
    pub end_face: usize,
}
