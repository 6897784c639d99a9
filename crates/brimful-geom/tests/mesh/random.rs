//! Random boxes and prisms with random flats inside.

use crate::check::{given_angle, meshed};
use crate::shapes::{flat, moved, p, prism, round_hole};
use brimful_geom::mesh::{Flat, Mesh, MeshFault, Refine, Size};
use brimful_geom::predicate::segments_touch;
use brimful_geom::vector::Vec3;
use std::collections::BTreeMap;

#[test]
fn random_tanks_conform() {
    let mut least = 180.0_f64;
    for seed in 0..soaked(200) {
        let flats = tank(seed);
        let (mesh, worst) = meshed(&flats, &Size::default());
        // Angles given by lines that cross flatly cannot be mended, nor those of the triangles
        // that lie along both lines.
        let given = given_angle(&flats, &mesh);
        // No bound is proved: the least of a thousand is 16.99 degrees, of the first two hundred 20.
        assert!(
            worst > f64::min(15.0, 0.8 * given),
            "tank {seed}: {worst}, given {given}"
        );
        if given > 25.0 {
            least = least.min(worst);
        }
    }
    println!("smallest angle of all where none below 25 degrees is given: {least:.2} degrees");
}

/// A box or a prism of 3 to 7 sides with up to four upright or level flats inside, some stopping
/// short of the walls, some with a hole, turned at random.
fn tank(seed: u64) -> Vec<Flat> {
    let mut random = fastrand::Rng::with_seed(seed);
    let mut within = |low: f64, high: f64| low + (high - low) * random.f64();
    let size = within(0.05, 0.15);
    let (w, d, h) = (within(0.4, 2.0), within(0.3, 1.2), within(0.3, 1.5));
    let sides = within(3.0, 8.0) as usize;
    let boxy = within(0.0, 1.0) < 0.6;
    let base: Vec<(f64, f64)> = if boxy {
        vec![(0.0, 0.0), (w, 0.0), (w, d), (0.0, d)]
    } else {
        let turn = |i: usize| std::f64::consts::TAU * i as f64 / sides as f64;
        (0..sides)
            .map(|i| (w / 2.0 * turn(i).cos(), w / 2.0 * turn(i).sin()))
            .collect()
    };
    let mut flats = prism(&base, h, size);
    if boxy {
        let gap = |v: f64| if v < 0.5 { 0.0 } else { 0.02 + 0.1 * (v - 0.5) };
        for _ in 0..within(0.0, 3.0) as usize {
            let x = within(0.1, 0.9) * w;
            let (y0, y1) = (gap(within(0.0, 1.0)), d - gap(within(0.0, 1.0)));
            let (z0, z1) = (gap(within(0.0, 1.0)), h - gap(within(0.0, 1.0)));
            let lean = if within(0.0, 1.0) < 0.3 {
                0.05 * w
            } else {
                0.0
            };
            let mut baffle = flat(
                &[
                    p(x, y0, z0),
                    p(x, y1, z0),
                    p(x + lean, y1, z1),
                    p(x + lean, y0, z1),
                ],
                size,
            );
            if within(0.0, 1.0) < 0.5 {
                let (lower, upper) = baffle.outlines[0].bounds();
                let middle = lower.midpoint(upper);
                baffle
                    .outlines
                    .push(round_hole(middle.x, middle.y, 0.06, 12));
            }
            flats.push(baffle);
        }
        if within(0.0, 1.0) < 0.6 {
            let y = within(0.2, 0.8) * d;
            let (x0, x1) = (gap(within(0.0, 1.0)), w - gap(within(0.0, 1.0)));
            let z = within(0.3, 1.0) * h;
            flats.push(flat(
                &[p(x0, y, 0.0), p(x1, y, 0.0), p(x1, y, z), p(x0, y, z)],
                size * 0.7,
            ));
        }
    } else {
        let z = within(0.2, 0.8) * h;
        let ring: Vec<_> = base.iter().map(|&(x, y)| p(x, y, z)).collect();
        flats.push(flat(&ring, size));
    }
    let angle = within(0.0, 3.0);
    let shift = Vec3::new(within(-3.0, 3.0), within(-3.0, 3.0), 0.0);
    moved(&flats, angle, shift)
}

/// Flats thrown together: what cannot be meshed is refused, what can has its area.
#[test]
fn heaps_of_flats_never_panic() {
    let (mut meshes, mut faults) = (0, BTreeMap::new());
    for seed in 0..soaked(300) {
        let mut random = fastrand::Rng::with_seed(seed);
        let mut flats = Vec::new();
        let grid = random.bool();
        for _ in 0..random.usize(1..6) {
            let mut at = || {
                let v = random.f64();
                if grid { (v * 4.0).round() / 4.0 } else { v }
            };
            let (a, b, c) = (
                p(at(), at(), at()),
                p(at(), at(), at()),
                p(at(), at(), at()),
            );
            if (b - a).cross(c - a).length() < 1e-3 {
                continue;
            }
            let d = a + (c - b);
            let corners: &[_] = if at() < 0.5 {
                &[a, b, c]
            } else {
                &[a, b, c, d]
            };
            let mut flat = flat(corners, 0.03 + 0.3 * at());
            if at() < 0.4 {
                let (low, high) = flat.outlines[0].bounds();
                let middle = low.midpoint(high);
                flat.outlines.push(round_hole(middle.x, middle.y, 0.05, 8));
                flat.segments.push((low, middle));
                flat.points.push(low.midpoint(middle));
            }
            flats.push(flat);
        }
        let merge = 10.0_f64.powi(-random.i32(0..10));
        let size = Size {
            refine: vec![Refine {
                point: p(random.f64(), random.f64(), random.f64()),
                size: merge * 10.0_f64.powi(random.i32(0..9)),
            }],
            most_nodes: 5_000,
            ..Size::default()
        };
        match Mesh::of(&flats, &size, merge) {
            Ok(_) => meshes += 1,
            Err(fault) => {
                if let MeshFault::LinesCross(flat, _) = fault {
                    assert!(hole_clashes(&flats[flat]), "heap {seed}: {fault}");
                }
                let text = format!("{fault:?}");
                let kind = text.split('(').next().unwrap_or_default().to_owned();
                *faults.entry(kind).or_insert(0) += 1;
            }
        }
    }
    println!("{meshes} meshed; refused: {faults:?}");
    assert!(meshes > 50);
}

/// Whether the hole of a flat sticks out of it.
fn hole_clashes(flat: &Flat) -> bool {
    let [outer, hole] = &flat.outlines[..] else {
        return false;
    };
    let touches = |a| hole.sides().any(|b| segments_touch(a, b));
    !outer.contains(hole.0[0]) || outer.sides().any(touches)
}

/// So many cases, times what `make soak` asks for.
fn soaked(cases: u64) -> u64 {
    let times = std::env::var("BRIMFUL_SOAK").ok();
    cases * times.and_then(|times| times.parse().ok()).unwrap_or(1)
}
