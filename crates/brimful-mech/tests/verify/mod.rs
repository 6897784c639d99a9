//! Ours beside published figures: what the test asserts and the page shows.
// The test and the generator of the page each use their own part.
#![allow(dead_code)]

mod buckling;
mod compare;
mod folds;
mod large;
mod obstacles;
mod page;
mod patch;
mod plates;
mod read;
#[path = "../shell_support/mod.rs"]
mod shell_support;
pub mod subject;
pub mod table;
mod turning;
mod vibration;

pub use compare::{Ask, Group, Values, compare};
pub use subject::Subject;
use subject::subjects;

subjects! {
    "shell":
    "patch": patch::run,
    "plate_ssss_uniform": plates::run,
    "plate_cccc_uniform": plates::run,
    "plate_ssss_hydrostatic": plates::run,
    "plate_cccc_hydrostatic": plates::run,
    "plate_sssf": plates::run,
    "plate_cccf": plates::run,
    "large_table": large::run,
    "large_levy": large::run,
    "large_pica": large::run,
    "large_roark": large::run,
    "vibration_square": vibration::square,
    "vibration_fv12": vibration::free_plate,
    "buckling": buckling::run,
    "cantilever": obstacles::cantilever,
    "twisted_beam": obstacles::twisted_beam,
    "scordelis_lo": obstacles::roof,
    "pinched_cylinder": obstacles::pinched_cylinder,
    "hemisphere": obstacles::hemisphere,
    "cook": obstacles::membrane,
    "le6": obstacles::skew_plate,
    "trough": folds::trough,
    "four_walls": folds::tank,
    "whole_tank": folds::tank,
    "double_cell": vibration::double_cell,
    "sze_cantilever": turning::cantilever,
    "sze_annulus": turning::slit_annulus,
}

const INTRO: &str = "# Verification of the shell engine

Every figure below was published, or computed by a method that has nothing in common with this
engine, and is recomputed here on three meshes. The data lies in `verify/shell`, one file a
table, with its source and tolerances; the computation in `crates/brimful-mech/tests/verify`.

    cargo test --release -p brimful-mech --test verify                          # asserts all of it
    cargo run --release -p brimful-mech --example verification > docs/verification.md  # writes this page,
    cargo run --release -p brimful-slosh --example slosh_verification >> docs/verification.md # and its second part

How to read the tables:

- *coarse, middle, fine*: ours on three meshes, each finer by the same ratio.
- *order*: observed order of convergence, Richardson's from the three meshes. `–` where the last
  change is too small to tell; `~` where the changes do not shrink steadily.
- *error*: fine against the reference. *allowed*: what the test allows, half a unit of the last
  printed digit of the reference on top.
- *seen*: read in the named public file or document; *from memory*: a published value that was
  not seen again; *computed*: by an independent method (Ritz series, closed form, another
  general program), not by this engine.
- **outside**: the engine does not cover this; the test asserts what it comes to instead, and
  that this is not the reference.
- Numbers of tables and sections of books, and details of titles, are cited from memory.

Inside the engine: discrete Kirchhoff bending (no shear strain across the thickness) and
Felippa's optimal membrane triangle with drilling turns, flat, three nodes; large displacements
by a corotational frame.

Left out: the stiffened barrel with spherical caps (231.48 Hz and so on), a curved body whose
published figures belong to meshes of their own.
";

/// The whole page.
pub fn page<'a>(groups: impl Iterator<Item = &'a Group>) -> String {
    page::page(INTRO, groups)
}
