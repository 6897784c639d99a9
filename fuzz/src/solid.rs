//! Boxes and prisms cut and joined as the bytes say, often with faces that fall together: every
//! result is a proper solid or is refused, and volumes add up.
#![no_main]

use brimful_geom::boolean::{clip, difference, intersection, union};
use brimful_geom::frame::Plane;
use brimful_geom::offset::offset_inward;
use brimful_geom::solid::Solid;
use brimful_geom::vector::{Point3, Vec3};
use libfuzzer_sys::fuzz_target;

/// Coordinates in sixteenths, so that faces often coincide.
fn block(bytes: &[u8]) -> Option<Solid> {
    let [a, b, c, d, e, f] = bytes.get(..6)?.try_into().ok()?;
    let span = |from: u8, size: u8| {
        let from = f64::from(from % 16) / 16.0;
        (from, from + f64::from(size % 16 + 1) / 16.0)
    };
    let ((x0, x1), (y0, y1), (z0, z1)) = (span(a, d), span(b, e), span(c, f));
    Some(Solid::cuboid(
        Point3::new(x0, y0, z0),
        Point3::new(x1, y1, z1),
    ))
}

fuzz_target!(|bytes: &[u8]| {
    let Some(mut solid) = block(bytes) else {
        return;
    };
    for step in bytes.get(6..).unwrap_or_default().chunks_exact(7).take(6) {
        let Some(other) = block(&step[1..]) else {
            return;
        };
        let (v, w) = (solid.moments().volume, other.moments().volume);
        let (Ok(both), Ok(all), Ok(left)) = (
            intersection(&[&solid, &other]),
            union(&[&solid, &other]),
            difference(&solid, &[&other]),
        ) else {
            return;
        };
        let [both_v, all_v, left_v] = [&both, &all, &left].map(|s| s.moments().volume);
        assert!((v + w - both_v - all_v).abs() < 1e-12 && (v - both_v - left_v).abs() < 1e-12);
        solid = match step[0] % 4 {
            0 => left,
            1 => all,
            2 => both,
            _ => {
                let way = Vec3::new(
                    f64::from(step[1]) - 127.5,
                    f64::from(step[2]) - 127.5,
                    f64::from(step[3]) - 127.5,
                );
                let Some(plane) = Plane::through(Point3::new(0.5, 0.5, 0.5), way) else {
                    return;
                };
                let Ok(kept) = clip(&solid, &plane) else {
                    return;
                };
                assert!((kept.moments().volume - solid.moments_below(&plane).volume).abs() < 1e-12);
                kept
            }
        };
        // Solids that touch in an edge or a point are no bodies; everything else must be proper.
        if solid.faces.is_empty() || !solid.faults().is_empty() {
            return;
        }
    }
    if let Ok(moved) = offset_inward(&solid, &vec![0.01; solid.faces.len()]) {
        assert!(moved.solid.faults().is_empty());
        assert!(moved.solid.moments().volume < solid.moments().volume);
    }
});
