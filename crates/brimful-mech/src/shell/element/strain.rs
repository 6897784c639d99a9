//! Strains that vary linearly over a triangle.

use crate::shell::small::{Matrix, Row, add, apply, scale};

/// Three strains at each corner from nine freedoms; in between they vary linearly.
pub(crate) struct Strain {
    /// By corner, strain and freedom.
    pub corners: [[[f64; 9]; 3]; 3],
}

impl Strain {
    /// The strains at the corners.
    pub fn at_corners(&self, freedoms: &[f64; 9]) -> [Row; 3] {
        self.corners.map(|corner| {
            corner.map(|line| line.iter().zip(freedoms).map(|(b, d)| b * d).sum())
        })
    }

    /// Nodal forces that do the work of a stress which varies linearly from corner to corner.
    pub fn forces(&self, area: f64, stress: &[Row; 3]) -> [f64; 9] {
        // The integral of a product of two linear fields is area / 12 (sum of corner products +
        // product of the sums).
        let sum = add(add(stress[0], stress[1]), stress[2]);
        let mut out = [0.0; 9];
        for (corner, own) in self.corners.iter().zip(stress) {
            let weight = scale(add(*own, sum), area / 12.0);
            for (line, w) in corner.iter().zip(weight) {
                for (o, b) in out.iter_mut().zip(line) {
                    *o += b * w;
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
            for f in 0..9 {
                let column = apply(law, [middle[0][f], middle[1][f], middle[2][f]]);
                for s in 0..3 {
                    stress[s][f] = column[s] * area / 3.0;
                }
            }
            for (r, line) in out.iter_mut().enumerate() {
                for s in 0..3 {
                    let factor = middle[s][r];
                    for (o, value) in line.iter_mut().zip(&stress[s]) {
                        *o += factor * value;
                    }
                }
            }
        }
        out
    }
}
