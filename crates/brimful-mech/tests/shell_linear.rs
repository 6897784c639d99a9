//! The linear shell against the obstacle course of MacNeal and Harder, *A proposed standard set
//! of problems to test finite element accuracy*, Finite Elem. Anal. Des. 1 (1985) 3-20 (figures
//! from memory where no public file is named), and against plate theory (Timoshenko and
//! Woinowsky-Krieger, *Theory of plates and shells*).

#![allow(clippy::unwrap_used)] // A test's helper that fails fails the test.

mod shell_support;

use Dof::*;
use brimful_geom::vector::{Point3, Vec3};
use brimful_mech::shell::model::*;
use brimful_mech::shell::{System, recover};
use shell_support::*;
use std::f64::consts::PI;

/// The patch of five quadrilaterals, each cut into two triangles.
fn patch() -> Shell {
    let places = [
        (0.0, 0.0),
        (0.24, 0.0),
        (0.24, 0.12),
        (0.0, 0.12),
        (0.04, 0.02),
        (0.18, 0.03),
        (0.16, 0.08),
        (0.08, 0.08),
    ];
    let quads = [
        [0, 1, 5, 4],
        [1, 2, 6, 5],
        [2, 3, 7, 6],
        [3, 0, 4, 7],
        [4, 5, 6, 7],
    ];
    let mut shell = Shell {
        nodes: places.map(|(x, y)| Point3::new(x, y, 0.0)).to_vec(),
        plates: vec![plate(0.001, 1e6, 0.25, Vec3::X)],
        ..Shell::default()
    };
    for [a, b, c, d] in quads {
        shell
            .triangles
            .extend([[a, b, c], [a, c, d]].map(|nodes| Triangle { nodes, plate: 0 }));
    }
    shell
}

fn patch_resultants(motion: impl Fn(f64, f64) -> [f64; 6]) -> Vec<[Resultants; 3]> {
    let mut shell = patch();
    for node in 0..4 {
        let p = shell.nodes[node];
        for (dof, value) in ALL.into_iter().zip(motion(p.x, p.y)) {
            shell.constraints.push(Constraint { node, dof, value });
        }
    }
    let load = Load::default();
    let system = System::new(&shell).unwrap();
    let state = solve(&shell, &load);
    recover::resultants(&shell, &system, &load, &state).unwrap()
}

/// Stresses 1333.3, 1333.3, 400 (arithmetic from the strains).
#[test]
fn membrane_patch() {
    let motion = |x, y| {
        [
            1e-3 * (x + y / 2.0),
            1e-3 * (y + x / 2.0),
            0.0,
            0.0,
            0.0,
            0.0,
        ]
    };
    let published = [1e3 / 0.75, 1e3 / 0.75, 400.0];
    for corner in patch_resultants(motion).iter().flatten() {
        for (force, stress) in corner.force.iter().zip(published) {
            close("stress", force / 0.001, stress, 1e-9);
        }
    }
}

/// Moments 1.111e-7, 1.111e-7, 3.333e-8 (arithmetic from the curvatures).
#[test]
fn bending_patch() {
    let motion = |x: f64, y: f64| {
        let w = 0.5e-3 * (x * x + x * y + y * y);
        [
            0.0,
            0.0,
            w,
            1e-3 * (y + x / 2.0),
            -1e-3 * (x + y / 2.0),
            0.0,
        ]
    };
    let published = [1e-6 / 9.0, 1e-6 / 9.0, 1e-7 / 3.0];
    for corner in patch_resultants(motion).iter().flatten() {
        for (moment, published) in corner.moment.iter().zip(published) {
            close("moment", -moment, published, 1e-9);
        }
    }
}

/// Deflection, field moment and clamping moment of square plates under even pressure (Timoshenko
/// and Woinowsky-Krieger, tables 8 and 35), and that the errors fall with the square of the size
/// of the triangles.
#[test]
fn square_plates() {
    let d = 1e9 * 1e-6 / 12.0 / 0.91;
    for (clamped, deflection, field, edge) in [
        (false, 0.0040624, 0.04789, None),
        (true, 0.0012653, 0.02291, Some(-0.05133)),
    ] {
        let mut errors = Vec::new();
        for n in [4, 8, 16] {
            let grid = quarter_plate(n, 1.0, plate(0.01, 1e9, 0.3, Vec3::X), clamped);
            let shell = &grid.shell;
            let load = grid.pressure(1.0);
            let system = System::new(shell).unwrap();
            let state = solve(shell, &load);
            let raw = recover::resultants(shell, &system, &load, &state).unwrap();
            let smooth = recover::smooth(shell, &system, &raw, &Default::default());
            let chain = grid.edge(0);
            let all: Vec<usize> = (0..shell.triangles.len()).collect();
            let line =
                recover::line_forces(shell, &system, &load, &state, &smooth, &chain, &all).unwrap();
            let centre = smooth_moment(shell, &smooth, grid.node(n, n))[0];
            errors.push([
                state.displacements[grid.node(n, n)][2] * d / deflection - 1.0,
                centre / field - 1.0,
                edge.map_or(0.0, |edge| line[n].smooth.moment[1] / edge - 1.0),
            ]);
            // All four edges together hold the whole plate: two of the quarter's, and symmetry
            // holds none of the pressure.
            let held: f64 = state
                .constraint_forces
                .iter()
                .zip(&shell.constraints)
                .filter(|(_, h)| h.dof == Z)
                .map(|(f, _)| f)
                .sum();
            close("reaction", held, -0.25, 1e-8);
        }
        let [coarse, middle, fine] = errors[..] else {
            unreachable!()
        };
        for (k, limit) in [0.002, 0.006, 0.002].into_iter().enumerate() {
            assert!(fine[k].abs() < limit, "{k}: {}", fine[k]);
        }
        for k in 0..2 {
            assert!(
                coarse[k] / middle[k] > 3.5 && middle[k] / fine[k] > 3.5,
                "order of {k}"
            );
        }
    }
}

