//! Averages at nodes, within a plate.

use crate::shell::model::{Resultants, Shell};
use crate::shell::system::System;
use std::collections::{BTreeMap, BTreeSet};

/// Resultants that are continuous within each part of a plate.
#[derive(Clone, Debug, PartialEq)]
pub struct Smooth {
    /// At the corners of each triangle, in the axes of its plate.
    pub corners: Vec<[Resultants; 3]>,
}

/// Averages the triangles' own resultants at each node, weighted by area.
///
/// Only triangles of one plate are averaged, and only those that can be reached round the node
/// from one to the next without crossing a side listed in `breaks` (pairs of nodes in any order),
/// or a side where three triangles or more meet.
pub fn smooth(
    shell: &Shell,
    system: &System,
    raw: &[[Resultants; 3]],
    breaks: &BTreeSet<[usize; 2]>,
) -> Smooth {
    let parts = parts(shell, breaks);
    let count = parts.iter().flatten().map(|p| p + 1).max().unwrap_or(0);
    let mut sums = vec![(0.0, Resultants::default()); count];
    for (number, corners) in raw.iter().enumerate() {
        let area = system.flat(number).area;
        for (part, own) in parts[number].iter().zip(corners) {
            let (weight, sum) = &mut sums[*part];
            *weight += area;
            for k in 0..3 {
                sum.force[k] += area * own.force[k];
                sum.moment[k] += area * own.moment[k];
            }
        }
    }
    let corners: Vec<[Resultants; 3]> = parts
        .iter()
        .map(|three| {
            three.map(|part| {
                let (weight, sum) = sums[part];
                Resultants {
                    force: sum.force.map(|f| f / weight),
                    moment: sum.moment.map(|m| m / weight),
                }
            })
        })
        .collect();
    Smooth { corners }
}

/// For each corner of each triangle the number of the patch whose corners it is averaged with.
fn parts(shell: &Shell, breaks: &BTreeSet<[usize; 2]>) -> Vec<[usize; 3]> {
    let mut sides: BTreeMap<[usize; 2], Vec<usize>> = BTreeMap::new();
    for (number, t) in shell.triangles.iter().enumerate() {
        for i in 0..3 {
            sides
                .entry(ordered(t.nodes[i], t.nodes[(i + 1) % 3]))
                .or_default()
                .push(number);
        }
    }
    let mut patches = Patches((0..3 * shell.triangles.len()).collect());
    for (side, triangles) in &sides {
        let [a, b] = match triangles.as_slice() {
            [a, b] if !breaks.contains(side) => [*a, *b],
            _ => continue,
        };
        if shell.triangles[a].plate != shell.triangles[b].plate {
            continue;
        }
        for node in side {
            if let (Some(i), Some(j)) = (corner(shell, a, *node), corner(shell, b, *node)) {
                patches.join(3 * a + i, 3 * b + j);
            }
        }
    }
    (0..shell.triangles.len())
        .map(|number| std::array::from_fn(|i| patches.find(3 * number + i)))
        .collect()
}

/// Sets of corners, each named by its least member.
struct Patches(Vec<usize>);

impl Patches {
    fn find(&mut self, mut member: usize) -> usize {
        while self.0[member] != member {
            self.0[member] = self.0[self.0[member]];
            member = self.0[member];
        }
        member
    }

    fn join(&mut self, a: usize, b: usize) {
        let (a, b) = (self.find(a), self.find(b));
        self.0[a.max(b)] = a.min(b);
    }
}

fn corner(shell: &Shell, triangle: usize, node: usize) -> Option<usize> {
    shell.triangles[triangle]
        .nodes
        .iter()
        .position(|n| *n == node)
}

fn ordered(a: usize, b: usize) -> [usize; 2] {
    [a.min(b), a.max(b)]
}
