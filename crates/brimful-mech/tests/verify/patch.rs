//! Patch tests: five quadrilaterals, each cut into two triangles, moved at the outer corners.
//!
//! In place of three meshes three ways of cutting.

use super::compare::{Ask, Values};
use super::read::Answer;
use super::shell_support::{ALL, plate};
use brimful_geom::vector::{Point3, Vec3};
use brimful_mech::shell::model::{Constraint, Load, Resultants, Shell, Triangle};
use brimful_mech::shell::{System, recover};

const THICKNESS: f64 = 0.001;

/// The corner of a triangle where a figure is farthest from the mean of all.
pub fn run(ask: &Ask) -> Values {
    let bending = ask.words()[0] == "bending";
    let mut shell = patch(ask.words()[1] == "second", ask.mesh);
    for node in 0..4 {
        let Point3 { x, y, .. } = shell.nodes[node];
        let six = if bending { bent(x, y) } else { stretched(x, y) };
        for (dof, value) in ALL.into_iter().zip(six) {
            shell.constraints.push(Constraint { node, dof, value });
        }
    }
    let load = Load::default();
    let system = System::new(&shell).expect("the patch can be numbered");
    let answer = Answer::linear(&shell, &load);
    let raw = recover::resultants(&shell, &system, &load, &answer.state).expect("the state fits");
    let corners: Vec<Resultants> = raw.into_iter().flatten().collect();
    let names = ["x", "y", "xy"];
    let mut out = Values::new();
    for (k, name) in names.into_iter().enumerate() {
        let stress = |r: &Resultants| r.force[k] / THICKNESS;
        let moment = |r: &Resultants| -r.moment[k];
        out.insert(format!("stress {name}"), farthest(&corners, stress));
        out.insert(format!("moment {name}"), farthest(&corners, moment));
    }
    out
}

fn stretched(x: f64, y: f64) -> [f64; 6] {
    [
        1e-3 * (x + y / 2.0),
        1e-3 * (y + x / 2.0),
        0.0,
        0.0,
        0.0,
        0.0,
    ]
}

fn bent(x: f64, y: f64) -> [f64; 6] {
    let w = 0.5e-3 * (x * x + x * y + y * y);
    [
        0.0,
        0.0,
        w,
        1e-3 * (y + x / 2.0),
        -1e-3 * (x + y / 2.0),
        0.0,
    ]
}

fn farthest(corners: &[Resultants], value: impl Fn(&Resultants) -> f64) -> f64 {
    let mean = corners.iter().map(&value).sum::<f64>() / corners.len() as f64;
    let distance = |r: &&Resultants| (value(r) - mean).abs();
    let worst = corners
        .iter()
        .max_by(|a, b| distance(a).total_cmp(&distance(b)));
    worst.map_or(f64::NAN, value)
}

fn patch(second: bool, cut: usize) -> Shell {
    let places = if second {
        [
            (0.0, 0.0),
            (4.0, 0.0),
            (4.0, 4.0),
            (0.0, 4.0),
            (0.8, 0.8),
            (3.2, 1.2),
            (3.2, 2.8),
            (1.6, 2.8),
        ]
    } else {
        [
            (0.0, 0.0),
            (0.24, 0.0),
            (0.24, 0.12),
            (0.0, 0.12),
            (0.04, 0.02),
            (0.18, 0.03),
            (0.16, 0.08),
            (0.08, 0.08),
        ]
    };
    let quads = [
        [0, 1, 5, 4],
        [1, 2, 6, 5],
        [2, 3, 7, 6],
        [3, 0, 4, 7],
        [4, 5, 6, 7],
    ];
    let mut shell = Shell {
        nodes: places.map(|(x, y)| Point3::new(x, y, 0.0)).to_vec(),
        plates: vec![plate(THICKNESS, 1e6, 0.25, Vec3::X)],
        ..Shell::default()
    };
    for (number, [a, b, c, d]) in quads.into_iter().enumerate() {
        let first = match cut {
            0 => true,
            1 => false,
            _ => number % 2 == 0,
        };
        let pair = if first {
            [[a, b, c], [a, c, d]]
        } else {
            [[a, b, d], [b, c, d]]
        };
        shell
            .triangles
            .extend(pair.map(|nodes| Triangle { nodes, plate: 0 }));
    }
    shell
}
