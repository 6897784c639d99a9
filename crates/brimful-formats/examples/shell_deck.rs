//! Decks of one square plate, 1 m by 1 m, with answers that are known, for a solver to read.
//!
//! ```text
//! shell_deck clamped | clamped-plastic | springs | weight | touched | untouched | warm
//! ```
#![allow(clippy::print_stdout)] // This is what the program is for.

use brimful_formats::deck::{Deck, DeckContact, DeckShell, DeckSpring, write};
use std::error::Error;

/// Elements along a side.
const SIDE: usize = 16;
const UP: [f64; 3] = [0.0, 0.0, 1.0];
const DOWN: [f64; 3] = [0.0, 0.0, -1.0];

fn main() -> Result<(), Box<dyn Error>> {
    let which = std::env::args().nth(1).ok_or("which deck?")?;
    let mut deck = plate();
    let corners = [at(0, 0), at(SIDE, 0), at(0, SIDE), at(SIDE, SIDE)];
    if which.starts_with("clamped") {
        deck.shells[0].modulus = 1e9;
        if which == "clamped-plastic" {
            deck.shells[0].poisson = 0.45;
        }
        let edge = (0..=SIDE).flat_map(|i| [at(i, 0), at(i, SIDE), at(0, i), at(SIDE, i)]);
        deck.constraints = edge
            .flat_map(|node| (1..=6).map(move |dof| (node, dof, 0.0)))
            .collect();
    } else {
        deck.constraints = vec![
            (corners[0], 1, 0.0),
            (corners[0], 2, 0.0),
            (corners[1], 2, 0.0),
        ];
        deck.springs = corners
            .map(|node| DeckSpring {
                node,
                direction: UP,
                stiffness: 1e3,
            })
            .to_vec();
    }
    let contact = |node| DeckContact {
        node,
        push: DOWN,
        gap: 0.002,
        stiffness: 1e3,
    };
    match which.as_str() {
        "clamped" | "clamped-plastic" | "springs" => {}
        // Grows between two sides that do not move apart.
        "warm" => {
            deck.shells[0].pressures.clear();
            deck.shells[0].growth = 0.002;
            let sides = (0..=SIDE).flat_map(|j| [at(0, j), at(SIDE, j)]);
            deck.constraints = sides.map(|node| (node, 1, 0.0)).collect();
            deck.constraints.push((corners[0], 2, 0.0));
        }
        "weight" => {
            deck.shells[0].pressures.clear();
            deck.body_acceleration = DOWN;
        }
        "touched" => deck.contacts = corners.map(contact).to_vec(),
        "untouched" => {
            deck.contacts = corners.map(contact).to_vec();
            deck.shells[0].pressures.iter_mut().for_each(|p| *p = -*p);
        }
        other => return Err(format!("there is no deck {other}").into()),
    }
    print!("{}", write(&deck)?);
    Ok(())
}

/// Seen from above its triangles go round counter-clockwise; 10 Pa presses them up. So stiff that
/// it stays plane.
fn plate() -> Deck {
    let place = |i: usize| i as f64 / SIDE as f64;
    let nodes = (0..=SIDE).flat_map(|j| (0..=SIDE).map(move |i| [place(i), place(j), 0.0]));
    let cells = (0..SIDE).flat_map(|j| (0..SIDE).map(move |i| (i, j)));
    let triangles: Vec<[usize; 3]> = cells
        .flat_map(|(i, j)| {
            let (a, b, c, d) = (at(i, j), at(i + 1, j), at(i + 1, j + 1), at(i, j + 1));
            // The cuts alternate, so that the plate is as its mirror image.
            if (i + j) % 2 == 0 {
                [[a, b, c], [a, c, d]]
            } else {
                [[a, b, d], [b, c, d]]
            }
        })
        .collect();
    let sheet = DeckShell {
        name: "plate".into(),
        pressures: vec![10.0; triangles.len()],
        triangles,
        thickness: 0.01,
        modulus: 1e12,
        poisson: 0.3,
        density: 1000.0,
        growth: 0.0,
    };
    Deck {
        nodes: nodes.collect(),
        shells: vec![sheet],
        ..Deck::default()
    }
}

fn at(i: usize, j: usize) -> usize {
    j * (SIDE + 1) + i
}
