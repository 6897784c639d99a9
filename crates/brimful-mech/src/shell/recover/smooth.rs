//! Averages at nodes, within a plate, and the error that they show.

use crate::shell::element::Section;
use crate::shell::model::{Resultants, Shell};
use crate::shell::system::System;
use std::collections::{BTreeMap, BTreeSet};

/// Resultants that are continuous within each part of a plate.
#[derive(Clone, Debug, PartialEq)]
pub struct Smooth {
    /// At the corners of each triangle, in the axes of its plate.
    pub corners: Vec<[Resultants; 3]>,
    /// How far the triangles' own resultants are from these.
    pub error: ErrorEstimate,
}

/// Distance between smooth and raw resultants in energy (Zienkiewicz and Zhu, *A simple error
/// estimator and adaptive procedure for practical engineering analysis*, Int. J. Numer. Meth.
/// Engng 24 (1987) 337-357).
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ErrorEstimate {
    /// Of each triangle, square root of joules.
    pub triangles: Vec<f64>,
    /// Of the whole, square root of joules.
    pub whole: f64,
    /// Of the whole as a share of the energy norm of the smooth resultants.
    pub share: f64,
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
    let error = estimate(shell, system, raw, &corners);
    Smooth { corners, error }
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

fn estimate(
    shell: &Shell,
    system: &System,
    raw: &[[Resultants; 3]],
    smooth: &[[Resultants; 3]],
) -> ErrorEstimate {
    let mut out = ErrorEstimate::default();
    let (mut error, mut whole) = (0.0, 0.0);
    for (number, (raw, smooth)) in raw.iter().zip(smooth).enumerate() {
        let section = Section::of(&shell.plates[shell.triangles[number].plate]);
        let area = system.flat(number).area;
        let difference: [Resultants; 3] = std::array::from_fn(|i| Resultants {
            force: std::array::from_fn(|k| raw[i].force[k] - smooth[i].force[k]),
            moment: std::array::from_fn(|k| raw[i].moment[k] - smooth[i].moment[k]),
        });
        let own = energy(&section, area, &difference);
        out.triangles.push(own.sqrt());
        error += own;
        whole += energy(&section, area, smooth);
    }
    out.whole = error.sqrt();
    out.share = if whole > 0.0 {
        (error / whole).sqrt()
    } else {
        0.0
    };
    out
}

/// Energy of resultants that vary linearly over a triangle, J.
fn energy(section: &Section, area: f64, corners: &[Resultants; 3]) -> f64 {
    let compliance = |law: f64, a: &[f64; 3], b: &[f64; 3]| {
        // Inverse of the plane-stress law: law is its first entry.
        let nu = section.poisson;
        let modulus = law * (1.0 - nu * nu);
        (a[0] * b[0] + a[1] * b[1] - nu * (a[0] * b[1] + a[1] * b[0])
            + 2.0 * (1.0 + nu) * a[2] * b[2])
            / modulus
    };
    let (stretch, bend) = (section.stretching[0][0], section.bending[0][0]);
    let mut sum = 0.0;
    for i in 0..3 {
        for j in 0..3 {
            let weight = if i == j { 2.0 } else { 1.0 };
            sum += weight
                * (compliance(stretch, &corners[i].force, &corners[j].force)
                    + compliance(bend, &corners[i].moment, &corners[j].moment));
        }
    }
    0.5 * sum.max(0.0) * area / 12.0
}
