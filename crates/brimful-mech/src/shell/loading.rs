//! What acts on a shell, brought to its nodes.

use super::corotation::to_world;
use super::element::{Section, lumped_mass, pressure_forces};
use super::factor::scatter;
use super::fault::Fault;
use super::model::{Load, Shell};
use super::system::{DOFS, System};

/// Forces that keep their direction: those on nodes, and those on the mass.
///
/// # Errors
/// [`Fault::Input`] for a load that does not fit the shell, [`Fault::LoadOnNothing`].
pub(crate) fn fixed_forces(
    shell: &Shell,
    system: &System,
    load: &Load,
) -> Result<Vec<[f64; 6]>, Fault> {
    check(shell, load)?;
    let mut out = vec![[0.0; 6]; shell.nodes.len()];
    for (node, force) in &load.forces {
        for dof in 0..6 {
            if force[dof] != 0.0 && !system.attached[*node][dof] {
                return Err(Fault::LoadOnNothing {
                    node: *node,
                    dof: DOFS[dof],
                });
            }
            out[*node][dof] += force[dof];
        }
    }
    let acceleration = load.body_acceleration.to_array();
    if acceleration != [0.0; 3] {
        for (node, (mass, _)) in masses(shell, system).into_iter().enumerate() {
            for (o, g) in out[node].iter_mut().zip(acceleration) {
                *o += mass * g;
            }
        }
    }
    Ok(out)
}

/// Adds the forces of the pressure on the shell before it moves.
pub(crate) fn add_pressure(shell: &Shell, system: &System, load: &Load, out: &mut [[f64; 6]]) {
    for ((triangle, plane), pressure) in shell
        .triangles
        .iter()
        .zip(&system.planes)
        .zip(&load.pressures)
    {
        if *pressure != [0.0; 3] {
            let forces = to_world(&plane.axes, &pressure_forces(&plane.flat, pressure));
            scatter(&triangle.nodes, &forces, out);
        }
    }
}

/// Mass (kg) and inertia against turning (kg m2) of each node.
pub(crate) fn masses(shell: &Shell, system: &System) -> Vec<(f64, f64)> {
    let mut out = vec![(0.0, 0.0); shell.nodes.len()];
    for (number, triangle) in shell.triangles.iter().enumerate() {
        let section = Section::of(&shell.plates[triangle.plate]);
        let (mass, inertia) = lumped_mass(&system.flat(number), &section);
        for node in triangle.nodes {
            out[node].0 += mass;
            out[node].1 += inertia;
        }
    }
    for bar in &shell.bars {
        let [a, b] = bar.nodes.map(|n| shell.nodes[n]);
        for node in bar.nodes {
            out[node].0 += 0.5 * bar.density * bar.area * a.distance(b);
        }
    }
    out
}

fn check(shell: &Shell, load: &Load) -> Result<(), Fault> {
    let fault = |what: &str| {
        Err(Fault::Input {
            what: what.to_owned(),
        })
    };
    let fits = |count: usize| count == 0 || count == shell.triangles.len();
    if !fits(load.pressures.len()) || !fits(load.initial_strains.len()) {
        return fault("A load has pressures or initial strains for another number of triangles.");
    }
    if load
        .forces
        .iter()
        .any(|(node, _)| *node >= shell.nodes.len())
    {
        return fault("A load names a node that is not there.");
    }
    let numbers = load
        .pressures
        .iter()
        .flatten()
        .chain(load.forces.iter().flat_map(|(_, f)| f))
        .chain(
            load.initial_strains
                .iter()
                .flat_map(|f| f.stretch.iter().chain(&f.curvature)),
        );
    if numbers
        .chain(&load.body_acceleration.to_array())
        .any(|value| !value.is_finite())
    {
        return fault("A load has a value that is not a number.");
    }
    Ok(())
}
