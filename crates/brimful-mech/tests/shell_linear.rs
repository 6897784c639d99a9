//! The linear shell against published obstacle courses.

mod shell_support;

use Freedom::*;
use brimful_geom::vector::{Point3, Vec3};
use brimful_mech::shell::model::*;
use brimful_mech::shell::{Fault, System, Workspace, linear};
use shell_support::*;
use std::f64::consts::PI;

#[test]
fn probe() {
    let p = plate(0.01, 1e9, 0.3, Vec3::X);
    let d = 1e9 * 1e-6 / 12.0 / 0.91;
    for clamped in [false, true] {
        let reference = if clamped { 0.0012653 } else { 0.004062 };
        for n in [2, 4, 8, 16, 32] {
            let grid = quarter_plate(n, 1.0, p, clamped);
            let state = solve(&grid.shell, &grid.pressure(1.0));
            let w = state.displacements[grid.node(n, n)][2] * d;
            println!("{clamped} {n} w {:.4} %", (w / reference - 1.0) * 100.0);
        }
    }
}

#[test]
fn speed() {
    for n in [40, 90] {
        let p = plate(0.01, 1e9, 0.3, Vec3::X);
        let grid = quarter_plate(n, 1.0, p, true);
        let load = grid.pressure(1.0);
        let t = std::time::Instant::now();
        let system = System::new(&grid.shell).unwrap();
        let mut w = Workspace::new(&system).unwrap();
        let t1 = t.elapsed();
        for _ in 0..3 {
            let t = std::time::Instant::now();
            linear::solve(&grid.shell, &system, &mut w, std::slice::from_ref(&load)).unwrap();
            println!(
                "{} symbolic {t1:?} solve {:?}",
                system.unknowns(),
                t.elapsed()
            );
        }
    }
}
