//! Load steps: how they are taken, and which were.

/// How load steps are taken.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Steps {
    /// Share of the load that is tried first.
    pub first: f64,
    /// Smallest step before giving up.
    pub least: f64,
    /// Iterations after which a step is halved.
    pub iterations: usize,
    /// Residual force, as a share of the forces at work, at which a step has converged.
    pub tolerance: f64,
}

impl Default for Steps {
    /// All at once; down to a 64th; 1e-9, so that reactions balance the load to 1e-8.
    fn default() -> Self {
        Self {
            first: 1.0,
            least: 1.0 / 64.0,
            iterations: 20,
            tolerance: 1e-9,
        }
    }
}

/// What was done to get to the answer.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Report {
    /// The load steps that converged, in order.
    pub steps: Vec<Step>,
    /// Steps that had to be halved.
    pub cuts: usize,
    /// Factorizations, those of halved steps among them.
    pub factorizations: usize,
}

/// One converged load step.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Step {
    /// Share of the load.
    pub load_factor: f64,
    /// Iterations it took.
    pub iterations: usize,
    /// Residual force as a share of the forces at work.
    pub residual: f64,
}