fn smooth_moment(shell: &Shell, smooth: &recover::Smooth, node: usize) -> [f64; 3] {
    let places = shell.triangles.iter().zip(&smooth.corners);
    places
        .flat_map(|(t, c)| t.nodes.into_iter().zip(c))
        .find(|(k, _)| *k == node)
        .unwrap()
        .1
        .moment
}

/// Converged shell 0.30202 (public test input of FinEtoolsFlexStructures.jl).
#[test]
fn scordelis_lo_roof() {
    let (n, r, l, angle) = (16, 25.0, 50.0, 40.0_f64.to_radians());
    let mut grid = Grid::new(n, n, plate(0.25, 4.32e8, 0.0, Vec3::X), |s, t| {
        Point3::new(s * l / 2.0, r * (t * angle).sin(), r * (t * angle).cos())
    });
    grid.constrain_edges(&[
        (0, &[Y, Z]),
        (1, &[X, TurnY, TurnZ]),
        (2, &[Y, TurnX, TurnZ]),
    ]);
    let cell = (l / 2.0) * r * angle / (n * n) as f64;
    let half = |i: usize| if i == 0 || i == n { 0.5 } else { 1.0 };
    let mut load = Load::default();
    for j in 0..=n {
        for i in 0..=n {
            let force = -90.0 * cell * half(i) * half(j);
            load.forces
                .push((grid.node(i, j), [0.0, 0.0, force, 0.0, 0.0, 0.0]));
        }
    }
    let state = solve(&grid.shell, &load);
    close(
        "edge",
        -state.displacements[grid.node(n, n)][2],
        0.30202,
        0.005,
    );
}

/// 1.82488e-5 under the load (same source).
#[test]
fn pinched_cylinder() {
    let (n, r, l) = (24, 300.0, 600.0);
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
    let state = solve(&grid.shell, &point(under, 2, -0.25));
    close(
        "under the load",
        -state.displacements[under][2],
        1.82488e-5,
        0.01,
    );
}

/// 0.093 (same source): bending without stretch of a curved face, hard on flat elements.
#[test]
fn hemisphere_with_a_hole() {
    let (n, r) = (32, 10.0);
    let mut grid = Grid::new(
        n,
        n,
        plate(0.04, 6.825e7, 0.3, Vec3::new(0.3, 0.5, 0.8)),
        |s, t| {
            let (a, e) = (s * PI / 2.0, t * 72.0_f64.to_radians());
            Point3::new(r * e.cos() * a.cos(), r * e.cos() * a.sin(), r * e.sin())
        },
    );
    grid.constrain_edges(&[(0, &[Y, TurnX, TurnZ]), (1, &[X, TurnY, TurnZ])]);
    let (first, second) = (grid.node(0, 0), grid.node(n, 0));
    grid.constrain(&[first], &[Z]);
    let mut load = point(first, 0, 1.0);
    load.forces.extend(point(second, 1, -1.0).forces);
    let state = solve(&grid.shell, &load);
    close("along the load", state.displacements[first][0], 0.093, 0.01);
}

/// Cook's membrane, 23.97 (same source).
#[test]
fn cooks_membrane() {
    let n = 32;
    let mut grid = Grid::new(n, n, plate(1.0, 1.0, 1.0 / 3.0, Vec3::X), |s, t| {
        Point3::new(48.0 * s, 44.0 * s + (44.0 - 28.0 * s) * t, 0.0)
    });
    grid.constrain_edges(&[(0, &ALL)]);
    let load = grid.edge_force(1, 1, 1.0);
    let state = solve(&grid.shell, &load);
    close(
        "middle of the end",
        state.displacements[grid.node(n, n / 2)][1],
        23.97,
        0.01,
    );
}

