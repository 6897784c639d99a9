//! Rectangular plates under pressure: case `EDGES load b/a [nu]`, side a = 1 along x.
//!
//! The push on an edge is a mean over two cells: at single nodes it alternates with the number of
//! triangles that meet there.
//!
//! Edges in the order x = 0, x = a, y = 0, y = b: S simply supported, C clamped, F free.

use super::compare::{Ask, Values, values};
use super::read::{Answer, bend_only, largest, rigidity};
use super::shell_support::{Grid, plate, point};
use brimful_geom::vector::{Point3, Vec3};
use brimful_mech::shell::model::{Dof, Load};

/// Elements over half of side a on the coarse mesh.
const COARSE: usize = 6;
/// Elements get longer beyond this shape of plate, where nothing varies quickly along it.
const LONGEST: f64 = 2.0;

/// Coefficients of a plate: of q a^4 / D, q a^2 and q a (P a^2 / D for a load at the centre).
pub fn run(ask: &Ask) -> Values {
    let words = ask.words();
    let (edges, kind, b) = (words[0], words[1], ask.number(2));
    let poisson = match words.get(3) {
        Some(&"1/6") => 1.0 / 6.0,
        _ => 0.3,
    };
    let grid = half_plate(ask, edges, b, poisson);
    let (n, rows) = (grid.columns, grid.rows);
    let centre = grid.node(n, rows / 2);
    let load = match kind {
        "point" => point(centre, 2, 0.5),
        "uniform" => grid.pressure(1.0),
        "hydrostatic" => hydrostatic(&grid, b),
        other => panic!("no load is called {other}"),
    };
    let answer = Answer::linear(&grid.shell, &load);
    let d = rigidity(&grid.shell.plates[0]);
    let moment = |i: usize, j: usize, k: usize| answer.at(0, grid.node(i, j)).moment[k];
    let middle: Vec<f64> = (0..=rows)
        .map(|j| answer.moved(grid.node(n, j), 2) * d)
        .collect();
    let (place, most) = largest(&middle);
    let (dx, dy) = (0.5 / n as f64, b / rows as f64);
    let push = |i: usize, j: usize| -answer.held(grid.node(i, j), Dof::Z);
    // At the line of symmetry: the node there has half of its length of edge in this half.
    let at_symmetry = |j: usize| (push(n, j) + 0.5 * push(n - 1, j)) / dx;
    let beside = |j: usize| push(0, j - 1) + 2.0 * push(0, j) + push(0, j + 1);
    values([
        ("w centre", middle[rows / 2]),
        ("w max", most),
        ("y/b of w max", place),
        ("w free mid", middle[rows]),
        ("Mx centre", moment(n, rows / 2, 0)),
        ("My centre", moment(n, rows / 2, 1)),
        ("Mx side mid", moment(0, rows / 2, 0)),
        ("My base mid", moment(n, 0, 1)),
        ("My top mid", moment(n, rows, 1)),
        ("Mx free mid", moment(n, rows, 0)),
        ("V side mid", 0.25 * beside(rows / 2) / dy),
        ("V base mid", at_symmetry(0)),
        ("V top mid", at_symmetry(rows)),
        ("R corner", -push(0, 0)),
    ])
}

fn half_plate(ask: &Ask, edges: &str, b: f64, poisson: f64) -> Grid {
    use Dof::{TurnX, TurnY, Z};
    // A multiple of four, so that the same kind of node is at the centre of all meshes.
    let rows = 4 * (0.5 * COARSE as f64 * b.min(LONGEST)).round() as usize;
    let sheet = plate(0.01, 1e9, poisson, Vec3::X);
    let mut grid = Grid::new(ask.doubled(COARSE), ask.doubled(rows), sheet, |s, t| {
        Point3::new(0.5 * s, b * t, 0.0)
    });
    bend_only(&mut grid.shell);
    let letters: Vec<char> = edges.chars().collect();
    for (edge, letter, along) in [
        (0, letters[0], TurnX),
        (2, letters[2], TurnY),
        (3, letters[3], TurnY),
    ] {
        match letter {
            'S' => grid.constrain_edges(&[(edge, &[Z, along])]),
            'C' => grid.constrain_edges(&[(edge, &[Z, TurnX, TurnY])]),
            _ => {}
        }
    }
    grid.constrain_edges(&[(1, &[TurnY])]);
    grid
}

/// Falls from one at y = 0 to zero at y = b.
fn hydrostatic(grid: &Grid, b: f64) -> Load {
    let at = |node: usize| 1.0 - grid.shell.nodes[node].y / b;
    Load {
        pressures: grid
            .shell
            .triangles
            .iter()
            .map(|t| t.nodes.map(at))
            .collect(),
        ..Load::default()
    }
}
