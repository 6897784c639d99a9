//! Structured meshes for the shell's outside checks.
// Each test file uses its own part; a helper that fails fails the test.
#![allow(dead_code, clippy::unwrap_used)]

use brimful_geom::vector::{Point3, Vec3};
use brimful_mech::shell::model::*;
use brimful_mech::shell::{State, System, Workspace, linear, nonlinear};

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
        twist: 1.0,
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

    /// Nodes with first coordinate zero, one, second zero, one.
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

    pub fn constrain(&mut self, nodes: &[usize], dofs: &[Dof]) {
        for &node in nodes {
            for &dof in dofs {
                self.shell.constraints.push(Constraint {
                    node,
                    dof,
                    value: 0.0,
                });
            }
        }
    }

    /// Holds degrees of freedom of whole edges, numbered as in [`Grid::edge`].
    pub fn constrain_edges(&mut self, edges: &[(usize, &[Dof])]) {
        for (edge, dofs) in edges {
            let nodes = self.edge(*edge);
            self.constrain(&nodes, dofs);
        }
    }

    /// A force (or moment) along one degree of freedom, spread evenly over an edge.
    pub fn edge_force(&self, edge: usize, dof: usize, total: f64) -> Load {
        let nodes = self.edge(edge);
        let pieces = (nodes.len() - 1) as f64;
        let mut load = Load::default();
        for (k, node) in nodes.iter().enumerate() {
            let end = k == 0 || k + 1 == nodes.len();
            let share = if end { 0.5 } else { 1.0 } / pieces;
            load.forces.extend(point(*node, dof, total * share).forces);
        }
        load
    }

    pub fn pressure(&self, value: f64) -> Load {
        Load {
            pressures: vec![[value; 3]; self.shell.triangles.len()],
            ..Load::default()
        }
    }
}

pub const ALL: [Dof; 6] = [Dof::X, Dof::Y, Dof::Z, Dof::TurnX, Dof::TurnY, Dof::TurnZ];

/// The linear answer to one load.
pub fn solve(shell: &Shell, load: &Load) -> State {
    let system = System::new(shell).unwrap();
    let mut workspace = Workspace::new(&system).unwrap();
    linear::solve(shell, &system, &mut workspace, std::slice::from_ref(load))
        .unwrap()
        .remove(0)
}

/// The answer to one load with large displacements.
pub fn large(shell: &Shell, load: &Load) -> (State, nonlinear::Report) {
    let system = System::new(shell).unwrap();
    let mut workspace = Workspace::new(&system).unwrap();
    nonlinear::solve(
        shell,
        &system,
        &mut workspace,
        load,
        None,
        &Default::default(),
    )
    .unwrap()
}

/// One force or moment on one node.
pub fn point(node: usize, dof: usize, value: f64) -> Load {
    let mut six = [0.0; 6];
    six[dof] = value;
    Load {
        forces: vec![(node, six)],
        ..Load::default()
    }
}

/// Holds degrees of freedom of all nodes at certain places.
pub fn constrain_where(shell: &mut Shell, dofs: &[Dof], at: impl Fn(Point3) -> bool) {
    for node in 0..shell.nodes.len() {
        if at(shell.nodes[node]) {
            for &dof in dofs {
                shell.constraints.push(Constraint {
                    node,
                    dof,
                    value: 0.0,
                });
            }
        }
    }
}

/// A quarter of a square plate of side `a`, symmetric about x = a/2 and y = a/2, its outer edges
/// simply supported or clamped, in-plane degrees of freedom held there too.
pub fn quarter_plate(n: usize, a: f64, plate: Plate, clamped: bool) -> Grid {
    let mut grid = Grid::new(n, n, plate, |s, t| {
        Point3::new(s * a / 2.0, t * a / 2.0, 0.0)
    });
    use Dof::*;
    let (west, east, south, north) = (grid.edge(0), grid.edge(1), grid.edge(2), grid.edge(3));
    grid.constrain(&west, if clamped { &ALL } else { &[X, Y, Z, TurnX] });
    grid.constrain(&south, if clamped { &ALL } else { &[X, Y, Z, TurnY] });
    grid.constrain(&east, &[X, TurnY, TurnZ]);
    grid.constrain(&north, &[Y, TurnX, TurnZ]);
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

/// Makes one shell of several whose nodes at the same place are the same. Plates are renumbered;
/// constraints are carried over.
pub fn weld(parts: &[Shell]) -> Shell {
    let mut out = Shell::default();
    let mut places: std::collections::BTreeMap<[i64; 3], usize> = Default::default();
    for part in parts {
        let plates = out.plates.len();
        let renumbered: Vec<usize> = part
            .nodes
            .iter()
            .map(|p| {
                let key = p.to_array().map(|c| (c * 1e7).round() as i64);
                *places.entry(key).or_insert_with(|| {
                    out.nodes.push(*p);
                    out.nodes.len() - 1
                })
            })
            .collect();
        out.plates.extend(&part.plates);
        out.triangles
            .extend(part.triangles.iter().map(|t| Triangle {
                nodes: t.nodes.map(|n| renumbered[n]),
                plate: t.plate + plates,
            }));
        out.constraints
            .extend(part.constraints.iter().map(|h| Constraint {
                node: renumbered[h.node],
                ..*h
            }));
    }
    out
}

/// An open box `l` by `b` by `h`, normals outward, `n` elements to `h`; floor if asked.
pub fn open_box(l: f64, b: f64, h: f64, n: usize, sheet: Plate, floor: bool) -> Shell {
    let (nl, nb) = (
        (n as f64 * l / h).round() as usize,
        (n as f64 * b / h).round() as usize,
    );
    let with = |axis: Vec3| Plate { axis, ..sheet };
    let mut parts = vec![
        Grid::new(nl, n, with(Vec3::X), |s, t| Point3::new(s * l, 0.0, t * h)),
        Grid::new(nb, n, with(Vec3::Y), |s, t| Point3::new(l, s * b, t * h)),
        Grid::new(nl, n, with(Vec3::X), |s, t| {
            Point3::new((1.0 - s) * l, b, t * h)
        }),
        Grid::new(nb, n, with(Vec3::Y), |s, t| {
            Point3::new(0.0, (1.0 - s) * b, t * h)
        }),
    ];
    if floor {
        parts.push(Grid::new(nb, nl, with(Vec3::X), |s, t| {
            Point3::new(t * l, s * b, 0.0)
        }));
    }
    weld(&parts.into_iter().map(|g| g.shell).collect::<Vec<_>>())
}

/// Liquid full to `h` in a shell whose normals point outward.
pub fn full(shell: &Shell, weight: f64, h: f64) -> Load {
    let pressure = |n: usize| weight * (h - shell.nodes[n].z);
    Load {
        pressures: shell
            .triangles
            .iter()
            .map(|t| t.nodes.map(pressure))
            .collect(),
        ..Load::default()
    }
}

/// The node nearest to a place.
pub fn nearest(shell: &Shell, x: f64, y: f64, z: f64) -> usize {
    let target = Point3::new(x, y, z);
    (0..shell.nodes.len())
        .min_by(|a, b| {
            shell.nodes[*a]
                .distance(target)
                .total_cmp(&shell.nodes[*b].distance(target))
        })
        .unwrap()
}
