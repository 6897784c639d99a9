//! The plate tables between their rows, against the shell: as far from a row as can be, in shape and
//! in Poisson's ratio.

#![allow(clippy::unwrap_used)] // A test's helper that fails fails the test.

mod shell_support;

use brimful_geom::vector::{Point3, Vec3};
use brimful_mech::plate::{Edges, Load as PlateLoad, Plate as Rectangle, bend};
use brimful_mech::shell::model::{Dof, Load};
use brimful_mech::shell::{System, recover};
use shell_support::{Grid, constrain_where, plate, solve};
use std::collections::BTreeMap;

/// What `plate/mod.rs` promises.
const SHARE: f64 = 0.01;
/// And where it has more, which is on the safe side.
const AT_CHANGE_OF_PLACE: f64 = 0.015;
/// Elements over half of the shorter side; errors fall with the square of their size, and from 20 and
/// 40 the shell is within 0.1 % of the rows themselves.
const HALVES: [usize; 2] = [20, 40];
/// Of a clamped side that ends free the tables leave out the last tenth, where the moment has no bound.
const UP_TO: f64 = 0.9;

#[derive(Clone, Copy)]
struct Case {
    edges: Edges,
    falling: bool,
    ratio: f64,
    poisson: f64,
}

impl Case {
    fn free_top(&self) -> bool {
        matches!(self.edges, Edges::HingedFreeTop | Edges::ClampedFreeTop)
    }

    fn clamped(&self) -> bool {
        matches!(self.edges, Edges::Clamped | Edges::ClampedFreeTop)
    }

    /// How much more than the shell the table may have.
    fn over(&self, what: &str) -> f64 {
        let changes = self.edges == Edges::HingedFreeTop && self.falling && what == "deflection";
        if changes && (1.25..1.35).contains(&self.ratio) {
            AT_CHANGE_OF_PLACE
        } else {
            SHARE
        }
    }

    /// Largest deflection, field moment and edge moment of a plate one wide with `D = 1`, by the shell.
    fn by_shell(&self) -> [f64; 3] {
        let [coarse, fine] = HALVES.map(|half| self.on_mesh(half));
        std::array::from_fn(|i| fine[i] + (fine[i] - coarse[i]) / 3.0)
    }

    /// The left half of the plate.
    fn on_mesh(&self, half: usize) -> [f64; 3] {
        use Dof::{TurnX, TurnY, TurnZ, X, Y, Z};
        let (short, b) = (self.ratio.min(1.0), self.ratio);
        // Rows in twenties on both meshes, so that these have nodes at half the height and where the
        // tables leave a side.
        let cells = |length: f64| length / short * HALVES[0] as f64;
        let finer = half / HALVES[0];
        let columns = finer * cells(1.0).round() as usize;
        let rows = finer * 20 * (2.0 * cells(b) / 20.0).round() as usize;
        let sheet = plate(
            0.01,
            12e6 * (1.0 - self.poisson.powi(2)),
            self.poisson,
            Vec3::X,
        );
        let mut grid = Grid::new(columns, rows, sheet, |s, t| {
            Point3::new(0.5 * s, b * t, 0.0)
        });
        constrain_where(&mut grid.shell, &[X, Y, TurnZ], |_| true);
        grid.constrain_edges(&[(1, &[TurnY])]);
        let along = |dof| {
            if self.clamped() {
                vec![Z, TurnX, TurnY]
            } else {
                vec![Z, dof]
            }
        };
        grid.constrain_edges(&[(0, &along(TurnX)), (2, &along(TurnY))]);
        if !self.free_top() {
            grid.constrain_edges(&[(3, &along(TurnY))]);
        }
        let nodes = &grid.shell.nodes;
        let pressure = |node: usize| {
            if self.falling {
                1.0 - nodes[node].y / b
            } else {
                1.0
            }
        };
        let pressures = grid.shell.triangles.iter().map(|t| t.nodes.map(pressure));
        let load = Load {
            pressures: pressures.collect(),
            ..Load::default()
        };
        let state = solve(&grid.shell, &load);
        let system = System::new(&grid.shell).unwrap();
        let raw = recover::resultants(&grid.shell, &system, &load, &state).unwrap();
        let smooth = recover::smooth(&grid.shell, &system, &raw, &Default::default());
        let mut moments = vec![[0.0; 2]; nodes.len()];
        for (triangle, corners) in grid.shell.triangles.iter().zip(&smooth.corners) {
            for (&node, corner) in triangle.nodes.iter().zip(corners) {
                moments[node] = [corner.moment[0], corner.moment[1]];
            }
        }
        let deflection = largest(state.displacements.iter().map(|six| six[2]));
        let field = largest(moments.iter().flatten().copied());
        let up_to = if self.free_top() { UP_TO * b } else { b };
        let on_side = grid
            .edge(0)
            .into_iter()
            .filter(|&node| nodes[node].y <= up_to + 1e-9);
        let on_foot = grid.edge(2).into_iter();
        let on_top = grid.edge(3).into_iter().filter(|_| !self.free_top());
        let square_to = on_side.map(|n| -moments[n][0]);
        let square_to = square_to.chain(on_foot.chain(on_top).map(|n| -moments[n][1]));
        let edge = if self.clamped() {
            largest(square_to)
        } else {
            0.0
        };
        [deflection, field, edge]
    }

