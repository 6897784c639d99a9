//! Parts of faces, walls and plates on the grid.

use brimful_geom::vector::{Point3, Vec3};

/// A part of a face.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Patch {
    /// Its area, m2.
    pub area: f64,
    /// Integrals of the coordinates along the two axes that follow the face's own, m3.
    pub first: [f64; 2],
}

/// What of a wall lies in a cell.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WallPiece {
    /// The cell.
    pub cell: usize,
    /// The solid's face.
    pub face: usize,
    /// Its area along its normal, which points out of the liquid, m2.
    pub area: Vec3,
    /// Its middle.
    pub centre: Point3,
}

/// What of a plate lies on a face of the grid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlatePiece {
    /// The plate.
    pub plate: usize,
    /// The axis the face is square to.
    pub axis: usize,
    /// The face.
    pub face: usize,
    /// How much of the face it closes, m2.
    pub area: f64,
    /// Its middle.
    pub centre: Point3,
}

/// What of a plate's hole lies on a face of the grid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HolePiece {
    /// The plate.
    pub plate: usize,
    /// Its hole.
    pub hole: usize,
    /// The axis the face is square to.
    pub axis: usize,
    /// The face.
    pub face: usize,
    /// How much of the face it opens, m2.
    pub area: f64,
}

impl Patch {
    /// The patch's middle along the two axes that follow the face's own; none where it is empty.
    pub fn centre(&self) -> Option<[f64; 2]> {
        (self.area > 0.0).then(|| self.first.map(|it| it / self.area))
    }

    pub(super) fn add(&mut self, area: f64, first: [f64; 2]) {
        self.area += area;
        self.first[0] += first[0];
        self.first[1] += first[1];
    }

    pub(super) fn times(self, factor: f64) -> Self {
        Self {
            area: self.area * factor,
            first: self.first.map(|it| it * factor),
        }
    }
}
