//! A surface of triangles as it is read.

use super::error::MeshError;
use super::limit::{MOST_POINTS, MOST_TRIANGLES};

/// Points, and triangles between them.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct TriangleMesh {
    /// In the file's units.
    pub points: Vec<[f64; 3]>,
    /// Numbers of points.
    pub triangles: Vec<[usize; 3]>,
}

impl TriangleMesh {
    /// Adds a point.
    pub(super) fn point(
        &mut self,
        point: [f64; 3],
        place: impl FnOnce() -> String,
    ) -> Result<(), MeshError> {
        if point.iter().any(|value| !value.is_finite()) {
            return Err(MeshError::form(place(), "a coordinate is no number"));
        }
        if self.points.len() >= MOST_POINTS {
            return Err(MeshError::TooLarge);
        }
        self.points.push(point);
        Ok(())
    }

    /// Adds a face of three corners or more.
    pub(super) fn face(
        &mut self,
        corners: &[usize],
        place: impl Fn() -> String,
    ) -> Result<(), MeshError> {
        if corners.len() < 3 {
            return Err(MeshError::form(
                place(),
                "a face has fewer than three corners",
            ));
        }
        if corners.iter().any(|&corner| corner >= self.points.len()) {
            return Err(MeshError::form(
                place(),
                "a face names a point that is not there",
            ));
        }
        if self.triangles.len() + corners.len() > MOST_TRIANGLES {
            return Err(MeshError::TooLarge);
        }
        let fan = (1..corners.len() - 1).map(|i| [corners[0], corners[i], corners[i + 1]]);
        self.triangles.extend(fan);
        Ok(())
    }
}
