//! What is read off a tank's solution.

use crate::build::{Built, MERGE, point, vector};
use crate::tanks::Tank;
use brimful_geom::vector::{Point3, Vec3};
use brimful_mech::shell::model::Dof;
use brimful_mech::shell::recover::{line_forces, resultants, smooth};
use brimful_mech::shell::{State, System};
use std::collections::BTreeSet;
use std::error::Error;

/// How far along its line a moment is read, m: far enough for a few nodes of the coarsest mesh, so
/// that a curve through them does not carry the pattern of single triangles.
const REACH: f64 = 0.1 + MERGE;

/// What the tank asks to be read, in its order.
pub struct Reading {
    /// m
    pub deflections: Vec<f64>,
    /// Smoothed bending across each line at its nodes near the place: how far along, m, and N m/m.
    pub moments: Vec<Vec<[f64; 2]>>,
}

/// What the tank asks for.
pub fn read(
    tank: &Tank,
    built: &Built,
    system: &System,
    state: &State,
) -> Result<Reading, Box<dyn Error>> {
    let deflections = tank.deflections.iter().map(|deflection| {
        let place = point(deflection.place);
        let at = |n: &usize| built.shell.nodes[*n].distance(place) < MERGE;
        let node = (0..built.shell.nodes.len())
            .find(at)
            .ok_or(format!("{} is no node", deflection.name))?;
        let moved = &state.displacements[node];
        Ok(deflection
            .direction
            .iter()
            .zip(moved)
            .map(|(a, b)| a * b)
            .sum())
    });
    let deflections = deflections.collect::<Result<_, Box<dyn Error>>>()?;
    let (shell, load) = (&built.shell, &built.load);
    let smooth = smooth(
        shell,
        system,
        &resultants(shell, system, load, state)?,
        &BTreeSet::new(),
    );
    let mut moments = Vec::new();
    for moment in &tank.moments {
        let flat = built
            .names
            .iter()
            .position(|n| n == moment.flat)
            .ok_or(format!("no {}", moment.flat))?;
        let (place, across) = (point(moment.place), vector(moment.across));
        let chain =
            chain(built, flat, place, across).ok_or(format!("{} is on no line", moment.name))?;
        let triangles: Vec<usize> = (0..built.mesh.triangles.len())
            .filter(|&t| {
                built.mesh.triangles[t].flat == flat && across.dot(middle(built, t) - place) > 0.0
            })
            .collect();
        let forces = line_forces(shell, system, load, state, &smooth, &chain, &triangles)?;
        let along =
            |n: usize| (built.shell.nodes[n] - place).dot(across.cross(built.frames[flat].z));
        let values = forces.iter().map(|f| [along(f.node), f.smooth.moment[1]]);
        moments.push(values.filter(|[s, _]| s.abs() <= REACH).collect());
    }
    Ok(Reading {
        deflections,
        moments,
    })
}

/// What supports and water lack to balance, as a share of the water's push.
pub fn imbalance(built: &Built, state: &State) -> f64 {
    let (mut sum, mut all) = (Vec3::new(0.0, 0.0, 0.0), 0.0);
    for (triangle, pressures) in built.shell.triangles.iter().zip(&built.load.pressures) {
        let [a, b, c] = triangle.nodes.map(|n| built.shell.nodes[n]);
        let push = (b - a).cross(c - a) * (pressures.iter().sum::<f64>() / 6.0);
        sum += push;
        all += push.length();
    }
    for (constraint, force) in built.shell.constraints.iter().zip(&state.constraint_forces) {
        let direction = match constraint.dof {
            Dof::X => Vec3::X,
            Dof::Y => Vec3::Y,
            Dof::Z => Vec3::Z,
            _ => continue,
        };
        sum += direction * *force;
    }
    sum.length() / all
}

/// Nodes of the line of a flat that goes through a place, square to `across`.
fn chain(built: &Built, flat: usize, place: Point3, across: Vec3) -> Option<Vec<usize>> {
    let lines = built
        .mesh
        .lines
        .iter()
        .filter(|l| l.flats.iter().any(|f| f.flat == flat));
    let node = |n: usize| built.mesh.nodes[n];
    let mut through = lines.filter(|line| {
        let (first, last) = (node(line.nodes[0]), node(line.nodes[line.nodes.len() - 1]));
        let way = last - first;
        let length = way.length();
        let share = (place - first).dot(way) / (length * length);
        let off = (first + way * share).distance(place);
        off < MERGE && (0.0..=1.0).contains(&share) && way.dot(across).abs() < MERGE * length
    });
    through.next().map(|line| line.nodes.clone())
}

fn middle(built: &Built, triangle: usize) -> Point3 {
    let [a, b, c] = built.mesh.triangles[triangle]
        .nodes
        .map(|n| built.mesh.nodes[n]);
    a + ((b - a) + (c - a)) * (1.0 / 3.0)
}
