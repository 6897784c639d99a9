//! What the triangles on one side of a line put on it.

use super::current::{CurrentTriangle, check, current};
use super::smooth::Smooth;
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
    /// Length of line that belongs to it, m.
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
    check_line(shell, smooth, chain, triangles)?;
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
        let current = current(shell, system, load, state, motion.as_ref(), number);
        for (corner, node) in nodes.iter().enumerate() {
            if let Some(at) = distinct.iter().position(|n| n == node) {
                gathered[at].add(&current, corner, &smooth.corners[number][corner]);
            }
        }
    }
    let place = |&node: &usize| {
        let place = shell.nodes[node].to_array();
        let shift = motion.as_ref().map(|motion| motion.shifts[node]);
        shift.map_or(place, |shift| add(place, shift))
    };
    let places: Vec<Row> = distinct.iter().map(place).collect();
    Ok((0..distinct.len())
        .map(|at| {
            let pieces = pieces(&places, at, closed);
            let tributary = 0.5 * pieces.iter().flatten().map(|p| length(*p)).sum::<f64>();
            let along = pieces
                .iter()
                .flatten()
                .fold([0.0; 3], |sum, p| add(sum, *p));
            gathered[at].per_metre(distinct[at], tributary, along)
        })
        .collect())
}

fn check_line(
    shell: &Shell,
    smooth: &Smooth,
    chain: &[usize],
    triangles: &[usize],
) -> Result<(), Fault> {
    let what = if chain.len() < 2 || chain.iter().any(|n| *n >= shell.nodes.len()) {
        "A line needs two nodes of the shell or more."
    } else if smooth.corners.len() != shell.triangles.len() {
        "The smooth resultants belong to another shell."
    } else if triangles.iter().any(|t| *t >= shell.triangles.len()) {
        "A line's side names a triangle that is not there."
    } else {
        return Ok(());
    };
    Err(Fault::Input {
        what: what.to_owned(),
    })
}

/// The pieces of a line before and after one of its nodes.
fn pieces(places: &[Row], at: usize, closed: bool) -> [Option<Row>; 2] {
    let count = places.len();
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
    [
        before.map(|b| sub(places[at], places[b])),
        after.map(|a| sub(places[a], places[at])),
    ]
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
    /// Adds what a triangle puts on the node at one of its corners.
    fn add(&mut self, current: &CurrentTriangle, corner: usize, smooth: &Resultants) {
        let places = &current.places;
        let middle = places
            .iter()
            .fold([0.0; 3], |sum, p| add(sum, scale(*p, 1.0 / 3.0)));
        let six = &current.on_nodes[6 * corner..6 * corner + 6];
        self.force = add(self.force, [six[0], six[1], six[2]]);
        self.moment = add(self.moment, [six[3], six[4], six[5]]);
        self.add_smooth(&current.axes, smooth);
        self.normal = add(self.normal, current.axes[2]);
        self.outward = add(self.outward, sub(places[corner], middle));
    }

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
