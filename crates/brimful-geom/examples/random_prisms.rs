//! Writes prisms of random outlines, moved in and combined, as JSON lines for outside libraries to judge:
//! `cargo run --release -p brimful-geom --example random_prisms 200`.

#![allow(clippy::print_stdout, reason = "an example that prints")]

use brimful_geom::boolean::{BooleanFault, difference, intersection, union};
use brimful_geom::frame::Frame;
use brimful_geom::offset::offset_inward;
use brimful_geom::polygon::Outline;
use brimful_geom::solid::Solid;
use brimful_geom::triangulate::solid_triangles;
use brimful_geom::vector::{Point2, Point3, Vec3};
use fastrand::Rng;
use std::f64::consts::TAU;

fn main() {
    let wanted = std::env::args()
        .nth(1)
        .and_then(|text| text.parse().ok())
        .unwrap_or(100);
    let mut rng = Rng::with_seed(2203);
    for _ in 0..wanted {
        let (kind, outline) = random_outline(&mut rng);
        let height = metres(&mut rng, 200, 600);
        println!(
            "{{\"kind\":\"{kind}\",\"outline\":{},\"moved\":{},\"combined\":{}}}",
            points(&outline),
            moved(&mut rng, &outline, height),
            combined(&mut rng, &outline, height),
        );
    }
}

/// A length in whole millimetres, as people measure.
fn metres(rng: &mut Rng, low: i32, high: i32) -> f64 {
    f64::from(rng.i32(low..=high)) / 1e3
}

fn random_outline(rng: &mut Rng) -> (&'static str, Outline) {
    let (long, wide) = (metres(rng, 500, 1500), metres(rng, 400, 900));
    let corners = |list: &[(f64, f64)]| {
        let points = list.iter().map(|&(x, y)| Point2::new(x, y));
        Outline(points.collect())
    };
    match rng.u32(0..4) {
        0 => ("convex", on_an_ellipse(rng, long, wide, |_| 1.0)),
        1 => (
            "star",
            on_an_ellipse(rng, long, wide, |rng| 0.4 + 0.6 * rng.f64()),
        ),
        2 => {
            let (x, y) = (metres(rng, 100, 400), metres(rng, 100, 300));
            let l = [
                (0.0, 0.0),
                (long, 0.0),
                (long, y),
                (x, y),
                (x, wide),
                (0.0, wide),
            ];
            ("L", corners(&l))
        }
        _ => {
            // A notch with slanted sides in the far side.
            let (from, to) = (metres(rng, 60, 200), metres(rng, 300, 440));
            let (deep, lean) = (metres(rng, 50, 300), metres(rng, 0, 40));
            let notched = [
                (0.0, 0.0),
                (long, 0.0),
                (long, wide),
                (to, wide),
                (to - lean, wide - deep),
                (from + lean, wide - deep),
                (from, wide),
                (0.0, wide),
            ];
            ("notched", corners(&notched))
        }
    }
}

/// Corners one after the other round an ellipse, each at a share of its radius.
fn on_an_ellipse(rng: &mut Rng, long: f64, wide: f64, share: fn(&mut Rng) -> f64) -> Outline {
    let count = rng.u32(3..=9);
    let corner = |n: u32| {
        let turn = TAU * (f64::from(n) + 0.6 * rng.f64()) / f64::from(count);
        let radius = share(rng) / 2.0;
        let millimetre = |v: f64| (v * 1e3).round() / 1e3;
        Point2::new(
            millimetre(long * radius * turn.cos()),
            millimetre(wide * radius * turn.sin()),
        )
    };
    Outline((0..count).map(corner).collect())
}

/// All sides moved in alike, and each by its own distance: what is left in plan, or why nothing is.
fn moved(rng: &mut Rng, outline: &Outline, height: f64) -> String {
    let sides = outline.0.len();
    let alike = vec![metres(rng, 2, 90); sides];
    let each: Vec<f64> = (0..sides).map(|_| metres(rng, 2, 90)).collect();
    let prism = Solid::prism(outline, &Frame::WORLD, 0.0, height);
    let written = [alike, each].map(|distances| {
        let all = [&[0.01, 0.02], &distances[..]].concat();
        let left = match offset_inward(&prism, &all) {
            Ok(offset) => {
                let top = &offset.solid.faces[1].loops;
                let ring = top[0].iter().map(|&v| offset.solid.vertices[v]);
                let outline = Outline(ring.map(|p| Point2::new(p.x, p.y)).collect());
                let levels = offset.solid.bounds();
                format!(
                    "{{\"outline\":{},\"loops\":{},\"height\":{:?},\"volume\":{:?}}}",
                    points(&outline),
                    top.len(),
                    levels.1.z - levels.0.z,
                    offset.solid.moments().volume
                )
            }
            Err(fault) => format!("\"{fault}\""),
        };
        format!("{{\"distances\":{distances:?},\"left\":{left}}}")
    });
    format!("[{}]", written.join(","))
}

/// The prism with another, that stands or lies across it.
fn combined(rng: &mut Rng, outline: &Outline, height: f64) -> String {
    let (_, other) = random_outline(rng);
    let lies = rng.bool();
    let origin = Point3::new(
        metres(rng, -300, 300),
        metres(rng, -300, 300),
        metres(rng, -100, 100),
    );
    let place = match lies {
        false => Frame {
            origin,
            ..Frame::WORLD
        },
        true => Frame {
            origin,
            x: Vec3::Y,
            y: Vec3::Z,
            z: Vec3::X,
        },
    };
    let a = Solid::prism(outline, &Frame::WORLD, 0.0, height);
    let low = metres(rng, -100, 100);
    let b = Solid::prism(&other, &place, low, low + metres(rng, 100, 500));
    format!(
        "{{\"lies\":{lies},\"a\":{},\"b\":{},\"other\":{},\"origin\":{:?},\"union\":{},\"difference\":{},\"intersection\":{}}}",
        mesh(&a),
        mesh(&b),
        points(&other),
        origin.to_array(),
        judged(union(&[&a, &b])),
        judged(difference(&a, &[&b])),
        judged(intersection(&[&a, &b])),
    )
}

fn judged(solid: Result<Solid, BooleanFault>) -> String {
    match solid {
        Ok(solid) => mesh(&solid),
        Err(fault) => format!("\"{fault}\""),
    }
}

fn points(outline: &Outline) -> String {
    let pairs: Vec<[f64; 2]> = outline.0.iter().map(|p| [p.x, p.y]).collect();
    format!("{pairs:?}")
}

fn mesh(solid: &Solid) -> String {
    let corners: Vec<[f64; 3]> = solid.vertices.iter().map(|p| p.to_array()).collect();
    format!(
        "{{\"vertices\":{corners:?},\"triangles\":{:?},\"volume\":{:?},\"faults\":{}}}",
        solid_triangles(solid),
        solid.moments().volume,
        solid.faults().len(),
    )
}