/// Refined beam theory 5.424535e-3 along the breadth at the root, 1.753248e-3 across (same
/// source, thick strip).
#[test]
fn twisted_beam() {
    let n = 4;
    let mut grid = Grid::new(6 * n, n, plate(0.32, 29e6, 0.22, Vec3::X), |s, u| {
        let (a, y) = (PI / 2.0 * s, 1.1 * (u - 0.5));
        Point3::new(12.0 * s, y * a.cos(), y * a.sin())
    });
    grid.constrain_edges(&[(0, &ALL)]);
    let tip = grid.node(6 * n, n / 2);
    for (direction, published) in [(2, 5.424535e-3), (1, 1.753248e-3)] {
        let state = solve(&grid.shell, &point(tip, direction, 1.0));
        close("tip", state.displacements[tip][direction], published, 0.01);
    }
}

/// Tip of the straight cantilever of six elements: out of plane 0.4321; in plane 0.1081 on a
/// finer mesh, since two triangles at the clamp bear all the moment.
#[test]
fn straight_cantilever() {
    for (columns, rows, direction, published, share) in
        [(6, 1, 2, 0.4321, 0.025), (48, 4, 1, 0.1081, 0.01)]
    {
        let mut grid = Grid::new(columns, rows, plate(0.1, 1e7, 0.3, Vec3::X), |s, t| {
            Point3::new(6.0 * s, 0.2 * t, 0.0)
        });
        grid.constrain_edges(&[(0, &ALL)]);
        let load = grid.edge_force(1, direction, 1.0);
        let state = solve(&grid.shell, &load);
        close(
            "tip",
            state.displacements[grid.node(columns, 0)][direction],
            published,
            share,
        );
    }
}

/// Four walls, clamped at the base, open at the top, full: 79.47 mm and -11.91 mm (independent
/// semi-analytic solution with corners that do not stretch).
#[test]
fn four_walls() {
    let mut shell = open_box(1.0, 0.6, 0.6, 12, plate(0.015, 200e6, 0.45, Vec3::X), false);
    constrain_where(&mut shell, &ALL, |p| p.z < 1e-9);
    let state = solve(&shell, &full(&shell, 9810.0, 0.6));
    close(
        "long",
        -state.displacements[nearest(&shell, 0.5, 0.0, 0.6)][1],
        0.07947,
        0.005,
    );
    close(
        "short",
        -state.displacements[nearest(&shell, 0.0, 0.3, 0.6)][0],
        -0.01191,
        0.02,
    );
}

/// A strip twisted by its ends: `T = k G b t^3 x rate of twist`, k of S. Timoshenko and J. N. Goodier, *Theory of
/// Elasticity*, table of constants for torsion of a rectangular bar (from memory): 0.229, 0.291 and 0.312 where
/// it is 2, 5 and 10 times as wide as thick. To 1 %: the formula's own error and that of the mesh. Whichever way
/// the strip's first axis points.
#[test]
fn a_strip_twists_as_a_bar() {
    let (width, modulus, poisson) = (0.06, 1e9, 0.3);
    for (ratio, k) in [(2.0, 0.229), (5.0, 0.291), (10.0, 0.312)] {
        for axis in [Vec3::X, Vec3::Y] {
            let thickness = width / ratio;
            let sheet = Plate {
                twist: twist_of_strip(thickness, width),
                ..plate(thickness, modulus, poisson, axis)
            };
            let mut strip = Grid::new(40, 4, sheet, |s, t| Point3::new(1.2 * s, width * t, 0.0));
            strip.constrain_edges(&[(0, &ALL)]);
            let state = solve(&strip.shell, &strip.edge_force(1, TurnX as usize, 1.0));
            // Between the thirds, far from how it is held and turned.
            let turn = |column: usize| state.displacements[strip.node(column, 2)][TurnX as usize];
            let rate = (turn(26) - turn(13)) / (1.2 * 13.0 / 40.0);
            let shear = modulus / (2.0 * (1.0 + poisson));
            let found = 1.0 / (rate * shear * width * thickness.powi(3));
            assert!((found / k - 1.0).abs() < 0.01, "{ratio}: {found} of {k}");
        }
    }
}

/// A cap a million times as large as it is thick, held all round: refused as ill-conditioned, not as loose.
#[test]
fn what_is_too_thin_to_be_told_from_loose_says_so() {
    let sheet = plate(1e-6, 1e9, 0.3, Vec3::X);
    let mut cap = Grid::new(4, 4, sheet, |s, t| Point3::new(s, t, 0.1 * s * t));
    cap.constrain_edges(&[(0, &ALL), (1, &ALL), (2, &ALL), (3, &ALL)]);
    let Err(brimful_mech::shell::Fault::Input { what }) = System::new(&cap.shell) else {
        panic!("taken");
    };
    assert!(what.contains("ill-conditioned"), "{what}");
}
