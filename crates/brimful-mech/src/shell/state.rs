//! Where a shell is, and what holds it there.

use super::model::Resultants;
use super::small::Matrix;

/// A shell in equilibrium.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct State {
    /// Displacement (m) and rotation vector (rad, direction times angle) of each node.
    pub displacements: Vec<[f64; 6]>,
    /// The rotations as matrices, where they were not taken as small; else empty.
    pub(crate) rotations: Vec<Matrix>,
    /// Force of each constraint on its node, N or N m, in the order of the shell's. Of several of one
    /// degree of freedom the last has it all.
    pub constraint_forces: Vec<f64>,
    /// Force of each spring on its node along its direction, N.
    pub spring_forces: Vec<f64>,
    /// Push of each contact, N; zero where it is open.
    pub contact_forces: Vec<f64>,
    /// Elastic energy of triangles and bars, J; with initial strains, up to a constant.
    pub energy: f64,
    /// What each triangle has kept from an earlier stage with other stiffness; empty for nothing.
    pub(crate) initial_stress: Vec<InitialStress>,
}

impl State {
    /// Whether rotations and displacements were taken as finite.
    pub fn is_large(&self) -> bool {
        !self.rotations.is_empty()
    }

    /// Largest displacement of any node, m.
    pub fn largest_displacement(&self) -> f64 {
        self.displacements
            .iter()
            .map(|d| d[0].hypot(d[1]).hypot(d[2]))
            .fold(0.0, f64::max)
    }
}

/// Forces that a triangle does not have although its deformation asks for them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct InitialStress {
    /// On its corners, in its own turned axes.
    pub forces: [f64; 18],
    /// Stress resultants at its corners.
    pub resultants: [Resultants; 3],
}
