//! The flat three-node shell with six degrees of freedom a corner.
//!
//! Everything here is in the element's own axes: the first two in its plane, the origin in its
//! middle. Bending is the discrete Kirchhoff triangle, stretching the optimal triangle with
//! drilling degrees of freedom; both have strains that vary linearly, so that one [`Strain`] serves both.

mod bending;
mod dofs;
mod flat;
mod geometric;
mod load;
mod membrane;
mod strain;

pub(crate) use dofs::{Column, Square};
pub(crate) use flat::{Flat, Section};
pub(crate) use geometric::stiffness as geometric_stiffness;
pub(crate) use load::{lumped_mass, pressure_forces, pressure_weights};
pub(crate) use strain::Strain;

use dofs::{BENDING, STRETCHING};

use crate::shell::model::{InitialStrain, Resultants};
use crate::shell::small::apply;

/// A triangle ready for use: how its corners' degrees of freedom strain it, and how stiff it is.
pub(crate) struct Element {
    flat: Flat,
    section: Section,
    stretch: Strain,
    curvature: Strain,
}

impl Element {
    /// The element on a flat triangle.
    pub fn new(flat: Flat, section: Section) -> Self {
        Self {
            stretch: membrane::strain(&flat, section.poisson),
            curvature: bending::strain(&flat),
            flat,
            section,
        }
    }

    /// Stiffness.
    pub fn stiffness(&self) -> Stiffness {
        let area = self.flat.area;
        Stiffness {
            stretching: self.stretch.stiffness(area, &self.section.stretching),
            bending: self.curvature.stiffness(area, &self.section.bending),
        }
    }

    /// Forces on the corners that hold it in this deformation: stiffness times deformation.
    pub fn forces(&self, deformation: &Column) -> Column {
        let mut out = [0.0; 18];
        let parts = [
            (&self.stretch, &self.section.stretching, STRETCHING),
            (&self.curvature, &self.section.bending, BENDING),
        ];
        for (strain, law, places) in parts {
            let nine = places.map(|i| deformation[i]);
            let stress = strain.at_corners(&nine).map(|s| apply(law, s));
            for (force, &i) in strain.forces(self.flat.area, &stress).iter().zip(&places) {
                out[i] = *force;
            }
        }
        out
    }

    /// Forces on the corners that an initial strain is as good as: those which would hold the
    /// element in the shape that it takes when free.
    pub fn initial_strain_forces(&self, free: &InitialStrain) -> Column {
        let mut out = [0.0; 18];
        let parts = [
            (
                &self.stretch,
                apply(&self.section.stretching, free.stretch),
                STRETCHING,
            ),
            (
                &self.curvature,
                apply(&self.section.bending, free.curvature),
                BENDING,
            ),
        ];
        for (strain, stress, places) in parts {
            for (force, &i) in strain
                .forces(self.flat.area, &[stress; 3])
                .iter()
                .zip(&places)
            {
                out[i] = *force;
            }
        }
        out
    }

    /// Stress resultants at the corners, before an initial strain is taken off.
    pub fn resultants(&self, deformation: &Column) -> [Resultants; 3] {
        let stretch = self.stretch.at_corners(&STRETCHING.map(|i| deformation[i]));
        let curvature = self.curvature.at_corners(&BENDING.map(|i| deformation[i]));
        std::array::from_fn(|corner| Resultants {
            force: apply(&self.section.stretching, stretch[corner]),
            moment: apply(&self.section.bending, curvature[corner]),
        })
    }

    /// The stress resultants that an initial strain is as good as.
    pub fn initial_strain_resultants(&self, free: &InitialStrain) -> Resultants {
        Resultants {
            force: apply(&self.section.stretching, free.stretch),
            moment: apply(&self.section.bending, free.curvature),
        }
    }
}

/// The stiffness of an element. Stretching and bending know nothing of each other.
pub(crate) struct Stiffness {
    stretching: [[f64; 9]; 9],
    bending: [[f64; 9]; 9],
}

impl Stiffness {
    /// Forces on the corners that hold the element in this deformation.
    pub fn forces(&self, deformation: &Column) -> Column {
        let mut out = [0.0; 18];
        for (part, places) in self.parts() {
            let nine = places.map(|i| deformation[i]);
            for (line, &i) in part.iter().zip(&places) {
                out[i] = line.iter().zip(&nine).map(|(k, d)| k * d).sum();
            }
        }
        out
    }

    /// Over all degrees of freedom of the element.
    pub fn square(&self) -> Square {
        let mut out = [[0.0; 18]; 18];
        for (part, places) in self.parts() {
            for (line, &i) in part.iter().zip(&places) {
                for (value, &j) in line.iter().zip(&places) {
                    out[i][j] = *value;
                }
            }
        }
        out
    }

    fn parts(&self) -> [(&[[f64; 9]; 9], [usize; 9]); 2] {
        [(&self.stretching, STRETCHING), (&self.bending, BENDING)]
    }
}

#[cfg(test)]
mod tests;
