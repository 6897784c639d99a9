//! The linear obstacle course: one function a case.

use super::compare::{Ask, Values, values};
use super::read::{Answer, bend_only};
use super::shell_support::{ALL, Grid, constrain_where, plate, point};
use brimful_geom::vector::{Point3, Vec3};
use brimful_mech::shell::model::Dof;
use std::f64::consts::{FRAC_PI_2, PI};

use Dof::{TurnX, TurnY, TurnZ, X, Y, Z};

/// Straight cantilever, cells `rectangular`, `trapezoidal` or `parallelogram`, with `short` each
/// cut into five along its length.
pub fn cantilever(ask: &Ask) -> Values {
    let finer = 3_usize.pow(ask.mesh as u32);
    let depth = 0.2;
    let (kind, pieces) = match ask.words()[..] {
        [kind, "short"] => (kind, 5),
        [kind] => (kind, 1),
        _ => panic!("no cells are called {}", ask.case),
    };
    let slant = |line: usize| match (kind, line) {
        (_, 0 | 6) | ("rectangular", _) => 0.0,
        ("trapezoidal", line) if line % 2 == 1 => -1.0,
        ("trapezoidal" | "parallelogram", _) => 1.0,
        (other, _) => panic!("no elements are called {other}"),
    };
    let mut grid = Grid::new(
        6 * pieces * finer,
        finer,
        plate(0.1, 1e7, 0.3, Vec3::X),
        |s, t| {
            let cell = ((6.0 * s) as usize).min(5);
            let share = 6.0 * s - cell as f64;
            let slant = slant(cell) * (1.0 - share) + slant(cell + 1) * share;
            Point3::new(6.0 * s + slant * depth * (t - 0.5), depth * t, 0.0)
        },
    );
    grid.constrain_edges(&[(0, &ALL)]);
    let tip = |dof: usize| {
        let answer = Answer::linear(&grid.shell, &grid.edge_force(1, dof, 1.0));
        let nodes = grid.edge(1);
        nodes.iter().map(|n| answer.moved(*n, dof)).sum::<f64>() / nodes.len() as f64
    };
    let (low, high) = (
        grid.node(grid.columns, 0),
        grid.node(grid.columns, grid.rows),
    );
    let mut pair = point(low, 2, -1.0 / depth);
    pair.forces.extend(point(high, 2, 1.0 / depth).forces);
    let twisted = Answer::linear(&grid.shell, &pair);
    values([
        ("extension", tip(0)),
        ("in-plane shear", tip(1)),
        ("out-of-plane shear", tip(2)),
        (
            "twist",
            (twisted.moved(high, 2) - twisted.moved(low, 2)) / depth,
        ),
    ])
}

/// Beam twisted by a right angle, `thick` or `thin`.
pub fn twisted_beam(ask: &Ask) -> Values {
    let (thickness, force, coarse) = match ask.case {
        "thick" => (0.32, 1.0, 2),
        "thin" => (0.0032, 1e-6, 2),
        "thin finer" => (0.0032, 1e-6, 8),
        other => panic!("no beam is called {other}"),
    };
    let n = ask.doubled(coarse);
    let mut grid = Grid::new(6 * n, n, plate(thickness, 29e6, 0.22, Vec3::X), |s, u| {
        let (angle, y) = (FRAC_PI_2 * s, 1.1 * (u - 0.5));
        Point3::new(12.0 * s, y * angle.cos(), y * angle.sin())
    });
    grid.constrain_edges(&[(0, &ALL)]);
    let tip = grid.node(6 * n, n / 2);
    let along = |dof: usize| Answer::linear(&grid.shell, &point(tip, dof, force)).moved(tip, dof);
    values([("in-plane", along(2)), ("out-of-plane", along(1))])
}

/// Scordelis-Lo roof, deflection of the middle of the free edge.
pub fn roof(ask: &Ask) -> Values {
    let (n, r, l, angle) = (ask.doubled(8), 25.0, 50.0, 40.0_f64.to_radians());
    // Weight by a density of 1 over the thickness, so that a square metre weighs 90.
    let mut grid = Grid::new(n, n, plate(0.25, 4.32e8, 0.0, Vec3::X), |s, t| {
        Point3::new(s * l / 2.0, r * (t * angle).sin(), r * (t * angle).cos())
    });
    grid.shell.plates[0].density = 4.0;
    grid.constrain_edges(&[
        (0, &[Y, Z]),
        (1, &[X, TurnY, TurnZ]),
        (2, &[Y, TurnX, TurnZ]),
    ]);
    let load = brimful_mech::shell::model::Load {
        body_acceleration: Vec3::new(0.0, 0.0, -90.0),
        ..Default::default()
    };
    let answer = Answer::linear(&grid.shell, &load);
    values([("deflection", -answer.moved(grid.node(n, n), 2))])
}

