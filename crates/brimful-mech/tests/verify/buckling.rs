//! Plates that buckle: case `EDGES pressed a/b`, b = 1 along y, loaded edges x = 0 and x = a.
//!
//! The plane state before buckling is put on as exact displacements, so that only the buckling
//! itself is tested: k in stress = k pi^2 D / (b^2 t).

use super::compare::{Ask, Values, values};
use super::read::rigidity;
use super::shell_support::{Grid, plate, solve};
use brimful_geom::vector::{Point3, Vec3};
use brimful_mech::shell::model::{Constraint, Dof, Load};
use brimful_mech::shell::{System, Workspace, modes};
use std::f64::consts::PI;

/// Elements over side b on the coarse mesh.
const COARSE: usize = 8;

pub fn run(ask: &Ask) -> Values {
    use Dof::{TurnX, TurnY, TurnZ, X, Y, Z};
    let words = ask.words();
    let a = ask.number(2);
    // The textbook's table for a free side is for Poisson's ratio 0.25.
    let poisson = if words[0] == "SSSF" { 0.25 } else { 0.3 };
    let sheet = plate(0.01, 1e9, poisson, Vec3::X);
    let columns = 2 * (0.5 * COARSE as f64 * a).round() as usize;
    let mut grid = Grid::new(ask.doubled(columns), ask.doubled(COARSE), sheet, |s, t| {
        Point3::new(a * s, t, 0.0)
    });
    for node in 0..grid.shell.nodes.len() {
        let Point3 { x, y, .. } = grid.shell.nodes[node];
        let flat = stressed(words[1], x, y, poisson);
        for (dof, value) in [X, Y, TurnZ].into_iter().zip(flat) {
            let value = value / sheet.modulus;
            grid.shell.constraints.push(Constraint { node, dof, value });
        }
    }
    for (edge, letter) in words[0].chars().enumerate() {
        let along = if edge < 2 { TurnX } else { TurnY };
        match letter {
            'S' => grid.constrain_edges(&[(edge, &[Z, along])]),
            'C' => grid.constrain_edges(&[(edge, &[Z, TurnX, TurnY])]),
            _ => {}
        }
    }
    let load = Load::default();
    let state = solve(&grid.shell, &load);
    let system = System::new(&grid.shell).expect("the plate can be numbered");
    let mut work = Workspace::new(&system).expect("there is room");
    let found = modes::buckling(&grid.shell, &system, &mut work, &load, &state, 1)
        .unwrap_or_else(|fault| panic!("{}: {fault:?}", ask.case));
    values([(
        "k",
        found[0].value * sheet.thickness / (PI * PI * rigidity(&sheet)),
    )])
}

/// Displacements and turn, times the modulus, of a plane stress of one.
fn stressed(kind: &str, x: f64, y: f64, poisson: f64) -> [f64; 3] {
    match kind {
        "pressed" => [-x, poisson * y, 0.0],
        "pressed-both" => [-(1.0 - poisson) * x, -(1.0 - poisson) * y, 0.0],
        "shear" => [(1.0 + poisson) * y, (1.0 + poisson) * x, 0.0],
        // Stress along x from -1 at y = 0 to 1 at y = 1.
        "bent" => {
            let z = y - 0.5;
            [2.0 * x * z, -x * x - poisson * z * z, -2.0 * x]
        }
        other => panic!("no stress is called {other}"),
    }
}
