//! A scan from end to end: the space of scenario S2, sampled with a standard deviation of 3 mm, as
//! a job's file, through the command.

#![allow(clippy::unwrap_used, reason = "a test ends where it fails")]

mod common;

use brimful_geom::boolean::remaining_volume;
use brimful_geom::frame::Plane;
use brimful_geom::solid::{Face, Solid};
use brimful_geom::vector::{Point3, Vec3};
use brimful_job::Job;
use brimful_panels::space::Room;
use common::Bench;
use common::scan::{Sampled, sampled};
use serde_json::Value;

const S2: &str = include_str!("../../../tests/jobs/under-bed-arch.job.toml");

/// The space of S2 less its arch, and what is allowed of it.
fn exact() -> Room {
    let job = Job::parse(S2).unwrap();
    Room::new(&job.space.unwrap(), None).unwrap()
}

/// S2 with its space taken from a scan, and with no opening to pass.
fn job(file: &str, unit: &str) -> String {
    let (head, rest) = S2.split_once("[space]").unwrap();
    let (_, tail) = rest.split_once("[liquid]").unwrap();
    // Noise is stated as the most that a point is off: two standard deviations.
    format!(
        "{head}[space]\nscan = \"{file}\"\nscan_unit = \"{unit}\"\nscan_noise = 6\nclearance = 10\nkeep_below = 10\n\n[liquid]{tail}"
    )
}

fn noisy() -> Sampled {
    sampled(&exact().free, 0.012, 0.003)
}

/// A solid of the answer, its planes by the sum of its loops' triangles (M. Newell).
fn solid(value: &Value) -> Solid {
    let number = |v: &Value| v.as_f64().unwrap();
    let points = value["points_m"].as_array().unwrap();
    let vertices: Vec<Point3> = points
        .iter()
        .map(|p| Point3::new(number(&p[0]), number(&p[1]), number(&p[2])))
        .collect();
    let faces = value["faces"].as_array().unwrap().iter().map(|loops| {
        let loops: Vec<Vec<usize>> = serde_json::from_value(loops.clone()).unwrap();
        let ring = &loops[0];
        let normal = (0..ring.len()).fold(Vec3::ZERO, |sum, i| {
            let (a, b) = (vertices[ring[i]], vertices[ring[(i + 1) % ring.len()]]);
            sum + a.to_vec().cross(b.to_vec())
        });
        let plane = Plane::through(vertices[ring[0]], normal).unwrap();
        Face { plane, loops }
    });
    Solid {
        faces: faces.collect(),
        vertices: vertices.clone(),
    }
}

#[test]
fn every_format_gives_bodies_inside_the_true_space_and_nearly_as_large() {
    let scan = noisy();
    let exact = exact();
    let largest = exact.allowed.moments().volume;
    for (file, unit, bytes) in [
        ("hole.obj", "mm", scan.obj(1e-3)),
        ("hole.ply", "cm", scan.ply(1e-2)),
        ("hole.stl", "mm", scan.stl(1e-3)),
        ("hole.glb", "m", scan.glb()),
    ] {
        let bench = Bench::new();
        bench.write(file, bytes);
        bench.write("tank.job.toml", job(file, unit));
        let ended = bench.run(&["fit", "tank.job.toml", "--json"]);
        assert!(ended.code < 2, "{file}: {ended:?}");
        let answer = ended.json();
        let offers = answer["fit"]["offers"].as_array().unwrap();
        assert!(!offers.is_empty(), "{file}");
        let bodies: Vec<Solid> = offers.iter().map(|offer| solid(&offer["body"])).collect();
        for body in &bodies {
            assert!(body.faults().is_empty(), "{file}: {:?}", body.faults());
            // A cubic millimetre is rounding.
            let out = remaining_volume(body, &[&exact.free]).unwrap();
            assert!(out < 1e-9, "{file}: {out} m3 outside the true space");
        }
        let most = bodies
            .iter()
            .map(|body| body.moments().volume)
            .fold(0.0, f64::max);
        let share = most / largest;
        assert!(
            (0.97..=1.0).contains(&share),
            "{file}: {share} of the exact body"
        );
        let ended = bench.run(&["check", "tank.job.toml", "--quick", "--json"]);
        assert!(ended.code < 2, "{file}: {ended:?}");
        // Room is measured to the scan's flats.
        assert!(ended.json()["room"].as_array().unwrap().len() > 6, "{file}");
    }
}

