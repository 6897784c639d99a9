//! Small displacements: one factor for many loads.

use super::corotation::{from_world, square_to_world, to_world};
use super::element::{Column, Element, Section};
use super::factor::{Workspace, scatter};
use super::fault::Fault;
use super::loading::{add_pressure, fixed_forces};
use super::model::{Load, Shell};
use super::small::{dot, row, scale};
use super::state::State;
use super::support::{add_bar, add_direction, add_springs, axial_force, displacement, pressed};
use super::system::{NONE, System};
use std::collections::BTreeSet;

/// The equilibrium of `shell` under each of `loads`, displacements taken as small.
///
/// Contacts are found by their active set, each load for itself; loads whose contacts agree share
/// a factor. With no contacts all loads are solved at once.
///
/// # Errors
/// [`Fault::Mechanism`], [`Fault::Chatter`], [`Fault::LoadOnNothing`], [`Fault::Input`].
pub fn solve(
    shell: &Shell,
    system: &System,
    workspace: &mut Workspace,
    loads: &[Load],
) -> Result<Vec<State>, Fault> {
    let problems = loads
        .iter()
        .map(|load| Problem::new(shell, system, load))
        .collect::<Result<Vec<_>, _>>()?;
    assemble(shell, system, workspace);
    if shell.contacts.is_empty() {
        workspace.factorize(system)?;
        let columns = problems.iter().map(|p| p.right_side(shell, system, &[]));
        let mut columns: Vec<f64> = columns.flatten().collect();
        workspace.solve(system, &mut columns)?;
        let count = system.unknowns();
        return Ok(problems
            .into_iter()
            .enumerate()
            .map(|(i, p)| p.state(shell, system, &columns[i * count..(i + 1) * count]))
            .collect());
    }
    with_contacts(shell, system, workspace, problems)
}

/// Puts the stiffness of the unmoved shell, contacts apart, into the workspace.
pub(crate) fn assemble(shell: &Shell, system: &System, workspace: &mut Workspace) {
    workspace.clear();
    for (number, triangle) in shell.triangles.iter().enumerate() {
        let plane = &system.planes[number];
        let stiffness = element(shell, system, number).stiffness();
        let stiffness = square_to_world(&plane.axes, &stiffness.square());
        workspace.add_triangle(system, number, triangle.nodes, &stiffness);
    }
    for (number, bar) in shell.bars.iter().enumerate() {
        let still = axial_force(shell, bar, [[0.0; 3]; 2], false);
        add_bar(workspace, system, number, bar, &still, false);
    }
    add_springs(workspace, system, shell);
}

fn with_contacts(
    shell: &Shell,
    system: &System,
    workspace: &mut Workspace,
    problems: Vec<Problem>,
) -> Result<Vec<State>, Fault> {
    let without = workspace.values.clone();
    let mut active = vec![true; shell.contacts.len()];
    let mut factored: Option<Vec<bool>> = None;
    let mut states = Vec::new();
    for problem in problems {
        let mut seen = BTreeSet::new();
        loop {
            if factored.as_ref() != Some(&active) {
                workspace.values.copy_from_slice(&without);
                for (contact, _) in shell.contacts.iter().zip(&active).filter(|(_, on)| **on) {
                    add_direction(
                        workspace,
                        system,
                        contact.node,
                        row(contact.push),
                        contact.stiffness,
                    );
                }
                workspace.factorize(system)?;
                factored = Some(active.clone());
            }
            let mut column = problem.right_side(shell, system, &active);
            workspace.solve(system, &mut column)?;
            let moved = problem.displacements(shell, system, &column);
            let closed: Vec<bool> = shell
                .contacts
                .iter()
                .map(|c| pressed(c, displacement(&moved, c.node)) > 0.0)
                .collect();
            if closed == active {
                states.push(problem.state(shell, system, &column));
                break;
            }
            let changed = closed
                .iter()
                .zip(&active)
                .position(|(a, b)| a != b)
                .unwrap_or(0);
            if !seen.insert(closed.clone()) {
                return Err(Fault::Chatter {
                    tried: 1.0,
                    contact: changed,
                });
            }
            active = closed;
        }
    }
    Ok(states)
}

/// One load on the unmoved shell.
struct Problem<'a> {
    load: &'a Load,
    /// Everything that acts on the nodes from outside.
    external: Vec<[f64; 6]>,
    /// Displacements with those of the constraints alone.
    held: Vec<[f64; 6]>,
}

impl<'a> Problem<'a> {
    fn new(shell: &Shell, system: &System, load: &'a Load) -> Result<Self, Fault> {
        let mut external = fixed_forces(shell, system, load)?;
        add_pressure(shell, system, load, &mut external);
        let mut held = vec![[0.0; 6]; shell.nodes.len()];
        for constraint in &shell.constraints {
            held[constraint.node][constraint.dof as usize] = constraint.value;
        }
        Ok(Self {
            load,
            external,
            held,
        })
    }

    /// What acts on the unknowns when all of them are zero.
    fn right_side(&self, shell: &Shell, system: &System, active: &[bool]) -> Vec<f64> {
        let (internal, _) = internal_forces(shell, system, self.load, &self.held);
        let mut force = self.external.clone();
        for (f, i) in force.iter_mut().zip(&internal) {
            for (a, b) in f.iter_mut().zip(i) {
                *a -= b;
            }
        }
        for spring in &shell.springs {
            let stretched = dot(row(spring.direction), displacement(&self.held, spring.node));
            add_force(
                &mut force[spring.node],
                scale(row(spring.direction), -spring.stiffness * stretched),
            );
        }
        for (contact, _) in shell.contacts.iter().zip(active).filter(|(_, on)| **on) {
            let depth = pressed(contact, displacement(&self.held, contact.node));
            add_force(
                &mut force[contact.node],
                scale(row(contact.push), contact.stiffness * depth),
            );
        }
        system
            .owners
            .iter()
            .map(|&(node, dof)| force[node as usize][dof as usize])
            .collect()
    }

