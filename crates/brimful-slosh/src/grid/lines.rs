//! Where the lines of the grid run.

use super::fault::GridFault;
use super::sheet::Sheet;
use brimful_geom::solid::Solid;

/// The coordinates of the lines along each axis, rising.
pub(super) struct Lines(pub [Vec<f64>; 3]);

/// Lines that must be there and are nearer than this share of the spacing are one: far below what anything is
/// measured to, far above rounding.
const SAME_LINE: f64 = 1e-6;
/// A flat wall gets a line of its own where that leaves no cell narrower than this share of the spacing; else it cuts cells.
const NARROWEST: f64 = 0.25;
/// Cells that a grid may have: at some 200 bytes each about a gigabyte.
const MOST_CELLS: f64 = 5e6;

impl Lines {
    /// Lines through the bounds, the plates and the surface, and through flat walls where there is room.
    pub fn fitted(
        solid: &Solid,
        sheets: &[Sheet],
        level: f64,
        spacing: [f64; 3],
    ) -> Result<Self, GridFault> {
        let (low, high) = solid.bounds();
        let (low, mut high) = (low.to_vec().to_array(), high.to_vec().to_array());
        high[2] = high[2].min(level);
        let numbers = low.iter().chain(&high).chain(&spacing).chain([&level]);
        if numbers.into_iter().any(|it| !it.is_finite()) {
            return Err(if solid.vertices.is_empty() {
                GridFault::Nothing
            } else {
                GridFault::NotFinite
            });
        }
        let is_thin = |axis: usize| high[axis] - low[axis] <= spacing[axis] * SAME_LINE;
        if spacing.iter().any(|&it| it <= 0.0) || (0..3).any(is_thin) {
            return Err(GridFault::Nothing);
        }
        let cells: f64 = (0..3)
            .map(|axis| ((high[axis] - low[axis]) / spacing[axis]).max(1.0))
            .product();
        if cells > MOST_CELLS {
            return Err(GridFault::TooManyCells(cells));
        }
        let along = |axis: usize| {
            let spacing = spacing[axis];
            let plates = sheets.iter().filter(|it| it.axis == axis).map(|it| it.at);
            let needed = needed(low[axis], high[axis], plates, spacing);
            let all = with_walls(needed, flat_walls(solid, axis), spacing);
            divided(&all, spacing)
        };
        Ok(Self([along(0), along(1), along(2)]))
    }
}

/// Where flat walls square to an axis are.
fn flat_walls(solid: &Solid, axis: usize) -> impl Iterator<Item = f64> {
    let square = move |normal: [f64; 3]| (0..3).all(|it| it == axis || normal[it] == 0.0);
    let faces = solid.faces.iter();
    faces
        .filter(move |face| square(face.plane.normal.to_array()))
        .map(move |face| face.plane.offset * face.plane.normal.to_array()[axis])
}

fn needed(low: f64, high: f64, plates: impl Iterator<Item = f64>, spacing: f64) -> Vec<f64> {
    let mut lines = vec![low, high];
    for at in plates.filter(|&at| low < at && at < high) {
        if lines.iter().all(|it| (it - at).abs() > spacing * SAME_LINE) {
            lines.push(at);
        }
    }
    lines.sort_by(f64::total_cmp);
    lines
}

fn with_walls(mut lines: Vec<f64>, walls: impl Iterator<Item = f64>, spacing: f64) -> Vec<f64> {
    let (low, high) = (lines[0], lines[lines.len() - 1]);
    for at in walls.filter(|&at| low < at && at < high) {
        if lines
            .iter()
            .all(|it| (it - at).abs() >= spacing * NARROWEST)
        {
            lines.push(at);
        }
    }
    lines.sort_by(f64::total_cmp);
    lines
}

/// The same lines with evenly spaced ones between each two.
fn divided(lines: &[f64], spacing: f64) -> Vec<f64> {
    let mut all = vec![lines[0]];
    for pair in lines.windows(2) {
        let gap = pair[1] - pair[0];
        let cells = (gap / spacing).round().max(1.0);
        all.extend((1..cells as usize).map(|it| pair[0] + gap * it as f64 / cells));
        all.push(pair[1]);
    }
    all
}
