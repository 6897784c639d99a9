//! Ours beside published figures: what the test asserts and the page shows.
// The test and the generator of the page each use their own part.
#![allow(dead_code)]

mod cases;
#[path = "../../../brimful-mech/tests/verify/compare.rs"]
mod compare;
#[path = "../../../brimful-mech/tests/verify/page.rs"]
mod page;
#[path = "../../../brimful-mech/tests/verify/subject.rs"]
pub mod subject;
#[path = "../../../brimful-mech/tests/verify/table.rs"]
pub mod table;

pub use compare::{Ask, Group, Values, compare};
pub use subject::Subject;
use subject::subjects;

subjects! {
    "slosh":
    "box": cases::long_box,
    "box_3d": cases::wide_box,
    "cylinder": cases::cylinder,
    "ring": cases::ring,
    "canals": cases::canal,
    "baffles": cases::baffle,
}

const INTRO: &str = "# Verification of liquid in small waves

Natural modes of a liquid with a free surface (`crates/brimful-slosh`) against closed forms and figures by methods that share nothing
with it, on three grids each. The data lies in `verify/slosh`, the computation in `crates/brimful-slosh/tests/verify`; the tables
read as those above.

    cargo test --release -p brimful-slosh --test verify                          # asserts all of it
    cargo run --release -p brimful-slosh --example slosh_verification             # writes this part

Inside the engine: finite volumes on a staggered cut-cell grid, conductances fitted to the flow about the edges of plates, block
Krylov vectors on a sparse factor. Tables of masses and heights check the sums over all modes as well: `m 0` and `h 0` are
what those leave over.

Left out here, and covered by `crates/brimful-slosh/tests/modes.rs`: round holes down to a fifth of a cell (the conductance of a hole in a
thin wall), bodies of liquid that are joined nowhere, double modes of a square, cavities turned and rolled, the errors from two grids.
";

/// This part of the page.
pub fn page<'a>(groups: impl Iterator<Item = &'a Group>) -> String {
    page::page(INTRO, groups)
}
