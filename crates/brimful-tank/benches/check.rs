//! What working out a job costs: on a real one, and against the number of faces.
//!
//! `cargo bench -p brimful-tank`. Bounds: a 14-panel job with its gauge tables under 50 ms, the quick
//! strength check of it under 10 ms, the order of work with the reach of all runs under 5 s.

use brimful_job::Job;
use brimful_panels::weld::welds_in_order;
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

/// A box with so many baffles across its length.
fn with_baffles(count: usize) -> Job {
    let length = 2400.0;
    let mut text = format!(
        "[job]\nlengths = \"mm\"\nduty = \"standing\"\n[body]\nbox = [{length}, 700, 600]\nthickness = 8\n[liquid]\nkind = \"water\"\n[stock]\nmaterial = \"HDPE\"\n[[stock.sheet]]\nsize = [4000, 2000]\nthickness = 8\n"
    );
    for i in 1..=count {
        let at = length * i as f64 / (count + 1) as f64;
        let _ = write!(
            text,
            "[[inner]]\nname = \"b{i}\"\nkind = \"baffle\"\nacross = \"x\"\nat = {at}\nair_gap = 30\n"
        );
    }
    Job::parse(&text).expect("the box parses")
}

/// The order of work with the reach of all runs: of six panels and the baffles.
#[divan::bench(args = [1, 3, 5, 8])]
fn order_with_baffles(bencher: Bencher, count: usize) {
    let plan = plan(with_baffles(count), Depth::Quick).expect("the box works out");
    bencher.bench(|| welds_in_order(black_box(&plan.job), &plan.panels, &plan.seams));
}

#[divan::bench]
fn order_of_fourteen_panels(bencher: Bencher) {
    let job = Job::parse(SPRAYER).expect("the example parses");
    let plan = plan(job, Depth::Quick).expect("the example works out");
    bencher.bench(|| welds_in_order(black_box(&plan.job), &plan.panels, &plan.seams));
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
