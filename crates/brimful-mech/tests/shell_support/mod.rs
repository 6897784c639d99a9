//! Structured meshes for the shell's outside checks.
#![allow(dead_code)] // Each test file uses its own part.

use brimful_geom::vector::{Point3, Vec3};
use brimful_mech::shell::model::*;
use brimful_mech::shell::{State, System, Workspace, linear};

/// A grid of nodes over the unit square, each cell cut into two triangles, the cuts alternating.
pub struct Grid {
    pub shell: Shell,
    pub columns: usize,
    pub rows: usize,
}

/// What the sheet of a grid is made of.
pub fn plate(thickness: f64, modulus: f64, poisson: f64, axis: Vec3) -> Plate {
    Plate {
        thickness,
        modulus,
        poisson,
        density: 1.0,
        expansion: 0.0,
        axis,
    }
}

impl Grid {
    /// Nodes at `place(i / columns, j / rows)`. The normal is that of the first coordinate turned
    /// to the second.
    pub fn new(
        columns: usize,
        rows: usize,
        plate: Plate,
        place: impl Fn(f64, f64) -> Point3,
    ) -> Self {
        let mut shell = Shell {
            plates: vec![plate],
            ..Shell::default()
        };
        for j in 0..=rows {
            for i in 0..=columns {
                shell
                    .nodes
                    .push(place(i as f64 / columns as f64, j as f64 / rows as f64));
            }
        }
        for j in 0..rows {
            for i in 0..columns {
                let at = |di: usize, dj: usize| (j + dj) * (columns + 1) + i + di;
                let (a, b, c, d) = (at(0, 0), at(1, 0), at(1, 1), at(0, 1));
                let pair = if (i + j) % 2 == 0 {
                    [[a, b, c], [a, c, d]]
                } else {
                    [[a, b, d], [b, c, d]]
                };
                shell
                    .triangles
                    .extend(pair.map(|nodes| Triangle { nodes, plate: 0 }));
            }
        }
        Self {
            shell,
            columns,
            rows,
        }
    }

    pub fn node(&self, i: usize, j: usize) -> usize {
        j * (self.columns + 1) + i
    }

    /// Nodes with first coordinate nought, one, second nought, one.
    pub fn edge(&self, which: usize) -> Vec<usize> {
        match which {
            0 => (0..=self.rows).map(|j| self.node(0, j)).collect(),
            1 => (0..=self.rows)
                .map(|j| self.node(self.columns, j))
                .collect(),
            2 => (0..=self.columns).map(|i| self.node(i, 0)).collect(),
            _ => (0..=self.columns)
                .map(|i| self.node(i, self.rows))
                .collect(),
        }
    }

    pub fn hold(&mut self, nodes: &[usize], freedoms: &[Freedom]) {
        for &node in nodes {
            for &freedom in freedoms {
                self.shell.holds.push(Hold {
                    node,
                    freedom,
                    value: 0.0,
                });
            }
        }
    }

    pub fn pressure(&self, value: f64) -> Load {
        Load {
            pressures: vec![[value; 3]; self.shell.triangles.len()],
            ..Load::default()
        }
    }
}

pub const ALL: [Freedom; 6] = [
    Freedom::X,
    Freedom::Y,
    Freedom::Z,
    Freedom::TurnX,
    Freedom::TurnY,
    Freedom::TurnZ,
];

/// The linear answer to one load.
pub fn solve(shell: &Shell, load: &Load) -> State {
    let system = System::new(shell).unwrap();
    let mut workspace = Workspace::new(&system).unwrap();
    linear::solve(shell, &system, &mut workspace, std::slice::from_ref(load))
        .unwrap()
        .remove(0)
}

/// A quarter of a square plate of side `a`, symmetric about x = a/2 and y = a/2, its outer edges
/// simply supported or clamped, in-plane freedoms held there too.
pub fn quarter_plate(n: usize, a: f64, plate: Plate, clamped: bool) -> Grid {
    let mut grid = Grid::new(n, n, plate, |s, t| {
        Point3::new(s * a / 2.0, t * a / 2.0, 0.0)
    });
    use Freedom::*;
    let (west, east, south, north) = (grid.edge(0), grid.edge(1), grid.edge(2), grid.edge(3));
    grid.hold(&west, if clamped { &ALL } else { &[X, Y, Z, TurnX] });
    grid.hold(&south, if clamped { &ALL } else { &[X, Y, Z, TurnY] });
    grid.hold(&east, &[X, TurnY, TurnZ]);
    grid.hold(&north, &[Y, TurnX, TurnZ]);
    grid
}

/// Asserts that `value` is within a share of `reference`.
#[track_caller]
pub fn close(what: &str, value: f64, reference: f64, share: f64) {
    assert!(
        (value - reference).abs() <= share * reference.abs(),
        "{what}: {value} against {reference}, off by {:.3} %",
        (value / reference - 1.0) * 100.0
    );
}
