//! Where the nodes are: displacements and finite rotations.

use crate::shell::model::Shell;
use crate::shell::small::{Matrix, Row, UNIT, add, multiply, rotation, rotation_vector};
use crate::shell::state::State;
use crate::shell::system::{NONE, System};

/// Displacement and rotation of every node.
#[derive(Clone, Debug)]
pub(crate) struct Motion {
    pub shifts: Vec<Row>,
    pub rotations: Vec<Matrix>,
}

impl Motion {
    /// That of a state; none without one.
    pub fn of(shell: &Shell, state: Option<&State>) -> Self {
        let count = shell.nodes.len();
        let Some(state) = state else {
            return Self {
                shifts: vec![[0.0; 3]; count],
                rotations: vec![UNIT; count],
            };
        };
        let shifts = state
            .displacements
            .iter()
            .map(|d| [d[0], d[1], d[2]])
            .collect();
        let rotations = if state.is_large() {
            state.rotations.clone()
        } else {
            state
                .displacements
                .iter()
                .map(|d| rotation([d[3], d[4], d[5]]))
                .collect()
        };
        Self { shifts, rotations }
    }

    /// Moves the unknown degrees of freedom by `share` of `column`: shifts are added, rotations put on top.
    pub fn advance(&mut self, system: &System, column: &[f64], share: f64) {
        for (node, equations) in system.equations.iter().enumerate() {
            let mut change = [0.0; 6];
            for (c, &equation) in change.iter_mut().zip(equations) {
                if equation != NONE {
                    *c = share * column[equation as usize];
                }
            }
            self.move_node(node, change);
        }
    }

    /// Moves one node.
    pub fn move_node(&mut self, node: usize, change: [f64; 6]) {
        self.shifts[node] = add(self.shifts[node], [change[0], change[1], change[2]]);
        if change[3..] != [0.0; 3] {
            let turn = rotation([change[3], change[4], change[5]]);
            self.rotations[node] = multiply(&turn, &self.rotations[node]);
        }
    }

    /// Shift and rotation of each node.
    pub fn displacements(&self) -> Vec<[f64; 6]> {
        let nodes = self.shifts.iter().zip(&self.rotations);
        nodes
            .map(|(s, r)| {
                let t = rotation_vector(r);
                [s[0], s[1], s[2], t[0], t[1], t[2]]
            })
            .collect()
    }
}
