//! A triangle where a state has moved it, and the forces in it.

use crate::shell::corotation::to_world;
use crate::shell::element::{Column, pressure_forces};
use crate::shell::fault::Fault;
use crate::shell::linear::{deformed, element};
use crate::shell::model::{Load, Shell};
use crate::shell::nonlinear::{Motion, moved};
use crate::shell::small::{Matrix, Row};
use crate::shell::state::State;
use crate::shell::system::System;

/// One triangle in its current place: where its corners are, its axes, and what it puts on its nodes by
/// its resistance and the pressure on it, in the world's axes.
pub(super) struct CurrentTriangle {
    pub places: [Row; 3],
    pub axes: Matrix,
    pub on_nodes: Column,
}

/// That of one triangle under a load.
pub(super) fn current(
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

/// Refuses a state or load of another shell.
pub(super) fn check(shell: &Shell, load: &Load, state: &State) -> Result<(), Fault> {
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
