//! Writes random polyhedra, with what the kernel measures on them, as JSON lines for an outside
//! library to measure again: `cargo run --release -p brimful-geom --example random_solids 200`.

#![allow(clippy::print_stdout, reason = "an example that prints")]

use brimful_geom::boolean::{clip, difference};
use brimful_geom::frame::Plane;
use brimful_geom::moments::Moments;
use brimful_geom::solid::Solid;
use brimful_geom::triangulate::triangulate;
use brimful_geom::vector::{Point3, Vec3};

fn main() {
    let n = std::env::args()
        .nth(1)
        .and_then(|text| text.parse().ok())
        .unwrap_or(100);
    let mut random = fastrand::Rng::with_seed(1711);
    let mut written = 0;
    while written < n {
        let Some(solid) = random_solid(&mut random) else {
            continue;
        };
        let way = Vec3::new(random.f64() - 0.5, random.f64() - 0.5, random.f64() + 0.2);
        let Some(surface) = Plane::through(solid.moments().centroid(), way) else {
            continue;
        };
        let (triangles, cut) = (triangles(&solid), solid.moments_below(&surface));
        println!(
            "{{\"vertices\":{:?},\"triangles\":{triangles:?},\"normal\":{:?},\"offset\":{:?},\"whole\":{:?},\"below\":{:?}}}",
            solid
                .vertices
                .iter()
                .map(|p| p.to_array())
                .collect::<Vec<_>>(),
            surface.normal.to_array(),
            surface.offset,
            numbers(&solid.moments()),
            numbers(&cut),
        );
        written += 1;
    }
}

/// Volume, centroid, and the six moments of inertia about the centroid.
fn numbers(m: &Moments) -> Vec<f64> {
    let c = m.centroid();
    [
        vec![m.volume],
        c.to_array().to_vec(),
        m.inertia_about(c).to_vec(),
    ]
    .concat()
}

fn random_solid(random: &mut fastrand::Rng) -> Option<Solid> {
    let mut between = |low: f64, high: f64| low + (high - low) * random.f64();
    let size = [between(0.4, 2.0), between(0.4, 2.0), between(0.4, 2.0)];
    let mut solid = Solid::cuboid(
        Point3::new(-0.3, 0.2, 0.1),
        Point3::new(-0.3 + size[0], 0.2 + size[1], 0.1 + size[2]),
    );
    for _ in 0..3 {
        let way = Vec3::new(between(-1.0, 1.0), between(-1.0, 1.0), between(-1.0, 1.0));
        let plane = Plane::through(solid.moments().centroid(), way)?;
        let far = solid
            .vertices
            .iter()
            .map(|&p| plane.distance(p))
            .fold(0.0, f64::max);
        solid = clip(&solid, &plane.moved(far * between(0.5, 0.9))).ok()?;
    }
    let middle = solid.moments().centroid();
    let bite = Vec3::new(between(0.05, 0.3), between(0.05, 0.3), between(0.05, 0.3));
    let at = middle + Vec3::new(between(-0.6, 0.6), between(-0.6, 0.6), between(-0.6, 0.6));
    let bitten = difference(&solid, &[&Solid::cuboid(at - bite, at + bite)]).ok()?;
    bitten.faults().is_empty().then_some(bitten)
}

fn triangles(solid: &Solid) -> Vec<[usize; 3]> {
    let mut all = Vec::new();
    for face in 0..solid.faces.len() {
        let corners: Vec<usize> = solid.faces[face].loops.iter().flatten().copied().collect();
        let outlines = solid.face_outlines(face, &solid.face_frame(face));
        all.extend(
            triangulate(&outlines)
                .into_iter()
                .map(|t| t.map(|corner| corners[corner])),
        );
    }
    all
}
