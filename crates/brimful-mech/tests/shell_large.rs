//! The shell under large displacements against published results.

mod shell_support;

use Freedom::*;
use brimful_geom::vector::{Point3, Vec3};
use brimful_mech::shell::model::*;
use brimful_mech::shell::{System, Workspace, nonlinear};
use shell_support::*;

fn large(
    shell: &Shell,
    load: &Load,
    first: f64,
) -> (brimful_mech::shell::State, nonlinear::Report) {
    let system = System::new(shell).unwrap();
    let mut workspace = Workspace::new(&system).unwrap();
    let steps = nonlinear::Steps {
        first,
        ..Default::default()
    };
    let t = std::time::Instant::now();
    let out = nonlinear::solve(shell, &system, &mut workspace, load, None, &steps).unwrap();
    println!("{:?} {} unknowns", t.elapsed(), system.unknowns());
    out
}

#[test]
fn probe_plates() {
    let t = 0.01;
    let p = plate(t, 1e9, 0.316, Vec3::X);
    for (clamped, q, reference) in [
        (false, 100.0, 1.2553),
        (false, 400.0, 2.0833),
        (true, 100.0, 0.9305),
        (true, 400.0, 1.8521),
        (true, 20.0, 0.2636),
    ] {
        let grid = quarter_plate(12, 1.0, p, clamped);
        let (state, report) = large(&grid.shell, &grid.pressure(q * 1e9 * t.powi(4)), 1.0);
        let w = state.displacements[grid.node(12, 12)][2] / t;
        println!(
            "{clamped} {q} {:.3} % {report:?}",
            (w / reference - 1.0) * 100.0
        );
    }
}

#[test]
fn probe_cantilever() {
    let mut grid = Grid::new(16, 1, plate(0.1, 1.2e6, 0.0, Vec3::X), |s, t| {
        Point3::new(10.0 * s, t, 0.0)
    });
    let west = grid.edge(0);
    grid.hold(&west, &ALL);
    let mut load = Load::default();
    for node in grid.edge(1) {
        load.forces.push((node, [0.0, 0.0, 2.0, 0.0, 0.0, 0.0]));
    }
    for first in [0.05, 0.25, 1.0] {
        let (state, report) = large(&grid.shell, &load, first);
        let tip = state.displacements[grid.node(16, 0)];
        println!("{} {} {report:?}", tip[0], tip[2]);
    }
}
