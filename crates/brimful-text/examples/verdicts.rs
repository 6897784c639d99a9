//! Writes `docs/examples.md` to standard output: the verdict on every example.
//!
//! `cargo run --release -p brimful-text --example verdicts > docs/examples.md`

#![allow(clippy::print_stdout, reason = "its output is a page")]

#[path = "../tests/verdicts/page.rs"]
mod page;

fn main() {
    print!("{}", page::page());
}
