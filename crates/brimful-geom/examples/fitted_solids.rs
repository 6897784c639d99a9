//! Writes random spaces with the largest box found in each, as JSON lines
//! for an outside library to judge: `cargo run --release -p brimful-geom --example fitted_solids 50`.

#![allow(clippy::print_stdout, reason = "an example that prints")]

use brimful_geom::boolean::difference;
use brimful_geom::inscribed::{Search, level_box};
use brimful_geom::solid::Solid;
use brimful_geom::triangulate::solid_triangles;
use brimful_geom::vector::Point3;

fn main() {
    let n = std::env::args()
        .nth(1)
        .and_then(|text| text.parse().ok())
        .unwrap_or(50);
    let mut random = fastrand::Rng::with_seed(311);
    let quick = Search {
        gap: 0.02,
        boxes: 500,
        ..Search::default()
    };
    for _ in 0..n {
        let mut at = |low: f64, high: f64| low + (high - low) * random.f64();
        let room = Solid::cuboid(Point3::ORIGIN, Point3::new(1.0, 0.6, 0.4));
        let post = Solid::cuboid(
            Point3::new(at(0.1, 0.4), at(0.3, 0.5), -0.1),
            Point3::new(at(0.5, 0.9), 0.7, at(0.1, 0.5)),
        );
        let batten = Solid::cuboid(
            Point3::new(-0.1, -0.1, -0.1),
            Point3::new(at(0.02, 0.2), at(0.02, 0.2), at(0.1, 0.5)),
        );
        let Ok(space) = difference(&room, &[&post, &batten]) else {
            continue;
        };
        let fitted: Vec<Solid> = level_box(&space, &quick)
            .map(|found| found.best.solid())
            .into_iter()
            .collect();
        let fitted: Vec<String> = fitted.iter().map(mesh).collect();
        println!(
            "{{\"space\":{},\"fitted\":[{}]}}",
            mesh(&space),
            fitted.join(",")
        );
    }
}

fn mesh(solid: &Solid) -> String {
    let points: Vec<_> = solid.vertices.iter().map(|p| p.to_array()).collect();
    format!(
        "{{\"vertices\":{points:?},\"triangles\":{:?},\"volume\":{:?}}}",
        solid_triangles(solid),
        solid.moments().volume
    )
}
