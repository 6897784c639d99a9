//! Repo checks that the compiler cannot make: which name may know which.
//!
//! `cargo test -p xtask` runs them; `cargo run -p xtask` lists what they hold.

#![allow(clippy::print_stdout, reason = "a tool that prints")]

#[cfg(test)]
mod imports;
mod order;

fn main() {
    for (name, may_import) in order::CRATES {
        println!("{name} may import {may_import:?}");
    }
    for (name, modules) in order::STAGES {
        println!("{name}: {modules:?}, each only from those before it");
    }
}
