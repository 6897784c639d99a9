//! What the whole-tank check came to under the load that its deck is written for, on the deck's own
//! mesh, to compare an outside program with.
//!
//! `cargo run --release -p brimful-tank --example deck_answer -- JOB`
//!
//! One JSON object: the load case; by node how far it moves (m); by triangle, in the order of the
//! deck's elements, its flat, its corners and the surface stress there (Pa: von Mises' or the largest
//! principal one, whichever is more, evened out over the flat's triangles at the corner). `null` where
//! there is no deck.

#![allow(
    clippy::print_stdout,
    clippy::expect_used,
    reason = "figures for a comparison, printed"
)]

use brimful_job::Job;
use brimful_panels::progress::Unwatched;
use brimful_tank::plan::{Depth, plan_watched};

fn main() {
    let path = std::env::args().nth(1).expect("which job?");
    let text = std::fs::read_to_string(&path).expect("the job can be read");
    let job = Job::parse(&text).expect("the job parses");
    let plan = plan_watched(job, Depth::Whole, &Unwatched).expect("the job works out");
    let whole = plan.whole.as_ref().expect("the whole tank is checked");
    let picture = whole.picture.as_ref();
    let Some((picture, run)) = picture.and_then(|own| Some((own, whole.case(own.case)?))) else {
        println!("null");
        return;
    };
    let flat = |triangle: usize| picture.shell.triangles[triangle].plate;
    let mut order: Vec<usize> = (0..picture.used.len()).collect();
    order.sort_by_key(|&triangle| flat(triangle));
    let triangles: Vec<_> = order
        .into_iter()
        .map(|triangle| {
            let allowed = run.limits.of_panel(picture.panel[triangle]).sheet.pa();
            let stress = picture.used[triangle].map(|used| used * allowed);
            format!(
                "{{\"flat\": {}, \"nodes\": {:?}, \"stress\": {stress:?}}}",
                flat(triangle) + 1,
                picture.shell.triangles[triangle].nodes
            )
        })
        .collect();
    println!(
        "{{\"case\": \"{}\", \"moved\": {:?}, \"triangles\": [{}]}}",
        picture.case,
        picture.moved,
        triangles.join(", ")
    );
}
