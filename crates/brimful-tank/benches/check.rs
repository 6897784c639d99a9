//! What working out a job costs: on a real one, and against the number of faces.
//!
//! `cargo bench -p brimful-tank`. Bounds: a 14-panel job with its gauge tables under 50 ms, the quick
//! strength check of it under 10 ms.

use brimful_job::Job;
use brimful_strength::load::Heads;
use brimful_strength::quick::quick;
use brimful_tank::plan::{Depth, plan};
use divan::{Bencher, black_box};
use std::fmt::Write;

fn main() {
    divan::main();
}

/// Twelve outer panels and two baffles.
const SPRAYER: &str = include_str!("../../../examples/frame-rail-sprayer.job.toml");

#[divan::bench]
fn fourteen_panels_with_gauge(bencher: Bencher) {
    let job = Job::parse(SPRAYER).expect("the example parses");
    bencher.bench(|| plan(black_box(job.clone()), Depth::Quick).expect("the example works out"));
}

#[divan::bench]
fn quick_strength_of_fourteen_panels(bencher: Bencher) {
    let job = Job::parse(SPRAYER).expect("the example parses");
    let plan = plan(job, Depth::Quick).expect("the example works out");
    let heads = Heads::new(plan.job.liquid.density, &plan.body.cavity);
    bencher.bench(|| quick(black_box(&plan.job), &plan.panels, &plan.seams, &heads));
}

#[divan::bench]
fn reading_the_job(bencher: Bencher) {
    bencher.bench(|| Job::parse(black_box(SPRAYER)).expect("the example parses"));
}

/// A prism over a zigzag outline, half of its corners re-entrant.
fn zigzag(faces: usize) -> Job {
    let sides = faces - 2;
    let mut outline = String::new();
    for i in 0..sides {
        let angle = std::f64::consts::TAU * i as f64 / sides as f64;
        let radius = if i % 2 == 0 { 1500.0 } else { 1320.0 };
        let _ = write!(
            outline,
            "[{:.3}, {:.3}], ",
            radius * angle.cos(),
            radius * angle.sin()
        );
    }
    let text = format!(
        "[job]\nname = \"zigzag\"\nlengths = \"mm\"\nduty = \"standing\"\n[body]\nplan = [{outline}]\nheight = 500\nthickness = 4\n[liquid]\nkind = \"drinking water\"\n[stock]\nmaterial = \"HDPE\"\n[[stock.sheet]]\nsize = [4000, 4000]\nthickness = 4\n"
    );
    Job::parse(&text).expect("the zigzag parses")
}

#[divan::bench(args = [10, 30, 100])]
fn faces(bencher: Bencher, n: usize) {
    let job = zigzag(n);
    bencher.bench(|| plan(black_box(job.clone()), Depth::Quick).expect("the zigzag works out"));
}
