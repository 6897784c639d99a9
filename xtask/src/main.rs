//! Repo checks that the compiler cannot make: which room may know which.
//!
//! `cargo test -p xtask` runs them; `cargo run -p xtask` lists what they hold.

#![allow(clippy::print_stdout, reason = "a tool that prints")]

#[cfg(test)]
mod imports;
mod order;

fn main() {
    for (room, may_import) in order::ROOMS {
        println!("{room} may import {may_import:?}");
    }
    for (room, modules) in order::STAGES {
        println!("{room}: {modules:?}, each only from those before it");
    }
}
