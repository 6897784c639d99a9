//! Solving and reading off.

use super::shell_support::solve;
use brimful_geom::vector::Point3;
use brimful_mech::shell::model::{Dof, Load, Plate, Resultants, Shell};
use brimful_mech::shell::{State, System, recover};

/// Flexural rigidity E t^3 / (12 (1 - nu^2)).
pub fn rigidity(plate: &Plate) -> f64 {
    plate.modulus * plate.thickness.powi(3) / (12.0 * (1.0 - plate.poisson * plate.poisson))
}

/// Holds in-plane degrees of freedom of a flat plate in the plane of x and y, which then only bends.
pub fn bend_only(shell: &mut Shell) {
    use Dof::{TurnZ, X, Y};
    super::shell_support::constrain_where(shell, &[X, Y, TurnZ], |_: Point3| true);
}

/// A linear answer, ready to be read.
pub struct Answer<'a> {
    shell: &'a Shell,
    pub state: State,
    smooth: recover::Smooth,
}

impl<'a> Answer<'a> {
    /// The answer to one load, displacements small.
    pub fn linear(shell: &'a Shell, load: &Load) -> Self {
        let system = System::new(shell).expect("the shell can be numbered");
        Self::of(shell, &system, load, solve(shell, load))
    }

    /// Any answer.
    pub fn of(shell: &'a Shell, system: &System, load: &Load, state: State) -> Self {
        let raw = recover::resultants(shell, system, load, &state).expect("the state fits");
        let smooth = recover::smooth(shell, system, &raw, &Default::default());
        Self {
            shell,
            state,
            smooth,
        }
    }

    /// Displacement or turn of a node.
    pub fn moved(&self, node: usize, dof: usize) -> f64 {
        self.state.displacements[node][dof]
    }

    /// Smooth resultants of a plate at a node.
    pub fn at(&self, plate: usize, node: usize) -> Resultants {
        let places = self.shell.triangles.iter().zip(&self.smooth.corners);
        let own = places.filter(|(t, _)| t.plate == plate);
        own.flat_map(|(t, corners)| t.nodes.into_iter().zip(corners))
            .find(|(n, _)| *n == node)
            .map(|(_, r)| *r)
            .unwrap_or_else(|| panic!("node {node} is not on plate {plate}"))
    }

    /// Force or moment of the constraints of one degree of freedom of a node.
    pub fn held(&self, node: usize, dof: Dof) -> f64 {
        let constraints = self
            .shell
            .constraints
            .iter()
            .zip(&self.state.constraint_forces);
        constraints
            .filter(|(h, _)| h.node == node && h.dof == dof)
            .map(|(_, f)| f)
            .sum()
    }
}

/// Place and value of the largest of values at even steps over a length, by the parabola through
/// the largest and its neighbours.
pub fn largest(values: &[f64]) -> (f64, f64) {
    let pieces = values.len() - 1;
    let top = (0..=pieces)
        .max_by(|a, b| values[*a].total_cmp(&values[*b]))
        .unwrap_or(0);
    if top == 0 || top == pieces {
        return (top as f64 / pieces as f64, values[top]);
    }
    let (before, at, after) = (values[top - 1], values[top], values[top + 1]);
    let (slope, bend) = (0.5 * (after - before), after - 2.0 * at + before);
    let shift = -slope / bend;
    (
        (top as f64 + shift) / pieces as f64,
        at + 0.5 * slope * shift,
    )
}
