//! Free vibration.

use super::compare::{Ask, Values};
use super::read::{bend_only, rigidity};
use super::shell_support::{ALL, Grid, constrain_where, plate, weld};
use brimful_geom::vector::{Point3, Vec3};
use brimful_mech::shell::model::{Dof, Plate, Shell};
use brimful_mech::shell::{System, Workspace, modes};
use std::f64::consts::PI;

/// A square plate, case `EDGES`: omega a^2 sqrt(rho t / D) of its modes, those of a rigid plate
/// left out.
pub fn square(ask: &Ask) -> Values {
    use Dof::{TurnX, TurnY, Z};
    let n = ask.doubled(8);
    let sheet = Plate {
        density: 1000.0,
        ..plate(0.01, 1e9, 0.3, Vec3::X)
    };
    let mut grid = Grid::new(n, n, sheet, |s, t| Point3::new(s, t, 0.0));
    bend_only(&mut grid.shell);
    for (edge, letter) in ask.case.chars().enumerate() {
        let along = if edge < 2 { TurnX } else { TurnY };
        match letter {
            'S' => grid.constrain_edges(&[(edge, &[Z, along])]),
            'C' => grid.constrain_edges(&[(edge, &[Z, TurnX, TurnY])]),
            _ => {}
        }
    }
    let free = ask.case == "FFFF";
    let unit = rigidity(&sheet) / (sheet.density * sheet.thickness);
    // A free plate needs a shift; of the order of its lowest value.
    let shift = if free { 100.0 * unit } else { 0.0 };
    let found = circular(
        &grid.shell,
        if free { 3 } else { 0 },
        ask.quantities.len(),
        shift,
    );
    numbered(found.iter().map(|f| f / unit.sqrt()))
}

/// NAFEMS FV12: a free square plate, Hz.
pub fn free_plate(ask: &Ask) -> Values {
    let n = ask.doubled(8);
    let sheet = Plate {
        density: 8000.0,
        ..plate(0.05, 200e9, 0.3, Vec3::X)
    };
    let mut grid = Grid::new(n, n, sheet, |s, t| Point3::new(10.0 * s, 10.0 * t, 0.0));
    bend_only(&mut grid.shell);
    let found = circular(&grid.shell, 3, ask.quantities.len(), 100.0);
    numbered(found.iter().map(|f| f / (2.0 * PI)))
}

/// Two square cells side by side, clamped at the base: three plates meet along two lines. Hz.
pub fn double_cell(ask: &Ask) -> Values {
    let (n, side, length) = (ask.doubled(3), 1.27, 2.54);
    let sheet = |axis: Vec3| Plate {
        density: 7850.0,
        ..plate(0.0127, 207e9, 0.3, axis)
    };
    let along_x = |x: f64, y: f64| {
        Grid::new(n, 2 * n, sheet(Vec3::X), move |s, t| {
            Point3::new(x + side * s, y, length * t)
        })
        .shell
    };
    let along_y = |x: f64| {
        Grid::new(n, 2 * n, sheet(Vec3::Y), move |s, t| {
            Point3::new(x, side * s, length * t)
        })
        .shell
    };
    let mut shell = weld(&[
        along_x(0.0, 0.0),
        along_x(side, 0.0),
        along_x(0.0, side),
        along_x(side, side),
        along_y(0.0),
        along_y(side),
        along_y(2.0 * side),
    ]);
    constrain_where(&mut shell, &ALL, |p| p.z < 1e-9);
    let found = circular(&shell, 0, ask.quantities.len(), 0.0);
    numbered(found.iter().map(|f| f / (2.0 * PI)))
}

/// Circular frequencies above the `rigid` ones of a loose body.
fn circular(shell: &Shell, rigid: usize, count: usize, shift: f64) -> Vec<f64> {
    let system = System::new(shell).expect("the shell can be numbered");
    let mut work = Workspace::new(&system).expect("there is room");
    let found =
        modes::vibration(shell, &system, &mut work, rigid + count, shift).expect("modes are found");
    found[rigid..]
        .iter()
        .map(|m| m.value.max(0.0).sqrt())
        .collect()
}

fn numbered(found: impl Iterator<Item = f64>) -> Values {
    found
        .enumerate()
        .map(|(k, value)| (format!("mode {}", k + 1), value))
        .collect()
}