    /// The same by the tables.
    fn by_table(&self) -> [f64; 3] {
        let thickness: f64 = 1e3;
        let rectangle = Rectangle {
            width: 1.0,
            height: self.ratio,
            thickness,
            modulus: 12.0 * (1.0 - self.poisson.powi(2)) / thickness.powi(3),
            poisson: self.poisson,
        };
        let mut load = PlateLoad::default();
        *if self.falling {
            &mut load.falling_up
        } else {
            &mut load.uniform
        } = 1.0;
        let bent = bend(&rectangle, self.edges, &load).unwrap();
        [bent.deflection, bent.field_moment, bent.edge_moment]
    }
}

fn largest(values: impl Iterator<Item = f64>) -> f64 {
    values.fold(0.0, f64::max)
}

/// Halfway between each two rows of each table, in the variable that is interpolated in.
fn between_rows() -> Vec<Case> {
    let text = include_str!("../src/plate/data/plates.csv");
    let mut ratios: BTreeMap<(Edges, bool), Vec<f64>> = BTreeMap::new();
    for line in text.lines().skip(1) {
        let cells: Vec<&str> = line.split(',').collect();
        let edges = match cells[0] {
            "hinged" => Edges::Hinged,
            "clamped" => Edges::Clamped,
            "hinged free top" => Edges::HingedFreeTop,
            "clamped free top" => Edges::ClampedFreeTop,
            other => panic!("edges {other}"),
        };
        if cells[2] == "0.3" {
            let own = ratios
                .entry((edges, cells[1] == "hydrostatic"))
                .or_default();
            own.push(cells[3].parse().unwrap());
        }
    }
    let place = |ratio: f64| {
        if ratio.is_infinite() {
            1.0
        } else {
            ratio / (1.0 + ratio)
        }
    };
    let mut cases = Vec::new();
    for ((edges, falling), ratios) in ratios {
        for pair in ratios.windows(2) {
            let middle = 0.5 * (place(pair[0]) + place(pair[1]));
            let ratio = middle / (1.0 - middle);
            let of = |poisson| Case {
                edges,
                falling,
                ratio,
                poisson,
            };
            // Halfway between the tables with a free top; the others are for 0.3, and turned.
            let free_top = of(0.0).free_top();
            cases.extend(
                if free_top {
                    [0.3375, 0.4125]
                } else {
                    [0.2, 0.45]
                }
                .map(of),
            );
        }
    }
    cases
}

#[test]
fn between_the_rows_the_tables_are_the_shells() {
    let mut off = Vec::new();
    for case in between_rows() {
        let (table, shell) = (case.by_table(), case.by_shell());
        for (what, (table, shell)) in ["deflection", "field", "edge"]
            .iter()
            .zip(table.iter().zip(shell))
        {
            if *table < (1.0 - SHARE) * shell || *table > (1.0 + case.over(what)) * shell {
                off.push(format!(
                    "{:?} falling {} height {:.4} Poisson {}: {what} {:+.2} %",
                    case.edges,
                    case.falling,
                    case.ratio,
                    case.poisson,
                    100.0 * (table / shell - 1.0)
                ));
            }
        }
    }
    assert!(off.is_empty(), "{}", off.join("\n"));
}
