//! The plane of a triangle before anything acts.

use super::element::Flat;
use super::fault::Fault;
use super::model::Shell;
use super::small::{Matrix, Row, add, cross, dot, length, row, scale, sub};

/// Least height of a triangle over its longest side; below it rounding of the corners decides
/// which way it faces.
const LEAST_SLENDERNESS: f64 = 1e-6;
/// Least sine of the angle between a plate's axis and the normal of its triangle.
const LEAST_AXIS: f64 = 1e-3;

/// A triangle in its own axes: the plate's axis put into its plane, the second axis square to
/// it, the normal.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Plane {
    /// Corners about the middle.
    pub flat: Flat,
    /// Rows are the axes.
    pub axes: Matrix,
}

/// That of one triangle.
pub(crate) fn plane(shell: &Shell, number: usize) -> Result<Plane, Fault> {
    let triangle = shell.triangles[number];
    let corners = triangle.nodes.map(|n| shell.nodes[n].to_array());
    let twice_area = cross(sub(corners[1], corners[0]), sub(corners[2], corners[0]));
    let longest = (0..3)
        .map(|i| length(sub(corners[(i + 1) % 3], corners[i])))
        .fold(0.0, f64::max);
    let area = length(twice_area);
    if area.is_nan() || area <= LEAST_SLENDERNESS * longest * longest {
        return Err(Fault::Input {
            what: format!("Triangle {number} has no area to speak of. Mesh its plate again."),
        });
    }
    let normal = scale(twice_area, 1.0 / area);
    let given = row(shell.plates[triangle.plate].axis);
    let flattened = sub(given, scale(normal, dot(given, normal)));
    let left = length(flattened);
    if left.is_nan() || left <= LEAST_AXIS * length(given) {
        return Err(Fault::Input {
            what: format!(
                "The axis of plate {} does not lie in the plane of its triangle {number}.",
                triangle.plate
            ),
        });
    }
    let first = scale(flattened, 1.0 / left);
    let axes = [first, cross(normal, first), normal];
    Ok(Plane {
        flat: flat_in(&axes, &corners),
        axes,
    })
}

/// The corners along the first two axes, about their middle.
pub(crate) fn flat_in(axes: &Matrix, corners: &[Row; 3]) -> Flat {
    let middle = scale(add(add(corners[0], corners[1]), corners[2]), 1.0 / 3.0);
    let along = |axis: Row| corners.map(|c| dot(axis, sub(c, middle)));
    Flat::new(along(axes[0]), along(axes[1]))
}
