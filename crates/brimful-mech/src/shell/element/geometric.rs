//! What force in the plane adds to the stiffness of a triangle.

use super::dofs::{Column, Square};
use super::flat::Flat;

/// Geometric stiffness from the mean force `xx, yy, xy` in the plane, N/m.
///
/// Across the plane the slope of the deflection is that of the discrete Kirchhoff triangle,
/// in the plane displacements are linear.
pub(crate) fn stiffness(flat: &Flat, force: &[f64; 3]) -> Square {
    let mut out = [[0.0; 18]; 18];
    let gradient = flat.gradients();
    for direction in 0..2 {
        let mut rows = [[0.0; 18]; 2];
        for corner in 0..3 {
            rows[0][6 * corner + direction] = gradient[corner][0];
            rows[1][6 * corner + direction] = gradient[corner][1];
        }
        add_product(&mut out, &rows, force, flat.area);
    }
    // The slopes are quadratic, their product of fourth degree; the rule of the middles of the
    // sides is exact for the second only, which is the order of the deflection itself.
    for side in 0..3 {
        add_product(
            &mut out,
            &slopes_at_middle(flat, side),
            force,
            flat.area / 3.0,
        );
    }
    out
}

/// Slope of the deflection along x and y in the middle of a side.
fn slopes_at_middle(flat: &Flat, i: usize) -> [Column; 2] {
    let j = (i + 1) % 3;
    let (dx, dy) = (flat.x[j] - flat.x[i], flat.y[j] - flat.y[i]);
    let side = dx.hypot(dy);
    let (sx, sy) = (dx / side, dy / side);
    let mut rows = [[0.0; 18]; 2];
    for (corner, sign) in [(i, -1.0), (j, 1.0)] {
        rows[0][6 * corner + 2] = sign * 1.5 / side * sx;
        rows[1][6 * corner + 2] = sign * 1.5 / side * sy;
        // w,x is minus the turn about y, w,y the turn about x: half of each, and three quarters
        // of the part along the side taken off again.
        rows[0][6 * corner + 3] = -0.75 * sy * sx;
        rows[0][6 * corner + 4] = -0.5 + 0.75 * sx * sx;
        rows[1][6 * corner + 3] = 0.5 - 0.75 * sy * sy;
        rows[1][6 * corner + 4] = 0.75 * sx * sy;
    }
    rows
}

fn add_product(out: &mut Square, rows: &[Column; 2], force: &[f64; 3], weight: f64) {
    let [nx, ny, nxy] = *force;
    for (i, line) in out.iter_mut().enumerate() {
        let first = weight * (nx * rows[0][i] + nxy * rows[1][i]);
        let second = weight * (nxy * rows[0][i] + ny * rows[1][i]);
        for (j, value) in line.iter_mut().enumerate() {
            *value += first * rows[0][j] + second * rows[1][j];
        }
    }
}
