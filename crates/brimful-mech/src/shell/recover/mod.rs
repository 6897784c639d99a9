//! What a plate bears: forces and moments per metre, made smooth, and what crosses a line.

mod line;
mod smooth;

pub use line::{LineForce, line_forces};
pub use smooth::{Smooth, smooth};

use super::corotation::to_world;
use super::element::Column;
use super::element::pressure_forces;
use super::fault::Fault;
use super::linear::{deformed, element};
use super::model::{Load, Resultants, Shell};
use super::nonlinear::{Motion, moved};
use super::small::{Matrix, Row};
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

/// One triangle in its current place: where its corners are, its axes, and what it puts on its nodes by
/// its resistance and the pressure on it, in the world's axes.
pub(crate) struct CurrentTriangle {
    pub places: [Row; 3],
    pub axes: Matrix,
    pub on_nodes: Column,
}

/// That of one triangle under a load.
pub(crate) fn current(
    shell: &Shell,
    system: &System,
    load: &Load,
    state: &State,
    motion: Option<&Motion>,
    number: usize,
) -> CurrentTriangle {
    let element = element(shell, system, number);
    let large = motion.map(|motion| moved(shell, system, number, motion));
    let (deformation, axes, flat) = match &large {
        Some(moved) => (moved.deformation, moved.axes, moved.flat),
        None => {
            let deformation = deformed(shell, system, number, &state.displacements);
            (deformation, system.planes[number].axes, system.flat(number))
        }
    };
    let mut forces = element.forces(&deformation);
    let free = load
        .initial_strains
        .get(number)
        .map(|f| element.initial_strain_forces(f));
    for initial in free
        .iter()
        .chain(state.initial_stress.get(number).map(|k| &k.forces))
    {
        for (f, i) in forces.iter_mut().zip(initial) {
            *f -= i;
        }
    }
    if let Some(moved) = &large {
        forces = moved.balanced(&forces);
    }
    let pressed = load
        .pressures
        .get(number)
        .map_or([0.0; 18], |p| pressure_forces(&flat, p));
    let on_nodes: Column = std::array::from_fn(|i| pressed[i] - forces[i]);
    let places = shell.triangles[number].nodes.map(|n| {
        let (place, d) = (shell.nodes[n], state.displacements[n]);
        let shift = if motion.is_some() {
            [d[0], d[1], d[2]]
        } else {
            [0.0; 3]
        };
        [place.x + shift[0], place.y + shift[1], place.z + shift[2]]
    });
    CurrentTriangle {
        places,
        axes,
        on_nodes: to_world(&axes, &on_nodes),
    }
}

fn check(shell: &Shell, load: &Load, state: &State) -> Result<(), Fault> {
    let fits = |count: usize| count == 0 || count == shell.triangles.len();
    if state.displacements.len() == shell.nodes.len()
        && fits(load.pressures.len())
        && fits(load.initial_strains.len())
        && fits(state.initial_stress.len())
    {
        Ok(())
    } else {
        Err(Fault::Input {
            what: "A state or load belongs to another shell.".into(),
        })
    }
}
