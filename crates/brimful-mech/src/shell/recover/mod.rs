//! What a plate bears: forces and moments per metre, made smooth, and what crosses a line.

mod current;
mod line;
mod smooth;

pub use line::{LineForce, line_forces};
pub use smooth::{Smooth, smooth};

use current::check;

use super::fault::Fault;
use super::linear::{deformed, element};
use super::model::{Load, Resultants, Shell};
use super::nonlinear::{Motion, moved};
use super::state::State;
use super::system::System;

/// Force and moment per metre at the corners of each triangle, in the axes of its plate, as the
/// triangle alone has them. After a large motion the axes have turned with the triangle.
///
/// # Errors
/// [`Fault::Input`] for a state of another shell.
pub fn resultants(
    shell: &Shell,
    system: &System,
    load: &Load,
    state: &State,
) -> Result<Vec<[Resultants; 3]>, Fault> {
    check(shell, load, state)?;
    let motion = state.is_large().then(|| Motion::of(shell, Some(state)));
    Ok((0..shell.triangles.len())
        .map(|number| {
            let element = element(shell, system, number);
            let deformation = match &motion {
                Some(motion) => moved(shell, system, number, motion).deformation,
                None => deformed(shell, system, number, &state.displacements),
            };
            let mut out = element.resultants(&deformation);
            let free = load
                .initial_strains
                .get(number)
                .map(|f| element.initial_strain_resultants(f));
            for (corner, own) in out.iter_mut().enumerate() {
                let kept = state
                    .initial_stress
                    .get(number)
                    .map(|k| k.resultants[corner]);
                for initial in free.iter().chain(&kept) {
                    for k in 0..3 {
                        own.force[k] -= initial.force[k];
                        own.moment[k] -= initial.moment[k];
                    }
                }
            }
            out
        })
        .collect())
}