fn says(scan: &Sampled, unit: &str) -> (i32, String) {
    let bench = Bench::new();
    bench.write("hole.stl", scan.stl(1e-3));
    bench.write("tank.job.toml", job("hole.stl", unit));
    let ended = bench.run(&["fit", "tank.job.toml"]);
    let words = format!("{}{}", ended.out, ended.err);
    let words: Vec<&str> = words.split_whitespace().collect();
    (ended.code, words.join(" "))
}

#[test]
fn a_hole_flipped_faces_and_a_loose_piece_are_each_said() {
    let whole = noisy();
    let mut scan = whole.clone();
    // A hand's breadth of the top is missing.
    let middle = Point3::new(0.2, 0.2, 0.33);
    let near = |it: &[usize; 3]| {
        let corners = it.map(|v| scan.points[v].to_vec());
        let centre = (corners[0] + corners[1] + corners[2]) * (1.0 / 3.0);
        (centre - middle.to_vec()).length() < 0.06
    };
    let kept: Vec<[usize; 3]> = scan
        .triangles
        .iter()
        .filter(|it| !near(it))
        .copied()
        .collect();
    scan.triangles = kept;
    let (code, words) = says(&scan, "mm");
    assert!(
        code < 2 && words.contains("The scan has 1 hole."),
        "{words}"
    );
    let mut scan = whole.clone();
    for triangle in scan.triangles.iter_mut().step_by(100) {
        triangle.swap(0, 1);
    }
    let count = scan.triangles.len().div_ceil(100);
    let (_, words) = says(&scan, "mm");
    let told = format!("The scan has {count} triangles that faced the wrong way.");
    assert!(words.contains(&told), "{words}");
    // A crumb of four triangles in the middle of the space.
    let mut scan = whole;
    let first = scan.points.len();
    let at = |x: f64, y: f64, z: f64| Point3::new(0.1 + x, 0.1 + y, 0.15 + z);
    scan.points.extend([
        at(0.0, 0.0, 0.0),
        at(0.01, 0.0, 0.0),
        at(0.0, 0.01, 0.0),
        at(0.0, 0.0, 0.01),
    ]);
    let crumb = [[0, 2, 1], [0, 1, 3], [1, 2, 3], [2, 0, 3]];
    scan.triangles.extend(crumb.map(|it| it.map(|v| v + first)));
    let (_, words) = says(&scan, "mm");
    assert!(
        words.contains("The scan has 1 loose piece left out."),
        "{words}"
    );
}

#[test]
fn a_thousandfold_size_is_asked_about_and_not_taken() {
    let (code, words) = says(&noisy(), "m");
    assert_eq!(code, 2);
    assert!(
        words
            .contains("The scan `hole.stl` would be 1171 m long with the unit that the job gives."),
        "{words}"
    );
    assert!(words.contains("Is `scan_unit` right?"), "{words}");
}

#[test]
fn a_scan_rougher_than_stated_is_said_or_refused() {
    let (_, words) = says(&sampled(&exact().free, 0.012, 0.0034), "mm");
    assert!(
        words.contains("scatter more than the noise that the job states"),
        "{words}"
    );
    let (code, words) = says(&sampled(&exact().free, 0.012, 0.004), "mm");
    assert_eq!(code, 2, "{words}");
    assert!(words.contains("state its noise in `scan_noise`"), "{words}");
}
