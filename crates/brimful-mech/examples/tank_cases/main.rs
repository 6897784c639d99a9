//! Whole tanks of flats, meshed and solved, as one line of JSON a solve: what is compared with
//! other codes by `tests/outside/check_ccx.py` and `benches/against_ccx.py`.
//!
//! ```text
//! tank_cases [--large] [--repeat N] TANK SIZE...
//! ```
//!
//! SIZE is the wanted side of elements in metres; without arguments the names of the tanks are
//! listed. Each line holds the tank too (its mid-surfaces, sheet and supports), so that the other
//! side can build its own from it. SI throughout.
#![allow(clippy::print_stdout)] // This is what the program is for.

mod build;
mod json;
mod reading;
mod tanks;

use brimful_mech::shell::nonlinear::{self, Steps};
use brimful_mech::shell::{State, System, Workspace, linear};
use build::{Built, build};
use reading::{imbalance, read};
use std::error::Error;
use std::time::Instant;
use tanks::{Tank, tanks};

fn main() -> Result<(), Box<dyn Error>> {
    let mut words: Vec<String> = std::env::args().skip(1).collect();
    let large = words
        .iter()
        .position(|w| w == "--large")
        .map(|at| words.remove(at));
    let mut repeat = 1;
    if let Some(at) = words.iter().position(|w| w == "--repeat") {
        repeat = words
            .get(at + 1)
            .ok_or("--repeat needs a number")?
            .parse()?;
        words.drain(at..at + 2);
    }
    let Some((name, sizes)) = words.split_first() else {
        tanks().iter().for_each(|tank| println!("{}", tank.name));
        return Ok(());
    };
    let tank = tanks()
        .into_iter()
        .find(|t| t.name == name)
        .ok_or(format!("no tank is called {name}"))?;
    for size in sizes {
        for _ in 0..repeat {
            println!("{}", solved(&tank, size.parse()?, large.is_some())?);
        }
    }
    Ok(())
}

/// One solve as JSON, with the seconds that each part of it took.
fn solved(tank: &Tank, size: f64, large: bool) -> Result<String, Box<dyn Error>> {
    let start = Instant::now();
    let built = build(tank, size, large)?;
    let meshed = start.elapsed().as_secs_f64();
    let (system, state) = solve(&built, large)?;
    let reading = read(tank, &built, &system, &state)?;
    let all = start.elapsed().as_secs_f64();
    let balance = if large {
        None
    } else {
        Some(imbalance(&built, &state))
    };
    Ok(json::object(&[
        ("tank", json::tank(tank, large)),
        ("large", large.to_string()),
        ("size", json::number(size)),
        ("nodes", built.shell.nodes.len().to_string()),
        ("unknowns", system.unknowns().to_string()),
        ("mesh_seconds", json::number(meshed)),
        ("seconds", json::number(all)),
        ("deflections", json::numbers(reading.deflections)),
        ("moments", json::curves(&reading.moments)),
        ("energy", json::number(state.energy)),
        ("imbalance", balance.map_or("null".into(), json::number)),
    ]))
}

fn solve(built: &Built, large: bool) -> Result<(System, State), Box<dyn Error>> {
    let system = System::new(&built.shell)?;
    let mut workspace = Workspace::new(&system)?;
    let state = if large {
        nonlinear::solve(
            &built.shell,
            &system,
            &mut workspace,
            &built.load,
            None,
            &Steps::default(),
        )?
        .0
    } else {
        let load = std::slice::from_ref(&built.load);
        linear::solve(&built.shell, &system, &mut workspace, load)?.remove(0)
    };
    Ok((system, state))
}
