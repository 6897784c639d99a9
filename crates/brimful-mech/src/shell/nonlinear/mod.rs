//! Large displacements: equilibrium found by load steps and Newton's method.
//!
//! The whole load is tried at once; a step that does not converge, or ends unstable, is halved.
//! Pressure turns with the triangles and keeps to its material points. Each iteration factors the
//! whole tangent and then looks along its answer for where the work of what is left over
//! vanishes.

mod motion;
mod path;
mod search;

pub(crate) use motion::Motion;
pub use path::Prior;
pub(crate) use path::moved;

use super::factor::Workspace;
use super::fault::Fault;
use super::linear::supported;
use super::model::{Load, Shell};
use super::state::State;
use super::system::System;
use path::Path;
use search::{Outcome, Search};

/// How load steps are taken.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Steps {
    /// Share of the load that is tried first.
    pub first: f64,
    /// Smallest step before giving up.
    pub least: f64,
    /// Iterations after which a step is halved.
    pub iterations: usize,
    /// Force left over, as a share of the forces at work, at which a step has converged.
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
    /// Force left over as a share of the forces at work.
    pub residual: f64,
}

/// The equilibrium of `shell` under `load`, displacements and turns of any size.
///
/// With a `prior` the way starts from that state and its load; what its stiffness made of the
/// deformation is kept (an event on top of creep).
///
/// # Errors
/// [`Fault::NotConverged`], [`Fault::Unstable`], [`Fault::Chatter`] where the load is not borne;
/// [`Fault::Mechanism`], [`Fault::LoadOnNothing`], [`Fault::Input`].
pub fn solve(
    shell: &Shell,
    system: &System,
    workspace: &mut Workspace,
    load: &Load,
    prior: Option<&Prior>,
    steps: &Steps,
) -> Result<(State, Report), Fault> {
    let path = Path::new(shell, system, load, prior)?;
    let mut search = Search {
        shell,
        system,
        path: &path,
        steps,
        work: workspace,
    };
    let before = search.work.factorizations;
    let mut motion = Motion::of(shell, prior.map(|p| p.state));
    let mut report = Report::default();
    let (mut reached, mut step) = (0.0, steps.first.clamp(steps.least, 1.0));
    while reached < 1.0 {
        let tried = if reached + step > 1.0 - 1e-9 {
            1.0
        } else {
            reached + step
        };
        let mut attempt = motion.clone();
        match search.step(&mut attempt, reached, tried)? {
            Outcome::Stable {
                iterations,
                residual,
            } => {
                motion = attempt;
                reached = tried;
                report.steps.push(Step {
                    load_factor: tried,
                    iterations,
                    residual,
                });
                step = if iterations <= steps.iterations / 2 {
                    2.0 * step
                } else {
                    step
                };
            }
            Outcome::Failed(fault) if 0.5 * step < steps.least => return Err(fault),
            Outcome::Failed(_) => {
                report.cuts += 1;
                step *= 0.5;
            }
        }
    }
    report.factorizations = search.work.factorizations - before;
    let balance = path.balance(shell, system, &motion, 1.0, None);
    let needed = balance.unsupported;
    let mut state = supported(shell, motion.displacements(), needed, balance.energy);
    state.rotations = motion.rotations;
    state.kept = path.kept;
    Ok((state, report))
}
