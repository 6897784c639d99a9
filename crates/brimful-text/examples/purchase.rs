//! Writes `docs/purchase-verdicts.md` to standard output: the verdict on the layouts of purchase
//! specifications, or on the job files that are named.
//!
//! `target/release/examples/purchase > docs/purchase-verdicts.md`

#![allow(clippy::print_stdout, reason = "its output is a page")]

#[allow(dead_code, reason = "the examples have a page of their own")]
#[path = "../tests/verdicts/page.rs"]
mod page;

use brimful_panels::case::{Fill, LoadKind};
use page::{Loads, checked, of_plan};
use std::path::PathBuf;

const HEAD: &str = "# Verdicts on layouts of public purchase specifications

What the whole check says of `tests/outside/purchase/*.job.toml`: what stops each, by cause, worst first; then of sheet
and welds what asks most full at rest, under all loads that last, in events with liquid on both sides of every partition, and
in events with liquid on one side of one. Written by `target/release/examples/purchase > docs/purchase-verdicts.md` and
compared by `make soak`; what it means stands in [purchase-layouts.md](purchase-layouts.md).
";

const LAYOUTS: [&str; 3] = ["fire-300-gal", "fire-500-gal", "fire-1000-gal"];

fn main() {
    let named: Vec<PathBuf> = std::env::args_os().skip(1).map(PathBuf::from).collect();
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../tests/outside/purchase");
    let layouts = LAYOUTS.map(|name| PathBuf::from(folder).join(format!("{name}.job.toml")));
    let paths = if named.is_empty() {
        layouts.to_vec()
    } else {
        named
    };
    let kinds: [Loads; 4] = [
        |run| run.case.id.kind == LoadKind::Rest,
        |run| run.case.creeps(),
        |run| !run.case.creeps() && run.case.id.fill == Fill::All,
        |run| !run.case.creeps() && run.case.id.fill != Fill::All,
    ];
    print!("{HEAD}");
    for path in paths {
        let name = path.file_name().unwrap_or_default().to_string_lossy();
        print!("\n{}", of_plan(&name, &checked(&path), &kinds));
    }
}