    fn displacements(&self, shell: &Shell, system: &System, column: &[f64]) -> Vec<[f64; 6]> {
        let mut out = self.held.clone();
        for (node, equations) in system.equations.iter().enumerate().take(shell.nodes.len()) {
            for (dof, &equation) in equations.iter().enumerate().filter(|(_, q)| **q != NONE) {
                out[node][dof] = column[equation as usize];
            }
        }
        out
    }

    fn state(&self, shell: &Shell, system: &System, column: &[f64]) -> State {
        let displacements = self.displacements(shell, system, column);
        let (internal, energy) = internal_forces(shell, system, self.load, &displacements);
        let rest = internal
            .iter()
            .zip(&self.external)
            .map(|(i, e)| std::array::from_fn(|k| i[k] - e[k]));
        supported(shell, displacements, rest.collect(), energy)
    }
}

/// The state with the forces of its supports: `needed` is what they have to put on each node.
pub(crate) fn supported(
    shell: &Shell,
    displacements: Vec<[f64; 6]>,
    mut needed: Vec<[f64; 6]>,
    energy: f64,
) -> State {
    let spring_forces: Vec<f64> = shell
        .springs
        .iter()
        .map(|s| -s.stiffness * dot(row(s.direction), displacement(&displacements, s.node)))
        .collect();
    for (spring, force) in shell.springs.iter().zip(&spring_forces) {
        add_force(
            &mut needed[spring.node],
            scale(row(spring.direction), -force),
        );
    }
    let contact_forces: Vec<f64> = shell
        .contacts
        .iter()
        .map(|c| c.stiffness * pressed(c, displacement(&displacements, c.node)).max(0.0))
        .collect();
    for (contact, force) in shell.contacts.iter().zip(&contact_forces) {
        add_force(&mut needed[contact.node], scale(row(contact.push), -force));
    }
    let mut constraint_forces = vec![0.0; shell.constraints.len()];
    for (force, constraint) in constraint_forces.iter_mut().zip(&shell.constraints).rev() {
        *force = std::mem::take(&mut needed[constraint.node][constraint.dof as usize]);
    }
    State {
        displacements,
        constraint_forces,
        spring_forces,
        contact_forces,
        energy,
        ..State::default()
    }
}

/// Forces that the nodes put on triangles and bars, and the energy in these.
fn internal_forces(
    shell: &Shell,
    system: &System,
    load: &Load,
    displacements: &[[f64; 6]],
) -> (Vec<[f64; 6]>, f64) {
    let mut out = vec![[0.0; 6]; shell.nodes.len()];
    let mut energy = 0.0;
    for (number, triangle) in shell.triangles.iter().enumerate() {
        let element = element(shell, system, number);
        let deformation = deformed(shell, system, number, displacements);
        let mut forces = element.forces(&deformation);
        energy += 0.5 * inner(&forces, &deformation);
        if let Some(free) = load.initial_strains.get(number) {
            let free = element.initial_strain_forces(free);
            energy -= inner(&free, &deformation);
            for (f, e) in forces.iter_mut().zip(free) {
                *f -= e;
            }
        }
        scatter(
            &triangle.nodes,
            &to_world(&system.planes[number].axes, &forces),
            &mut out,
        );
    }
    for bar in &shell.bars {
        let axial_force = axial_force(
            shell,
            bar,
            bar.nodes.map(|n| displacement(displacements, n)),
            false,
        );
        energy += 0.5 * axial_force.tension * (axial_force.lengths.1 - axial_force.lengths.0);
        add_force(
            &mut out[bar.nodes[0]],
            scale(axial_force.along, -axial_force.tension),
        );
        add_force(
            &mut out[bar.nodes[1]],
            scale(axial_force.along, axial_force.tension),
        );
    }
    (out, energy)
}

/// The degrees of freedom of a triangle's corners along its axes.
pub(crate) fn deformed(
    shell: &Shell,
    system: &System,
    number: usize,
    displacements: &[[f64; 6]],
) -> Column {
    let mut column = [0.0; 18];
    for (corner, &node) in shell.triangles[number].nodes.iter().enumerate() {
        column[6 * corner..6 * corner + 6].copy_from_slice(&displacements[node]);
    }
    from_world(&system.planes[number].axes, &column)
}

/// A triangle of the shell as it was before any motion.
pub(crate) fn element(shell: &Shell, system: &System, number: usize) -> Element {
    let plate = &shell.plates[shell.triangles[number].plate];
    let section = match plate.twist < 1.0 {
        true => {
            let [first, second, _] = system.planes[number].axes;
            let axis = row(plate.axis);
            Section::of(plate).twisted(plate.twist, dot(axis, first), dot(axis, second))
        }
        false => Section::of(plate),
    };
    Element::new(system.flat(number), section)
}

/// Work of forces on degrees of freedom.
pub(crate) fn inner(a: &Column, b: &Column) -> f64 {
    a.iter().zip(b).map(|(x, y)| x * y).sum()
}

/// Adds a force, without moment, to what acts on a node.
pub(crate) fn add_force(total: &mut [f64; 6], force: [f64; 3]) {
    for (t, f) in total.iter_mut().zip(force) {
        *t += f;
    }
}
