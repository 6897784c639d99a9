//! Strain prescribed along a line against what a free strip does (E. Betti's theorem 1872, from
//! memory: under a uniform virtual stress the mean displacement of an end is the integral of the
//! initial strain over the width, whatever the strain's place), at any size of triangles.

mod shell_support;

use brimful_geom::vector::{Point3, Vec3};
use brimful_mech::shell::model::{InitialStrain, Load, Shell, Triangle};
use shell_support::*;

const LENGTH: f64 = 1.2;
const WIDTH: f64 = 0.3;
/// The mean of an end's displacements leaves out what its nodes' turns in the plane do to the edge
/// between them: under 1 % with four triangles over the width.
const TOLERANCE: f64 = 0.01;

/// What a line would do if nothing hindered it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
struct Inherent {
    /// Shortening along the line times the width over which it acts, m.
    along: f64,
    /// Shortening across the line, m.
    across: f64,
    /// Turn of one side of the line against the other, rad; positive where it lengthens the face
    /// that the normals of the plates point to.
    turn: f64,
}

/// The initial strains of all triangles of `shell` that stand for `inherent` along the line through
/// `nodes`. Each side of the line gives its share to the triangles that have it, all alike.
fn along_line(shell: &Shell, nodes: &[usize], inherent: &Inherent) -> Vec<InitialStrain> {
    let mut strains = vec![InitialStrain::default(); shell.triangles.len()];
    for side in nodes.windows(2) {
        let ends = [side[0], side[1]];
        let has_side = |number: &usize| {
            let nodes = &shell.triangles[*number].nodes;
            ends.iter().all(|node| nodes.contains(node))
        };
        let beside: Vec<usize> = (0..shell.triangles.len()).filter(has_side).collect();
        assert!(!beside.is_empty(), "the line is on the mesh");
        for &number in &beside {
            let share = 1.0 / beside.len() as f64;
            let triangle = &shell.triangles[number];
            add(&mut strains[number], shell, triangle, ends, inherent, share);
        }
    }
    strains
}

/// Adds a triangle's share of what the side between `ends` does: a tensor along and across it,
/// whose integral over the triangle's area is that of the side.
fn add(
    strain: &mut InitialStrain,
    shell: &Shell,
    triangle: &Triangle,
    ends: [usize; 2],
    inherent: &Inherent,
    share: f64,
) {
    let [a, b, c] = triangle.nodes.map(|node| shell.nodes[node]);
    let twice_area = (b - a).cross(c - a);
    let normal = twice_area / twice_area.length();
    let way = shell.nodes[ends[1]] - shell.nodes[ends[0]];
    let length = way.length();
    let x = shell.plates[triangle.plate].axis;
    let y = normal.cross(x);
    let along = Direction::of(way / length, x, y);
    let across = Direction::of(normal.cross(way / length), x, y);
    let density = share * length / (0.5 * twice_area.length());
    for k in 0..3 {
        strain.stretch[k] -=
            density * (inherent.along * along.tensor()[k] + inherent.across * across.tensor()[k]);
        strain.curvature[k] += density * inherent.turn * across.tensor()[k];
    }
}

/// A unit direction in a plate's axes.
struct Direction {
    x: f64,
    y: f64,
}

impl Direction {
    fn of(way: Vec3, x: Vec3, y: Vec3) -> Self {
        Self {
            x: way.dot(x),
            y: way.dot(y),
        }
    }

    /// A unit strain along it: `xx, yy, xy` with the engineering shear.
    fn tensor(&self) -> [f64; 3] {
        [self.x * self.x, self.y * self.y, 2.0 * self.x * self.y]
    }
}

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
        initial_strains: along_line(&grid.shell, nodes, &inherent),
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
        close("shortening", shortening, -2e-4 * LENGTH / WIDTH, TOLERANCE);
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
        close("shortening", apart(&grid, 0, &load), -1.5e-3, TOLERANCE);
        // The upper face is lengthened: the far end turns down, about +y.
        close("turn", apart(&grid, 4, &load), 0.02, TOLERANCE);
    }
}
