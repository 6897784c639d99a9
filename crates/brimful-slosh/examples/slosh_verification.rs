//! Writes the second part of `docs/verification.md` to standard output: ours beside published figures.
//!
//! `cargo run --release -p brimful-slosh --example slosh_verification >> docs/verification.md`
#![allow(clippy::print_stdout)] // This is what the program is for.

#[path = "../tests/verify/mod.rs"]
mod verify;

fn main() {
    let groups: Vec<verify::Group> = verify::SUBJECTS
        .iter()
        .map(verify::Subject::group)
        .collect();
    print!("\n{}", verify::page(groups.iter()));
}
