//! Where the time of the whole-tank check goes: each step of a job's plan with when it began.
//!
//! `cargo run --release -p brimful-tank --example check_cost -- JOB...`

#![allow(
    clippy::print_stdout,
    clippy::expect_used,
    reason = "a measurement, printed"
)]

use brimful_job::Job;
use brimful_panels::progress::{Progress, Step};
use brimful_tank::plan::{Depth, plan_watched};
use std::time::Instant;

/// Prints what is begun, and when.
struct Clocked(Instant);

impl Progress for Clocked {
    fn is_cancelled(&self) -> bool {
        false
    }

    fn step(&self, step: Step) {
        self.print(&format!("{step:?}"));
    }
}

impl Clocked {
    fn print(&self, doing: &str) {
        println!("{:7.2} s  {doing}", self.0.elapsed().as_secs_f64());
    }
}

fn main() {
    for path in std::env::args().skip(1) {
        let text = std::fs::read_to_string(&path).expect("the job can be read");
        let job = Job::parse(&text).expect("the job parses");
        let clock = Clocked(Instant::now());
        println!("{path}");
        let plan = plan_watched(job, Depth::Remedies, &clock).expect("the job works out");
        clock.print("done");
        for case in plan.whole.iter().flat_map(|whole| &whole.cases) {
            println!(
                "  mesh {}, {:2} load steps, {:3} iterations, use {:.2} and {:.2}: {}",
                case.mesh,
                case.steps,
                case.iterations,
                case.figures.worst_panel(),
                case.figures.worst_seam(),
                case.case.id
            );
        }
    }
}
