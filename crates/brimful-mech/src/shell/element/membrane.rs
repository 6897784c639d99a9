//! The optimal triangle with drilling degrees of freedom.
//!
//! Felippa, *A study of optimal membrane triangles with drilling freedoms*, Comput. Methods Appl.
//! Mech. Engrg. 192 (2003) 2125-2168: equations (12), (16), (22), (29) and (42), the misprint in
//! the third line of (29) put right. A mean strain that any field of displacements on the sides
//! gives exactly, and a deviation from it that is driven by how far the drilling of the corners
//! departs from the rotation of the triangle.

use super::flat::Flat;
use super::strain::Strain;

/// Share of the sides' normal displacement that drilling makes, (42).
const DRILLING_SHARE: f64 = 1.5;
/// Least weight of the deviation: below it the drilling would be loose, text after (42).
const LEAST_DEVIATION: f64 = 0.01;
/// Strain along sides 12, 23, 31 at each corner from the corners' deviatoric drilling, (29) with
/// the values of (42), over 2 area / (3 side^2).
const DEVIATION: [[[f64; 3]; 3]; 3] = [
    [[1.0, 2.0, 1.0], [0.0, 1.0, -1.0], [-1.0, -1.0, -2.0]],
    [[-2.0, -1.0, -1.0], [1.0, 1.0, 2.0], [-1.0, 0.0, 1.0]],
    [[1.0, -1.0, 0.0], [-1.0, -2.0, -1.0], [2.0, 1.0, 1.0]],
];

/// Strains `xx, yy, xy` (engineering) at the corners from `u`, `v` and drilling of each corner.
pub(crate) fn strain(flat: &Flat, poisson: f64) -> Strain {
    let weight = (0.5 * (1.0 - 4.0 * poisson * poisson)).max(LEAST_DEVIATION);
    let mean = mean_strain(flat);
    let rosette = rosette(flat);
    let drilling = deviatoric_drilling(flat);
    // 3/2 sqrt(weight) makes the energy of the deviation that of (31) and (32).
    let factor = 1.5 * weight.sqrt() * 2.0 * flat.area / 3.0;
    let corners = DEVIATION.map(|along_sides| {
        let mut corner = mean;
        for (strain, line) in corner.iter_mut().enumerate() {
            for (side, pattern) in along_sides.iter().enumerate() {
                for (share, turns) in pattern.iter().zip(&drilling) {
                    let size = factor * rosette[strain][side] * share;
                    for (value, t) in line.iter_mut().zip(turns) {
                        *value += size * t;
                    }
                }
            }
        }
        corner
    });
    Strain { corners }
}

/// Mean strain: the force-lumping matrix over the volume, transposed, (22).
fn mean_strain(flat: &Flat) -> [[f64; 9]; 3] {
    let (x, y) = (
        |a: usize, b: usize| flat.x[a] - flat.x[b],
        |a: usize, b: usize| flat.y[a] - flat.y[b],
    );
    let over = 1.0 / (2.0 * flat.area);
    let turn = DRILLING_SHARE / 6.0 * over;
    let mut out = [[0.0; 9]; 3];
    for i in 0..3 {
        let (j, k) = ((i + 1) % 3, (i + 2) % 3);
        out[0][3 * i] = y(j, k) * over;
        out[1][3 * i + 1] = x(k, j) * over;
        out[2][3 * i] = x(k, j) * over;
        out[2][3 * i + 1] = y(j, k) * over;
        out[0][3 * i + 2] = y(j, k) * (y(i, k) - y(j, i)) * turn;
        out[1][3 * i + 2] = x(k, j) * (x(k, i) - x(i, j)) * turn;
        out[2][3 * i + 2] = 2.0 * (x(k, i) * y(i, k) - x(i, j) * y(j, i)) * turn;
    }
    out
}

/// From strains along the sides 12, 23, 31 to Cartesian strains, (12), each column over the
/// square of its side.
fn rosette(flat: &Flat) -> [[f64; 3]; 3] {
    let (x, y) = (
        |a: usize, b: usize| flat.x[a] - flat.x[b],
        |a: usize, b: usize| flat.y[a] - flat.y[b],
    );
    let over = 1.0 / (4.0 * flat.area * flat.area);
    let mut out = [[0.0; 3]; 3];
    for i in 0..3 {
        let (j, k) = ((i + 1) % 3, (i + 2) % 3);
        // The side's own length squared in (12) cancels with the one in (29).
        out[0][i] = y(j, k) * y(i, k) * over;
        out[1][i] = x(j, k) * x(i, k) * over;
        out[2][i] = (y(j, k) * x(k, i) + x(k, j) * y(i, k)) * over;
    }
    out
}

/// Drilling of each corner less the rotation of the triangle, (16).
fn deviatoric_drilling(flat: &Flat) -> [[f64; 9]; 3] {
    let over = 1.0 / (4.0 * flat.area);
    let mut rotation = [0.0; 9];
    for i in 0..3 {
        let (j, k) = ((i + 1) % 3, (i + 2) % 3);
        rotation[3 * i] = (flat.x[k] - flat.x[j]) * over;
        rotation[3 * i + 1] = (flat.y[k] - flat.y[j]) * over;
    }
    let mut out = [rotation; 3];
    for (corner, line) in out.iter_mut().enumerate() {
        line[3 * corner + 2] += 1.0;
    }
    out
}
