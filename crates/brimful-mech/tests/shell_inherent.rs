//! Strain prescribed along a line against what a free strip does (E. Betti's theorem 1872, from
//! memory: under a uniform virtual stress the mean displacement of an end is the integral of the
//! initial strain over the width, whatever the strain's place), at any size of triangles.

mod shell_support;

use brimful_geom::vector::{Point3, Vec3};
use brimful_mech::shell::Fault;
use brimful_mech::shell::inherent::{Inherent, along_line};
use brimful_mech::shell::model::Load;
use shell_support::*;

const LENGTH: f64 = 1.2;
const WIDTH: f64 = 0.3;
/// The mean of an end's displacements leaves out what its nodes' turns in the plane do to the edge
/// between them: under 1 % with four triangles over the width.
const MODIFIED_NEWTON: f64 = 0.01;

/// A strip along x, held at its near end just so that it cannot drift.
fn strip(columns: usize, rows: usize) -> Grid {
    let sheet = plate(0.01, 1e9, 0.4, Vec3::X);
    let mut grid = Grid::new(columns, rows, sheet, |s, t| {
        Point3::new(LENGTH * s, WIDTH * t, 0.0)
    });
    let middle = grid.node(0, rows / 2);
    grid.constrain(&[middle], &ALL);
    grid
}

/// What the far end does more than the near one in a degree of freedom, each node by its share of the edge.
fn apart(grid: &Grid, dof: usize, load: &Load) -> f64 {
    let state = solve(&grid.shell, load);
    let mean = |edge: usize| {
        let nodes = grid.edge(edge);
        let last = nodes.len() - 1;
        let share = |k: usize| if k == 0 || k == last { 0.5 } else { 1.0 };
        let sum: f64 = nodes
            .iter()
            .enumerate()
            .map(|(k, &node)| share(k) * state.displacements[node][dof])
            .sum();
        sum / last as f64
    };
    mean(1) - mean(0)
}

fn load(grid: &Grid, nodes: &[usize], inherent: Inherent) -> Load {
    Load {
        initial_strains: along_line(&grid.shell, nodes, &inherent)
            .expect("the line is on the mesh"),
        ..Load::default()
    }
}

#[test]
fn a_line_along_the_strip_shortens_it() {
    for (columns, rows) in [(8, 4), (24, 10)] {
        let grid = strip(columns, rows);
        let line: Vec<usize> = (0..=columns).map(|i| grid.node(i, rows / 2)).collect();
        let along = Inherent {
            along: 2e-4,
            ..Inherent::default()
        };
        let shortening = apart(&grid, 0, &load(&grid, &line, along));
        close(
            "shortening",
            shortening,
            -2e-4 * LENGTH / WIDTH,
            MODIFIED_NEWTON,
        );
    }
}

#[test]
fn a_line_across_the_strip_shortens_and_turns_it() {
    for (columns, rows) in [(8, 4), (24, 10)] {
        let grid = strip(columns, rows);
        let line: Vec<usize> = (0..=rows).map(|j| grid.node(columns / 2, j)).collect();
        let across = Inherent {
            across: 1.5e-3,
            turn: 0.02,
            ..Inherent::default()
        };
        let load = load(&grid, &line, across);
        close(
            "shortening",
            apart(&grid, 0, &load),
            -1.5e-3,
            MODIFIED_NEWTON,
        );
        // The upper face is lengthened: the far end turns down, about +y.
        close("turn", apart(&grid, 4, &load), 0.02, MODIFIED_NEWTON);
    }
}

#[test]
fn a_line_beside_the_mesh_is_a_fault() {
    let grid = strip(8, 4);
    let far = [grid.node(0, 0), grid.node(5, 3)];
    let some = Inherent::default();
    let fault = along_line(&grid.shell, &far, &some);
    assert!(matches!(fault, Err(Fault::Input { .. })), "{fault:?}");
    assert!(along_line(&grid.shell, &far[..1], &some).is_err());
}
