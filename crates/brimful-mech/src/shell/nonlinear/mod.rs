//! Large displacements: equilibrium found by load steps and Newton's method.
//!
//! The whole load is tried at once; a step that does not converge, or ends unstable, is halved.
//! Pressure turns with the triangles and keeps to its material points. Each iteration factors the
//! whole tangent and then looks along its answer for where the work of the residual
//! vanishes; close to the end one factor serves for the last corrections and for the verdict on
//! stability.

mod motion;
mod nested;
mod newton;
mod path;
mod steps;

pub(crate) use motion::Motion;
pub use nested::carried_over;
pub use path::Prior;
pub(crate) use path::moved;
pub use steps::{Report, Step, Steps};

use super::factor::Workspace;
use super::fault::Fault;
use super::linear::supported;
use super::model::{Load, Shell};
use super::state::State;
use super::system::System;
use newton::{End, Newton, Outcome};
use path::Path;

/// The equilibrium of `shell` under `load`, displacements and rotations of any size.
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
    let mut newton = Newton {
        shell,
        system,
        path: &path,
        steps,
        work: workspace,
    };
    let start = Motion::of(shell, prior.map(|p| p.state));
    let (end, report) = newton.by_steps(start)?;
    Ok((path.finish(shell, end), report))
}

/// As [`solve`], looked for at first near a `guess` (see [`carried_over`]), the whole load on.
///
/// Where that does not settle, or the shell is held at places that change, it is as if there were
/// no guess.
///
/// # Errors
/// Those of [`solve`].
pub fn solve_near(
    shell: &Shell,
    system: &System,
    workspace: &mut Workspace,
    load: &Load,
    prior: Option<&Prior>,
    guess: &State,
    steps: &Steps,
) -> Result<(State, Report), Fault> {
    let path = Path::new(shell, system, load, prior)?;
    let fits = guess.displacements.len() == shell.nodes.len();
    if fits && path.constraints[0] == path.constraints[1] {
        let mut newton = Newton {
            shell,
            system,
            path: &path,
            steps,
            work: workspace,
        };
        if let Some((end, report)) = newton.at_once(Motion::of(shell, Some(guess))) {
            return Ok((path.finish(shell, end), report));
        }
    }
    solve(shell, system, workspace, load, prior, steps)
}

impl Newton<'_> {
    /// The whole load from wherever `motion` is; none where that does not settle.
    fn at_once(&mut self, motion: Motion) -> Option<(End, Report)> {
        let before = self.work.factorizations;
        let Ok(Outcome::Stable { iterations, end }) = self.step(motion, 1.0, 1.0) else {
            return None;
        };
        let step = Step {
            load_factor: 1.0,
            iterations,
            residual: end.residual,
        };
        let report = Report {
            steps: vec![step],
            cuts: 0,
            factorizations: self.work.factorizations - before,
        };
        Some((*end, report))
    }

    /// From zero to the whole load in steps that are halved where they fail.
    fn by_steps(&mut self, mut motion: Motion) -> Result<(End, Report), Fault> {
        let before = self.work.factorizations;
        let mut report = Report::default();
        let (least, most) = (self.steps.least, self.steps.iterations);
        let (mut reached, mut step) = (0.0, self.steps.first.clamp(least, 1.0));
        loop {
            let tried = if reached + step > 1.0 - 1e-9 {
                1.0
            } else {
                reached + step
            };
            match self.step(motion.clone(), reached, tried)? {
                Outcome::Stable { iterations, end } => {
                    report.steps.push(Step {
                        load_factor: tried,
                        iterations,
                        residual: end.residual,
                    });
                    if tried >= 1.0 {
                        report.factorizations = self.work.factorizations - before;
                        return Ok((*end, report));
                    }
                    motion = end.motion;
                    reached = tried;
                    step = if iterations <= most / 2 {
                        2.0 * step
                    } else {
                        step
                    };
                }
                Outcome::Failed(fault) if 0.5 * step < least => return Err(fault),
                Outcome::Failed(_) => {
                    report.cuts += 1;
                    step *= 0.5;
                }
            }
        }
    }
}

impl Path {
    /// The state at the end of the way.
    fn finish(self, shell: &Shell, end: End) -> State {
        let End {
            motion, balance, ..
        } = end;
        let mut state = supported(
            shell,
            motion.displacements(),
            balance.unsupported,
            balance.energy,
        );
        state.rotations = motion.rotations;
        state.initial_stress = self.initial_stress;
        state
    }
}
