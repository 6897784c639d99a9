//! Large turns: quantities `what share-of-the-load`, the loads taken one after the other.

use super::compare::{Ask, Values};
use super::shell_support::{ALL, Grid, plate};
use brimful_geom::vector::{Point3, Vec3};
use brimful_mech::shell::model::Load;
use brimful_mech::shell::nonlinear::{self, Prior, Steps};
use brimful_mech::shell::{State, System, Workspace};
use std::f64::consts::TAU;

/// Cantilever under end shear.
pub fn cantilever(ask: &Ask) -> Values {
    let n = ask.doubled(8);
    let mut grid = Grid::new(n, 1, plate(0.1, 1.2e6, 0.0, Vec3::X), |s, t| {
        Point3::new(10.0 * s, t, 0.0)
    });
    grid.constrain_edges(&[(0, &ALL)]);
    let tip = grid.node(n, 0);
    follow(ask, &grid, 1, 4.0, |state| {
        [
            ("-U", -state.displacements[tip][0]),
            ("W", state.displacements[tip][2]),
        ]
    })
}

/// Annular plate, slit, clamped on one side of the slit and lifted at the other.
pub fn slit_annulus(ask: &Ask) -> Values {
    let (across, round) = (ask.doubled(3), ask.doubled(20));
    let mut grid = Grid::new(across, round, plate(0.03, 21e6, 0.0, Vec3::X), |s, t| {
        let r = 6.0 + 4.0 * s;
        Point3::new(r * (TAU * t).cos(), r * (TAU * t).sin(), 0.0)
    });
    grid.constrain_edges(&[(2, &ALL)]);
    let (inner, outer) = (grid.node(0, round), grid.node(across, round));
    follow(ask, &grid, 3, 0.8 * 4.0, |state| {
        [
            ("WA", state.displacements[inner][2]),
            ("WB", state.displacements[outer][2]),
        ]
    })
}

/// Raises a force along z on an edge through all shares that are asked for.
fn follow(
    ask: &Ask,
    grid: &Grid,
    edge: usize,
    most: f64,
    read: impl Fn(&State) -> [(&'static str, f64); 2],
) -> Values {
    let words = ask
        .quantities
        .iter()
        .filter_map(|q| q.split_whitespace().nth(1));
    let mut shares: Vec<&str> = words.collect();
    // The two displacements at one share stand beside each other.
    shares.dedup();
    let system = System::new(&grid.shell).expect("the shell can be numbered");
    let mut work = Workspace::new(&system).expect("there is room");
    let mut last: Option<(Load, State)> = None;
    let mut out = Values::new();
    for share in shares {
        let load = grid.edge_force(edge, 2, most * share.parse::<f64>().unwrap_or(f64::NAN));
        let prior = last.as_ref().map(|(load, state)| Prior {
            shell: &grid.shell,
            load,
            state,
        });
        let (state, _) = nonlinear::solve(
            &grid.shell,
            &system,
            &mut work,
            &load,
            prior.as_ref(),
            &Steps::default(),
        )
        .unwrap_or_else(|fault| panic!("{}, {share} of the load: {fault:?}", ask.case));
        for (name, value) in read(&state) {
            out.insert(format!("{name} {share}"), value);
        }
        last = Some((load, state));
    }
    out
}