/// Pinched cylinder, one eighth.
pub fn pinched_cylinder(ask: &Ask) -> Values {
    let (n, r, l) = (ask.doubled(8), 300.0, 600.0);
    let mut grid = Grid::new(n, n, plate(3.0, 3e6, 0.3, Vec3::X), |s, t| {
        let angle = t * PI / 2.0;
        Point3::new(s * l / 2.0, r * angle.sin(), r * angle.cos())
    });
    grid.constrain_edges(&[
        (0, &[Y, Z]),
        (1, &[X, TurnY, TurnZ]),
        (2, &[Y, TurnX, TurnZ]),
        (3, &[Z, TurnX, TurnY]),
    ]);
    let under = grid.node(n, 0);
    let answer = Answer::linear(&grid.shell, &point(under, 2, -0.25));
    values([("deflection", -answer.moved(under, 2))])
}

/// Hemisphere with a hole, a quarter of it.
pub fn hemisphere(ask: &Ask) -> Values {
    let (n, r) = (ask.doubled(8), 10.0);
    // A direction that is in the plane of no triangle's normal.
    let axis = Vec3::new(0.3, 0.5, 0.8);
    let mut grid = Grid::new(n, n, plate(0.04, 6.825e7, 0.3, axis), |s, t| {
        let (a, e) = (s * PI / 2.0, t * 72.0_f64.to_radians());
        Point3::new(r * e.cos() * a.cos(), r * e.cos() * a.sin(), r * e.sin())
    });
    grid.constrain_edges(&[(0, &[Y, TurnX, TurnZ]), (1, &[X, TurnY, TurnZ])]);
    let (first, second) = (grid.node(0, 0), grid.node(n, 0));
    grid.constrain(&[first], &[Z]);
    let mut load = point(first, 0, 1.0);
    load.forces.extend(point(second, 1, -1.0).forces);
    values([(
        "deflection",
        Answer::linear(&grid.shell, &load).moved(first, 0),
    )])
}

/// Cook's membrane.
pub fn membrane(ask: &Ask) -> Values {
    let n = ask.doubled(16);
    let mut grid = Grid::new(n, n, plate(1.0, 1.0, 1.0 / 3.0, Vec3::X), |s, t| {
        Point3::new(48.0 * s, 44.0 * s + (44.0 - 28.0 * s) * t, 0.0)
    });
    grid.constrain_edges(&[(0, &[X, Y, TurnZ])]);
    constrain_where(&mut grid.shell, &[Z, TurnX, TurnY], |_| true);
    let answer = Answer::linear(&grid.shell, &grid.edge_force(1, 1, 1.0));
    values([("deflection", answer.moved(grid.node(n, n / 2), 1))])
}

/// NAFEMS LE6: a rhombus with an angle of 30 degrees, pressed from above.
pub fn skew_plate(ask: &Ask) -> Values {
    let n = ask.doubled(16);
    let (sin, cos) = 30.0_f64.to_radians().sin_cos();
    let thickness = 0.01;
    let mut grid = Grid::new(n, n, plate(thickness, 210e9, 0.3, Vec3::X), |s, t| {
        Point3::new(s + t * cos, t * sin, 0.0)
    });
    bend_only(&mut grid.shell);
    for edge in 0..4 {
        grid.constrain_edges(&[(edge, &[Z])]);
    }
    let answer = Answer::linear(&grid.shell, &grid.pressure(700.0));
    let centre = grid.node(n / 2, n / 2);
    let [xx, yy, xy] = answer.at(0, centre).moment;
    let (mean, radius) = (0.5 * (xx + yy), (0.5 * (xx - yy)).hypot(xy));
    let to_stress = 6.0 / (thickness * thickness);
    values([
        ("deflection", answer.moved(centre, 2)),
        ("larger principal stress", to_stress * (mean + radius)),
        ("smaller principal stress", to_stress * (mean - radius)),
    ])
}
