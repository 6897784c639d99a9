//! The examples as jobs, the words of every kind of fault, and texts that mean harm.

use super::*;

const EXAMPLES: [(&str, &str); 7] = [
    ("starter", include_str!("data/starter.job.toml")),
    (
        "bench-box",
        include_str!("../../../../examples/bench-box.job.toml"),
    ),
    (
        "l-shape",
        include_str!("../../../../examples/l-shape.job.toml"),
    ),
    (
        "sloping-floor",
        include_str!("../../../../examples/sloping-floor.job.toml"),
    ),
    (
        "two-compartment",
        include_str!("../../../../examples/two-compartment.job.toml"),
    ),
    (
        "camper-bench",
        include_str!("../../../../examples/camper-bench.job.toml"),
    ),
    (
        "frame-rail-sprayer",
        include_str!("../../../../examples/frame-rail-sprayer.job.toml"),
    ),
];

#[test]
fn every_example_is_a_job() {
    for (name, text) in EXAMPLES {
        if let Err(faults) = Job::parse(text) {
            panic!("{name}: {}", listed(&faults));
        }
    }
}

fn listed(faults: &[JobFault]) -> String {
    let lines: Vec<String> = faults.iter().map(ToString::to_string).collect();
    lines.join("\n")
}
