//! Shape and section of one triangle.

use crate::shell::model::Plate;
use crate::shell::small::Matrix;

/// A triangle in its own plane, the origin in its middle, corners counter-clockwise.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Flat {
    /// First coordinates of the corners, m.
    pub x: [f64; 3],
    /// Second coordinates of the corners, m.
    pub y: [f64; 3],
    /// Area, m2.
    pub area: f64,
}

impl Flat {
    /// The triangle with these corners.
    pub fn new(x: [f64; 3], y: [f64; 3]) -> Self {
        let area = 0.5 * ((x[1] - x[0]) * (y[2] - y[0]) - (x[2] - x[0]) * (y[1] - y[0]));
        Self { x, y, area }
    }

    /// Gradient of each area coordinate, 1/m.
    pub fn gradients(&self) -> [[f64; 2]; 3] {
        std::array::from_fn(|i| {
            let (j, k) = ((i + 1) % 3, (i + 2) % 3);
            [
                (self.y[j] - self.y[k]) / (2.0 * self.area),
                (self.x[k] - self.x[j]) / (2.0 * self.area),
            ]
        })
    }
}

/// Stiffness and mass of a plate per unit of its area; isotropic, plane stress.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Section {
    /// Force per metre from strain, N/m.
    pub stretching: Matrix,
    /// Moment per metre from curvature, N m.
    pub bending: Matrix,
    /// Poisson's ratio.
    pub poisson: f64,
    /// Thickness, m.
    pub thickness: f64,
    /// Mass, kg/m2.
    pub mass: f64,
}

impl Section {
    /// That of a plate.
    pub fn of(plate: &Plate) -> Self {
        let (t, nu) = (plate.thickness, plate.poisson);
        let factor = plate.modulus * t / (1.0 - nu * nu);
        let law = |k: f64| {
            [
                [k, nu * k, 0.0],
                [nu * k, k, 0.0],
                [0.0, 0.0, (1.0 - nu) / 2.0 * k],
            ]
        };
        Self {
            stretching: law(factor),
            bending: law(factor * t * t / 12.0),
            poisson: nu,
            thickness: t,
            mass: plate.density * t,
        }
    }

    /// With no more than the share `twist` of the stiffness against twisting about an axis whose direction has
    /// this cosine and sine here.
    pub fn twisted(mut self, twist: f64, cosine: f64, sine: f64) -> Self {
        let lost = (1.0 - twist) * self.bending[2][2];
        // The twist along the axis by the curvatures here.
        let rates = [
            -2.0 * sine * cosine,
            2.0 * sine * cosine,
            cosine * cosine - sine * sine,
        ];
        for (line, r) in self.bending.iter_mut().zip(rates) {
            for (value, c) in line.iter_mut().zip(rates) {
                *value -= lost * r * c;
            }
        }
        self
    }
}
