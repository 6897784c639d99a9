//! The discrete Kirchhoff triangle.
//!
//! Batoz, Bathe, Ho, *A study of three-node triangular plate bending elements*, Int. J. Numer.
//! Meth. Engng 15 (1980) 1771-1812. Written here in hierarchical form: the slopes of the normal
//! are linear between the corners, plus on each side a bulge along that side whose size makes the
//! shear strain vanish in the middle of the side, where the deflection is a cubic.

use super::flat::Flat;
use super::strain::Strain;

/// Curvatures `xx, yy, xy` (twice the twist) at the corners from `w`, rotation about x and rotation about
/// y of each corner.
pub(crate) fn strain(flat: &Flat) -> Strain {
    let gradient = flat.gradients();
    let mut corners = [linear_part(&gradient); 3];
    for i in 0..3 {
        let j = (i + 1) % 3;
        let (dx, dy) = (flat.x[j] - flat.x[i], flat.y[j] - flat.y[i]);
        let side = dx.hypot(dy);
        let (sx, sy) = (dx / side, dy / side);
        let bulge = bulge(i, j, side, sx, sy);
        // The bulge is 4 Li Lj: its gradient at corner i is 4 grad Lj, and the other way round.
        for (corner, [gx, gy]) in [(i, gradient[j]), (j, gradient[i])] {
            let factors = [4.0 * gx * sx, 4.0 * gy * sy, 4.0 * (gy * sx + gx * sy)];
            for (line, factor) in corners[corner].iter_mut().zip(factors) {
                for (value, b) in line.iter_mut().zip(&bulge) {
                    *value += factor * b;
                }
            }
        }
    }
    Strain { corners }
}

/// Curvature of slopes that are linear between the corners: the slope along x is the rotation about
/// y, the slope along y the rotation about x reversed.
fn linear_part(gradient: &[[f64; 2]; 3]) -> [[f64; 9]; 3] {
    let mut out = [[0.0; 9]; 3];
    for (corner, [gx, gy]) in gradient.iter().enumerate() {
        let (turn_x, turn_y) = (3 * corner + 1, 3 * corner + 2);
        out[0][turn_y] = *gx;
        out[1][turn_x] = -gy;
        out[2][turn_y] = *gy;
        out[2][turn_x] = -gx;
    }
    out
}

/// Size of the bulge on the side from corner `i` to corner `j`: what the slope along the side in
/// its middle, -3/2 (wj - wi)/l - 1/4 (sum of the slopes at its ends), is over their mean.
fn bulge(i: usize, j: usize, side: f64, sx: f64, sy: f64) -> [f64; 9] {
    let mut out = [0.0; 9];
    out[3 * i] = 1.5 / side;
    out[3 * j] = -1.5 / side;
    for corner in [i, j] {
        out[3 * corner + 1] = 0.75 * sy;
        out[3 * corner + 2] = -0.75 * sx;
    }
    out
}
