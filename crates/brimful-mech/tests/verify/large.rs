//! Square plates under pressure with large displacements: case `EDGES in-plane`, quantities
//! `Q load what`, load in E t^4 / a^4, stresses in E t^2 / a^2.

use super::compare::{Ask, Values};
use super::read::Answer;
use super::shell_support::{Grid, plate, quarter_plate};
use brimful_geom::vector::{Point3, Vec3};
use brimful_mech::shell::model::{Dof, Load};
use brimful_mech::shell::nonlinear::{self, Prior, Steps};
use brimful_mech::shell::{State, System, Workspace};

const THICKNESS: f64 = 0.01;
const MODULUS: f64 = 1e9;
/// Elements over half of a side on the coarse mesh.
const COARSE: usize = 4;
/// Edges that stay straight are where they have to be when their total force is this share of
/// the largest that they had in between; stresses are printed to a thousandth.
const FORCE_LEFT: f64 = 1e-4;

/// The loads in rising order, each from where the one before ended.
pub fn run(ask: &Ask) -> Values {
    let n = ask.doubled(COARSE);
    let sheet = plate(THICKNESS, MODULUS, 0.316, Vec3::X);
    let (clamped, straight) = match ask.case {
        "SSSS held" => (false, false),
        "SSSS straight" => (false, true),
        "CCCC held" => (true, false),
        other => panic!("no plate is called {other}"),
    };
    let mut grid = if straight {
        sliding_quarter(n)
    } else {
        quarter_plate(n, 1.0, sheet, clamped)
    };
    let mut loads: Vec<&str> = ask
        .quantities
        .iter()
        .filter_map(|q| q.split_whitespace().nth(1))
        .collect();
    loads.sort_by(|a, b| value(a).total_cmp(&value(b)));
    loads.dedup();
    let mut way = Way::new(&grid);
    let mut out = Values::new();
    for name in loads {
        let load = grid.pressure(value(name) * MODULUS * THICKNESS.powi(4));
        if straight {
            way.straight(&mut grid, &load);
        } else {
            way.go(&grid, &load);
        }
        let answer = Answer::of(&grid.shell, &way.system, &load, way.state.clone());
        let centre = grid.node(n, n);
        let middle = answer.at(0, centre);
        let edge = answer.at(0, grid.node(0, n));
        let unit = MODULUS * THICKNESS * THICKNESS;
        for (what, value) in [
            ("w/t", answer.moved(centre, 2) / THICKNESS),
            ("membrane", middle.force[0] / THICKNESS / unit),
            ("bending", 6.0 * middle.moment[0] / THICKNESS.powi(2) / unit),
            ("edge membrane", edge.force[0] / THICKNESS / unit),
            (
                "edge bending",
                6.0 * edge.moment[0] / THICKNESS.powi(2) / unit,
            ),
        ] {
            out.insert(format!("Q {name} {what}"), value);
        }
    }
    out
}

fn value(word: &str) -> f64 {
    word.parse().unwrap_or(f64::NAN)
}

/// A quarter whose simply supported edges slide along themselves and move as a whole: how far is
/// the value of their constraints.
fn sliding_quarter(n: usize) -> Grid {
    use Dof::{TurnX, TurnY, TurnZ, X, Y, Z};
    let sheet = plate(THICKNESS, MODULUS, 0.316, Vec3::X);
    let mut grid = Grid::new(n, n, sheet, |s, t| Point3::new(0.5 * s, 0.5 * t, 0.0));
    grid.constrain_edges(&[
        (0, &[X, Z, TurnX]),
        (2, &[Y, Z, TurnY]),
        (1, &[X, TurnY, TurnZ]),
        (3, &[Y, TurnX, TurnZ]),
    ]);
    grid
}

/// From load to load on one mesh.
struct Way {
    system: System,
    work: Workspace,
    load: Load,
    state: State,
    /// How far the straight edges have come in, and by how much for a square of the deflection.
    inward: f64,
}

impl Way {
    fn new(grid: &Grid) -> Self {
        let system = System::new(&grid.shell).expect("the plate can be numbered");
        Self {
            work: Workspace::new(&system).expect("there is room"),
            system,
            load: Load::default(),
            state: State::default(),
            inward: 0.0,
        }
    }

    fn go(&mut self, grid: &Grid, load: &Load) {
        let prior = Prior {
            shell: &grid.shell,
            load: &self.load,
            state: &self.state,
        };
        let prior = (!self.state.displacements.is_empty()).then_some(&prior);
        let (state, _) = nonlinear::solve(
            &grid.shell,
            &self.system,
            &mut self.work,
            load,
            prior,
            &Steps::default(),
        )
        .expect("the plate bears the load");
        self.state = state;
        self.load = load.clone();
    }

    /// Moves the straight edges until nothing holds them: by the secant, since at a given load
    /// their force is nearly linear in their motion.
    fn straight(&mut self, grid: &mut Grid, load: &Load) {
        let first = (self.inward, self.edge_force(grid, load, self.inward));
        // A little more than half of the square of a deflection of one thickness: what a sine
        // wave of that height takes in, (pi w / 4 a)^2 a.
        let guess = self.inward + 0.6 * THICKNESS * THICKNESS;
        let (mut before, mut last) = (first, (guess, self.edge_force(grid, load, guess)));
        let most = first.1.abs().max(last.1.abs());
        for _ in 0..8 {
            if last.1.abs() <= FORCE_LEFT * most {
                break;
            }
            let next = last.0 - last.1 * (last.0 - before.0) / (last.1 - before.1);
            before = last;
            last = (next, self.edge_force(grid, load, next));
        }
        assert!(
            last.1.abs() <= FORCE_LEFT * most,
            "the edges are not let go"
        );
        self.inward = last.0;
    }

    fn edge_force(&mut self, grid: &mut Grid, load: &Load, inward: f64) -> f64 {
        let sliding = |node: usize, dof: Dof, grid: &Grid| {
            let place = grid.shell.nodes[node];
            (dof == Dof::X && place.x == 0.0) || (dof == Dof::Y && place.y == 0.0)
        };
        let places: Vec<usize> = (0..grid.shell.constraints.len())
            .filter(|&h| {
                sliding(
                    grid.shell.constraints[h].node,
                    grid.shell.constraints[h].dof,
                    grid,
                )
            })
            .collect();
        for &place in &places {
            grid.shell.constraints[place].value = inward;
        }
        self.go(grid, load);
        places
            .iter()
            .map(|&h| self.state.constraint_forces[h])
            .sum()
    }
}
