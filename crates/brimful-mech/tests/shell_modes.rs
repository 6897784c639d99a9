//! Modes of plates against published values.

#![allow(clippy::unwrap_used)] // A test's helper that fails fails the test.

mod shell_support;

use Dof::*;
use brimful_geom::vector::{Point3, Vec3};
use brimful_mech::shell::model::*;
use brimful_mech::shell::{System, Workspace, linear, modes};
use shell_support::*;
use std::f64::consts::PI;

/// Square plate, Poisson's ratio 0.3: omega a^2 sqrt(rho t / D).
fn frequencies(n: usize, constraints: [&[Dof]; 4], shift: f64, count: usize) -> Vec<f64> {
    let (t, e, density) = (0.01, 1e9, 1000.0);
    let sheet = Plate {
        density,
        ..plate(t, e, 0.3, Vec3::X)
    };
    let mut grid = Grid::new(n, n, sheet, |s, u| Point3::new(s, u, 0.0));
    for (edge, dofs) in constraints.into_iter().enumerate() {
        grid.constrain_edges(&[(edge, dofs)]);
    }
    let all: Vec<usize> = (0..grid.shell.nodes.len()).collect();
    grid.constrain(&all, &[X, Y, TurnZ]);
    let unit = e * t * t * t / 12.0 / 0.91 / (density * t);
    let system = System::new(&grid.shell).unwrap();
    let mut work = Workspace::new(&system).unwrap();
    let found = modes::vibration(&grid.shell, &system, &mut work, count, shift * unit).unwrap();
    found
        .iter()
        .map(|m| (m.value.max(0.0) / unit).sqrt())
        .collect()
}

/// Leissa, *Vibration of plates*, NASA SP-160 (1969), from memory, and an independent Ritz
/// solution; first six.
#[test]
fn square_plates_vibrate() {
    let (none, clamped): (&[Dof], &[Dof]) = (&[], &ALL);
    let (west, south): (&[Dof], &[Dof]) = (&[Z, TurnX], &[Z, TurnY]);
    type Case<'a> = ([&'a [Dof]; 4], usize, [f64; 6]);
    let cases: [Case; 4] = [
        (
            [west, west, south, south],
            0,
            [19.739, 49.348, 49.348, 78.957, 98.696, 98.696],
        ),
        (
            [clamped; 4],
            0,
            [35.985, 73.394, 73.394, 108.22, 131.58, 132.20],
        ),
        (
            [clamped, none, none, none],
            0,
            [3.4711, 8.5067, 21.285, 27.199, 30.956, 54.187],
        ),
        (
            [none; 4],
            3,
            [13.468, 19.596, 24.270, 34.801, 34.801, 61.093],
        ),
    ];
    for (holds, rigid, published) in cases {
        let shift = if rigid > 0 { 100.0 } else { 0.0 };
        let found = frequencies(24, holds, shift, rigid + 6);
        assert!(found[..rigid].iter().all(|f| *f < 1e-3));
        for (value, published) in found[rigid..].iter().zip(published) {
            close("frequency", *value, published, 0.012);
        }
    }
}

/// Timoshenko and Gere, *Theory of elastic stability*: a simply supported square plate pressed
/// along one direction buckles at 4 pi^2 D / b^2, next at 6.25 (two half waves) and 11.11.
#[test]
fn a_square_plate_buckles() {
    let (n, t, e) = (16, 0.01, 1e9);
    let mut grid = Grid::new(n, n, plate(t, e, 0.3, Vec3::X), |s, u| {
        Point3::new(s, u, 0.0)
    });
    for edge in 0..4 {
        grid.constrain_edges(&[(edge, &[Z])]);
    }
    grid.constrain_edges(&[(0, &[X])]);
    let corner = grid.node(0, 0);
    grid.constrain(&[corner], &[Y]);
    let load = grid.edge_force(1, 0, -1.0);
    let system = System::new(&grid.shell).unwrap();
    let mut work = Workspace::new(&system).unwrap();
    let loads = std::slice::from_ref(&load);
    let state = linear::solve(&grid.shell, &system, &mut work, loads)
        .unwrap()
        .remove(0);
    let unit = PI * PI * e * t * t * t / 12.0 / 0.91;
    let found = modes::buckling(&grid.shell, &system, &mut work, &load, &state, 3).unwrap();
    for (mode, (published, share)) in
        found
            .iter()
            .zip([(4.0, 0.002), (6.25, 0.004), (100.0 / 9.0, 0.01)])
    {
        close("factor", mode.value / unit, published, share);
    }
}
