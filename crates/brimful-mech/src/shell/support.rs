//! Bars, springs and contacts: what acts on single nodes and pairs.

use super::factor::Workspace;
use super::model::{Bar, Contact, Shell};
use super::small::{Row, add, dot, length, row, scale, sub};
use super::system::System;

/// Force in a bar and the way it points after its ends have moved.
pub(crate) struct AxialForce {
    /// Tension, N.
    pub tension: f64,
    /// Unit vector from the first end to the second.
    pub along: Row,
    /// Length before and after, m.
    pub lengths: (f64, f64),
}

/// Tension of a bar whose ends are displaced: along its first direction when small, along where
/// it points when large.
pub(crate) fn axial_force(shell: &Shell, bar: &Bar, moved: [Row; 2], large: bool) -> AxialForce {
    let [a, b] = bar.nodes.map(|n| shell.nodes[n].to_array());
    let first = sub(b, a);
    let before = length(first);
    let change = sub(moved[1], moved[0]);
    let (along, after) = if large {
        let now = add(first, change);
        (scale(now, 1.0 / length(now)), length(now))
    } else {
        let along = scale(first, 1.0 / before);
        (along, before + dot(along, change))
    };
    AxialForce {
        tension: bar.modulus * bar.area * (after - before) / before,
        along,
        lengths: (before, after),
    }
}

/// Adds a bar's stiffness; with `large` also what its tension does when it turns.
pub(crate) fn add_bar(
    workspace: &mut Workspace,
    system: &System,
    number: usize,
    bar: &Bar,
    axial_force: &AxialForce,
    large: bool,
) {
    let axial = bar.modulus * bar.area / axial_force.lengths.0;
    let turning = if large {
        axial_force.tension / axial_force.lengths.1
    } else {
        0.0
    };
    let block = |r: usize, c: usize| {
        if r > 2 || c > 2 {
            return 0.0;
        }
        let unit = if r == c { turning } else { 0.0 };
        (axial - turning) * axial_force.along[r] * axial_force.along[c] + unit
    };
    for node in bar.nodes {
        workspace.add_block(system, [node; 2], 0, block);
    }
    workspace.add_block(system, bar.nodes, system.bar_offsets[number], |r, c| {
        -block(r, c)
    });
}

/// Adds a stiffness along one direction at one node.
pub(crate) fn add_direction(
    workspace: &mut Workspace,
    system: &System,
    node: usize,
    direction: Row,
    stiffness: f64,
) {
    workspace.add_block(system, [node; 2], 0, |r, c| {
        if r > 2 || c > 2 {
            0.0
        } else {
            stiffness * direction[r] * direction[c]
        }
    });
}

/// Adds all springs.
pub(crate) fn add_springs(workspace: &mut Workspace, system: &System, shell: &Shell) {
    for spring in &shell.springs {
        add_direction(
            workspace,
            system,
            spring.node,
            row(spring.direction),
            spring.stiffness,
        );
    }
}

/// How far a contact is pressed in, m; negative while it is open.
pub(crate) fn pressed(contact: &Contact, displacement: Row) -> f64 {
    -dot(row(contact.push), displacement) - contact.gap
}

/// The displacement of a node.
pub(crate) fn displacement(displacements: &[[f64; 6]], node: usize) -> Row {
    let d = displacements[node];
    [d[0], d[1], d[2]]
}
