//! What the triangles on one side of a line put on it.

use super::{Smooth, check, standing};
use crate::shell::fault::Fault;
use crate::shell::model::{Load, Resultants, Shell};
use crate::shell::nonlinear::Motion;
use crate::shell::small::{Matrix, Row, add, apply, cross, dot, length, scale, sub};
use crate::shell::state::State;
use crate::shell::system::System;

/// Force and moment per metre that a plate puts on a line at one of its nodes.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct LineForce {
    /// The node.
    pub node: usize,
    /// Length of line that is reckoned to it, m.
    pub length: f64,
    /// Along the line, in the plate square to the line and pointing to the line from the plate,
    /// along the plate's normal, N/m.
    pub force: [f64; 3],
    /// About the same three axes, N m/m. The first is the bending of the joint; it balances the
    /// plate, but what it is at one node is only true to first order in the size of the triangles.
    pub moment: [f64; 3],
    /// The smooth resultants along the first axis and across the line, true to second order:
    /// the ones to judge a joint by.
    pub smooth: Resultants,
    /// The three axes in the world.
    pub axes: [[f64; 3]; 3],
}

/// What `triangles`, those of one plate on one side, put on the line through `chain`.
///
/// Exact nodal forces: what the triangles' resistance and the pressure on them leave for the
/// line to hold, so that the sums over the line balance the plate. Each is divided by half the
/// two pieces of line next to its node. Weight and forces on nodes are not counted: they act on
/// the nodes themselves.
///
/// # Errors
/// [`Fault::Input`] for a chain of fewer than two nodes or a number that is not there.
pub fn line_forces(
    shell: &Shell,
    system: &System,
    load: &Load,
    state: &State,
    smooth: &Smooth,
    chain: &[usize],
    triangles: &[usize],
) -> Result<Vec<LineForce>, Fault> {
    check(shell, load, state)?;
    let fault = |what: &str| {
        Err(Fault::Input {
            what: what.to_owned(),
        })
    };
    if chain.len() < 2 || chain.iter().any(|n| *n >= shell.nodes.len()) {
        return fault("A line needs two nodes of the shell or more.");
    }
    if smooth.corners.len() != shell.triangles.len() {
        return fault("The smooth resultants belong to another shell.");
    }
    if triangles.iter().any(|t| *t >= shell.triangles.len()) {
        return fault("A line's side names a triangle that is not there.");
    }
    let motion = state.is_large().then(|| Motion::of(shell, Some(state)));
    let closed = chain.first() == chain.last();
    let distinct = if closed {
        &chain[..chain.len() - 1]
    } else {
        chain
    };
    let mut gathered = vec![Gathered::default(); distinct.len()];
    for &number in triangles {
        let nodes = shell.triangles[number].nodes;
        if !nodes.iter().any(|n| distinct.contains(n)) {
            continue;
        }
        let standing = standing(shell, system, load, state, motion.as_ref(), number);
        let middle = standing
            .places
            .iter()
            .fold([0.0; 3], |sum, p| add(sum, scale(*p, 1.0 / 3.0)));
        for (corner, node) in nodes.iter().enumerate() {
            let Some(at) = distinct.iter().position(|n| n == node) else {
                continue;
            };
            let own = &mut gathered[at];
            let six = &standing.on_nodes[6 * corner..6 * corner + 6];
            own.force = add(own.force, [six[0], six[1], six[2]]);
            own.moment = add(own.moment, [six[3], six[4], six[5]]);
            own.add_smooth(&standing.axes, &smooth.corners[number][corner]);
            own.normal = add(own.normal, standing.axes[2]);
            own.outward = add(own.outward, sub(standing.places[corner], middle));
        }
    }
    let place = |at: usize| {
        let node = shell.nodes[distinct[at]].to_array();
        match &motion {
            Some(motion) => add(node, motion.shifts[distinct[at]]),
            None => node,
        }
    };
    let count = distinct.len();
    Ok((0..count)
        .map(|at| {
            let before = if at > 0 {
                Some(at - 1)
            } else {
                closed.then(|| count - 1)
            };
            let after = if at + 1 < count {
                Some(at + 1)
            } else {
                closed.then_some(0)
            };
            let pieces = [
                before.map(|b| sub(place(at), place(b))),
                after.map(|a| sub(place(a), place(at))),
            ];
            let tributary = 0.5 * pieces.iter().flatten().map(|p| length(*p)).sum::<f64>();
            let along = pieces
                .iter()
                .flatten()
                .fold([0.0; 3], |sum, p| add(sum, *p));
            gathered[at].per_metre(distinct[at], tributary, along)
        })
        .collect())
}

/// Sums at one node.
#[derive(Clone, Copy, Default)]
struct Gathered {
    force: Row,
    moment: Row,
    normal: Row,
    outward: Row,
    /// Sum of the smooth forces and moments per metre as tensors in the world's axes.
    tensors: [Matrix; 2],
    count: f64,
}

impl Gathered {
    fn add_smooth(&mut self, axes: &Matrix, own: &Resultants) {
        self.count += 1.0;
        for (tensor, [xx, yy, xy]) in self.tensors.iter_mut().zip([own.force, own.moment]) {
            for (i, j, value) in [(0, 0, xx), (1, 1, yy), (0, 1, xy), (1, 0, xy)] {
                for r in 0..3 {
                    for c in 0..3 {
                        tensor[r][c] += value * axes[i][r] * axes[j][c];
                    }
                }
            }
        }
    }

    fn per_metre(&self, node: usize, tributary: f64, along: Row) -> LineForce {
        let first = scale(along, 1.0 / length(along));
        let flattened = sub(self.normal, scale(first, dot(first, self.normal)));
        if length(flattened) <= 0.0 || tributary <= 0.0 {
            // No triangle of the side touches this node: nothing is put on it.
            return LineForce {
                node,
                length: tributary,
                ..LineForce::default()
            };
        }
        let normal = scale(flattened, 1.0 / length(flattened));
        let across = cross(normal, first);
        // The second axis points to the line from the plate; the first keeps the hand.
        let sign = if dot(across, self.outward) < 0.0 {
            -1.0
        } else {
            1.0
        };
        let axes = [scale(first, sign), scale(across, sign), normal];
        let along = |tensor: &Matrix| {
            let part = |a: Row, b: Row| dot(a, apply(tensor, b)) / self.count;
            [
                part(axes[0], axes[0]),
                part(axes[1], axes[1]),
                part(axes[0], axes[1]),
            ]
        };
        LineForce {
            node,
            length: tributary,
            smooth: Resultants {
                force: along(&self.tensors[0]),
                moment: along(&self.tensors[1]),
            },
            force: axes.map(|a| dot(a, self.force) / tributary),
            moment: axes.map(|a| dot(a, self.moment) / tributary),
            axes,
        }
    }
}
