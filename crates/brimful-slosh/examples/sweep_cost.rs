//! How long a sweep over fills takes, and how it grows with the cells.
//!
//! `cargo run --release -p brimful-slosh --example sweep_cost`
#![allow(clippy::print_stdout)] // This is what the program is for.

use brimful_geom::frame::Frame;
use brimful_geom::polygon::Outline;
use brimful_geom::solid::Solid;
use brimful_geom::vector::{Point2, Point3, Vec3};
use brimful_slosh::modes::{Modes, modes, sweep};
use brimful_slosh::{Cavity, Hole, Plate};
use std::time::Instant;

/// Twenty fills of a box of 1.2 m by 0.4 m by 0.35 m with two baffles of two holes each.
fn main() {
    let cavity = tank();
    let levels: Vec<f64> = (1..=20).map(|it| 0.35 * f64::from(it) / 21.0).collect();
    println!("| spacing | unknowns half full | one fill, one grid | 20 fills, two grids each |");
    println!("| --- | --- | --- | --- |");
    for spacing in [0.04, 0.03, 0.025, 0.02] {
        let start = Instant::now();
        let half = modes(&cavity, 0.175, spacing, 6);
        let one = start.elapsed();
        let start = Instant::now();
        let all = sweep(&cavity, &levels, spacing, 6);
        let whole = start.elapsed();
        assert!(all.iter().all(Result::is_ok));
        let unknowns = half.as_ref().map_or(0, |it: &Modes| it.unknowns);
        println!(
            "| {:.0} mm | {unknowns} | {:.3} s | {:.2} s |",
            spacing * 1e3,
            one.as_secs_f64(),
            whole.as_secs_f64()
        );
    }
}

fn tank() -> Cavity {
    let hole = |y, z| Hole::Round {
        centre: Point2::new(y, z),
        radius: 0.06,
    };
    let baffle = |x| Plate {
        frame: Frame {
            origin: Point3::new(x, 0.0, 0.0),
            x: Vec3::Y,
            y: Vec3::Z,
            z: Vec3::X,
        },
        outline: Outline(vec![
            Point2::new(0.0, 0.0),
            Point2::new(0.4, 0.0),
            Point2::new(0.4, 0.32),
            Point2::new(0.0, 0.32),
        ]),
        holes: vec![hole(0.12, 0.08), hole(0.28, 0.2)],
    };
    Cavity {
        solid: Solid::cuboid(Point3::ORIGIN, Point3::new(1.2, 0.4, 0.35)),
        plates: vec![baffle(0.4), baffle(0.8)],
    }
}
