//! Strains that vary linearly over a triangle.
//!
//! Loops are over indices of fixed arrays, which the compiler unrolls and vectorizes.

use crate::shell::small::{Matrix, Row, add, scale};

/// Three strains at each corner from nine degrees of freedom; in between they vary linearly.
pub(crate) struct Strain {
    /// By corner, strain and degree of freedom.
    pub corners: [[[f64; 9]; 3]; 3],
}

impl Strain {
    /// The strains at the corners.
    pub fn at_corners(&self, dofs: &[f64; 9]) -> [Row; 3] {
        let mut out = [[0.0; 3]; 3];
        for corner in 0..3 {
            for s in 0..3 {
                for f in 0..9 {
                    out[corner][s] += self.corners[corner][s][f] * dofs[f];
                }
            }
        }
        out
    }

    /// Nodal forces that do the work of a stress which varies linearly from corner to corner.
    pub fn forces(&self, area: f64, stress: &[Row; 3]) -> [f64; 9] {
        // The integral of a product of two linear fields is area / 12 (sum of corner products +
        // product of the sums).
        let sum = add(add(stress[0], stress[1]), stress[2]);
        let mut out = [0.0; 9];
        for corner in 0..3 {
            let weight = scale(add(stress[corner], sum), area / 12.0);
            for s in 0..3 {
                for f in 0..9 {
                    out[f] += self.corners[corner][s][f] * weight[s];
                }
            }
        }
        out
    }

    /// Stiffness with a law from strain to stress that is the same all over the triangle.
    pub fn stiffness(&self, area: f64, law: &Matrix) -> [[f64; 9]; 9] {
        // The rule of the three middles of the sides is exact for products of linear fields.
        let mut out = [[0.0; 9]; 9];
        for i in 0..3 {
            let (a, b) = (&self.corners[i], &self.corners[(i + 1) % 3]);
            let mut middle = [[0.0; 9]; 3];
            for s in 0..3 {
                for f in 0..9 {
                    middle[s][f] = 0.5 * (a[s][f] + b[s][f]);
                }
            }
            let mut stress = [[0.0; 9]; 3];
            for s in 0..3 {
                let factors = scale(law[s], area / 3.0);
                for f in 0..9 {
                    stress[s][f] = factors[0] * middle[0][f]
                        + factors[1] * middle[1][f]
                        + factors[2] * middle[2][f];
                }
            }
            for r in 0..9 {
                let factors = [middle[0][r], middle[1][r], middle[2][r]];
                for f in 0..9 {
                    out[r][f] += factors[0] * stress[0][f]
                        + factors[1] * stress[1][f]
                        + factors[2] * stress[2][f];
                }
            }
        }
        out
    }
}
