//! Writes the space of a job as a noisy scan, binary STL in mm, with about so many triangles:
//! `cargo run --release -p brimful --example noisy_scan JOB TRIANGLES OUT.stl`.

#![allow(
    clippy::unwrap_used,
    reason = "a tool for measuring ends where it fails"
)]
#![allow(dead_code, reason = "of the scans only one format is written here")]

#[path = "../tests/common/scan.rs"]
mod scan;

fn main() {
    let call: Vec<String> = std::env::args().collect();
    let text = std::fs::read_to_string(&call[1]).unwrap();
    let job = brimful_job::Job::parse(&text).unwrap();
    let room = brimful_panels::space::Room::new(&job.space.unwrap(), None).unwrap();
    let wanted: usize = call[2].parse().unwrap();
    // Halving gives triangles of about a quarter of the square of the longest side allowed.
    let mut size = 0.1;
    let mut scan = scan::sampled(&room.free, size, 0.003);
    while scan.triangles.len() < wanted {
        size *= 0.8;
        scan = scan::sampled(&room.free, size, 0.003);
    }
    std::fs::write(&call[3], scan.stl(1e-3)).unwrap();
}
