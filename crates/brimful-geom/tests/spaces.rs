//! Laws of the largest box, over random spaces: a box, perhaps with a
//! leaning wall, less up to three obstacles.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

use brimful_geom::boolean::{clip, difference, pieces, remaining_volume};
use brimful_geom::frame::Plane;
use brimful_geom::inscribed::{Search, level_box};
use brimful_geom::solid::Solid;
use brimful_geom::vector::{Point3, Vec3};
use fastrand::Rng;

/// What a boolean of two solids of a metre leaves by rounding, m3: a drop of a hundredth of a millilitre.
const ROUNDING: f64 = 1e-11;

fn random_space(rng: &mut Rng) -> Solid {
    let size = [
        0.5 + rng.f64(),
        0.4 + 0.4 * rng.f64(),
        0.3 + 0.3 * rng.f64(),
    ];
    let mut space = Solid::cuboid(Point3::ORIGIN, Point3::new(size[0], size[1], size[2]));
    if rng.bool() {
        let lean = Vec3::new(0.0, 1.0, 0.3 * rng.f64());
        let wall = Plane::through(Point3::new(0.0, size[1], 0.0), lean).unwrap();
        space = clip(&space, &wall).unwrap();
    }
    for _ in 0..rng.usize(0..4) {
        // From a wall inward, so that what is left rarely falls apart.
        let mut low = [0.0; 3];
        let mut high = [0.0; 3];
        for i in 0..3 {
            let (at, long) = (rng.f64() * size[i], 0.4 * rng.f64() * size[i]);
            (low[i], high[i]) = (at, at + long);
        }
        let side = rng.usize(0..3);
        if rng.bool() {
            low[side] = -0.1;
            high[side] = 0.3 * rng.f64() * size[side] + 1e-3;
        } else {
            low[side] = (1.0 - 0.3 * rng.f64()) * size[side] - 1e-3;
            high[side] = size[side] + 0.1;
        }
        let corner = |[x, y, z]: [f64; 3]| Point3::new(x, y, z);
        space = difference(&space, &[&Solid::cuboid(corner(low), corner(high))]).unwrap();
    }
    let volume = |s: &Solid| s.moments().volume;
    let parts = pieces(&space).unwrap();
    parts
        .into_iter()
        .reduce(|a, b| if volume(&b) > volume(&a) { b } else { a })
        .unwrap()
}

/// Wide enough a gap for a search of a tenth of a second.
fn quick() -> Search {
    Search {
        gap: 0.02,
        boxes: 300,
        ..Search::default()
    }
}

#[test]
fn the_largest_box_lies_in_its_space_and_under_its_bound() {
    let mut rng = Rng::with_seed(4);
    let quick = quick();
    for case in 0..20 {
        let space = random_space(&mut rng);
        let boxed = level_box(&space, &quick).unwrap();
        let out = remaining_volume(&boxed.best.solid(), &[&space]).unwrap();
        assert!(out < ROUNDING, "case {case}: {out}");
        assert!(boxed.best.size.x * boxed.best.size.y * boxed.best.size.z <= boxed.bound);
        // Where the search ends early a mirror image's box may differ, but neither beats the
        // other's bound.
        let mirrored = level_box(&space.mirrored(), &quick).unwrap();
        assert!(
            boxed.size <= mirrored.bound && mirrored.size <= boxed.bound,
            "case {case}"
        );
    }
}
