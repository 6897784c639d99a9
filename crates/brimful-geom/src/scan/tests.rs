#![allow(clippy::unwrap_used, reason = "a test may panic")]

use super::*;
use crate::boolean::{difference, remaining_volume};
use crate::frame::Frame;
use crate::polygon::Outline;
use crate::solid::Solid;
use crate::triangulate::triangulate;
use crate::vector::{Point2, Point3, Vec3};

/// The space of a wheel arch: a wall that leans, an arch with sloping ends.
fn wheel_arch() -> Solid {
    let side = Outline(
        [(0.0, 0.0), (0.52, 0.0), (0.47, 0.33), (0.0, 0.33)]
            .map(|(y, z)| Point2::new(y, z))
            .to_vec(),
    );
    let along_x = Frame {
        origin: Point3::ORIGIN,
        x: Vec3::Y,
        y: Vec3::Z,
        z: Vec3::X,
    };
    let room = Solid::prism(&side, &along_x, 0.0, 1.15);
    let arch = Outline(
        [
            (0.26, -0.1),
            (0.90, -0.1),
            (0.90, 0.0),
            (0.81, 0.25),
            (0.35, 0.25),
            (0.26, 0.0),
        ]
        .map(|(x, z)| Point2::new(x, z))
        .to_vec(),
    );
    let along_y = Frame {
        origin: Point3::new(0.0, 0.0, 0.0),
        x: Vec3::X,
        y: Vec3::Z,
        z: -Vec3::Y,
    };
    let arch = Solid::prism(&arch, &along_y, -0.7, -0.29);
    difference(&room, &[&arch]).unwrap()
}

/// The surface of a solid in triangles of about `size`, their points off by `noise` (normal).
fn scanned(solid: &Solid, size: f64, noise: f64, seed: u64) -> Surface {
    let mut surface = Surface::default();
    for (number, face) in solid.faces.iter().enumerate() {
        let frame = solid.face_frame(number);
        let corners: Vec<usize> = face.loops.iter().flatten().copied().collect();
        for triangle in triangulate(&solid.face_outlines(number, &frame)) {
            halve(
                &mut surface,
                triangle.map(|it| solid.vertices[corners[it]]),
                size,
            );
        }
    }
    // Equal places move alike, so that the surface stays closed.
    let mut random = fastrand::Rng::with_seed(seed);
    let mut moved: std::collections::BTreeMap<[i64; 3], Vec3> = Default::default();
    for point in &mut surface.points {
        let key = point.to_array().map(|v| (v * 1e7 + 0.317).floor() as i64);
        let mut normal = || {
            let (u, v) = (random.f64().max(1e-12), random.f64());
            noise * (-2.0 * u.ln()).sqrt() * (2.0 * std::f64::consts::PI * v).cos()
        };
        let way = *moved
            .entry(key)
            .or_insert_with(|| Vec3::new(normal(), normal(), normal()));
        *point = *point + way;
    }
    surface
}

/// Halves the longest side until none is longer: neighbours halve their common side alike.
fn halve(surface: &mut Surface, [a, b, c]: [Point3; 3], size: f64) {
    let sides = [(a, b, c), (b, c, a), (c, a, b)];
    let longest = sides
        .into_iter()
        .max_by(|s, t| s.0.distance(s.1).total_cmp(&t.0.distance(t.1)));
    let Some((a, b, c)) = longest else { return };
    if a.distance(b) <= size {
        let first = surface.points.len();
        surface.points.extend([a, b, c]);
        surface.triangles.push([first, first + 1, first + 2]);
        return;
    }
    let middle = a.midpoint(b);
    halve(surface, [a, middle, c], size);
    halve(surface, [middle, b, c], size);
}

/// The bounds of the design: within 3 % of the exact one, and none of it outside the true space.
#[test]
fn a_noisy_room_comes_out_from_inside() {
    let room = wheel_arch();
    let whole = room.moments().volume;
    for seed in 0..4 {
        let found = inside(&scanned(&room, 0.012, 0.003, seed), 0.003).unwrap();
        assert!(found.solid.faults().is_empty());
        let share = found.solid.moments().volume / whole;
        let outside = remaining_volume(&found.solid, &[&room]).unwrap();
        assert!((0.97..1.0).contains(&share), "{share} {:#?}", found.report);
        // A thousandth of a per cent is a hair's breadth along an edge.
        assert!(
            outside < 1e-5 * whole,
            "{outside:e} of {whole}: {:#?}",
            found.report
        );
        assert_eq!(found.report.planes.len(), room.faces.len());
    }
}

#[test]
fn a_clean_room_comes_out_as_it_is() {
    let room = wheel_arch();
    let found = inside(&scanned(&room, 0.03, 0.0, 1), 0.0).unwrap();
    let share = found.solid.moments().volume / room.moments().volume;
    assert!((0.999..1.0 + 1e-9).contains(&share), "{share}");
    assert_eq!(found.solid.faces.len(), room.faces.len());
    assert!(found.report.holes.is_empty() && found.report.flipped == 0);
}

#[test]
fn holes_and_flipped_faces_are_reported() {
    let room = wheel_arch();
    let mut surface = scanned(&room, 0.03, 0.0, 1);
    let at = |triangle: &[usize; 3]| surface.points[triangle[0]];
    let middle = Point3::new(0.2, 0.2, 0.33);
    let kept: Vec<[usize; 3]> = surface
        .triangles
        .iter()
        .copied()
        .filter(|it| at(it).distance(middle) > 0.06)
        .collect();
    assert!(kept.len() < surface.triangles.len());
    surface.triangles = kept;
    for triangle in surface.triangles.iter_mut().step_by(17) {
        triangle.swap(0, 1);
    }
    // A hole of a hand's breadth still leaves no doubt what is inside.
    let found = inside(&surface, 0.0).unwrap();
    assert!(found.solid.moments().volume > 0.99 * room.moments().volume);
    let report = found.report;
    assert_eq!(report.holes.len(), 1, "{report:#?}");
    assert!(report.holes[0].centre.distance(middle) < 0.03);
    assert_eq!(report.flipped, surface.triangles.len().div_ceil(17));
}

#[test]
fn an_open_or_empty_scan_is_refused() {
    let mut surface = scanned(&wheel_arch(), 0.05, 0.0, 1);
    let high = |triangle: &[usize; 3]| triangle.iter().any(|&it| surface.points[it].z > 0.02);
    let floor: Vec<[usize; 3]> = surface
        .triangles
        .iter()
        .copied()
        .filter(|it| !high(it))
        .collect();
    surface.triangles = floor;
    assert!(inside(&surface, 0.0).is_err());
    assert_eq!(inside(&Surface::default(), 0.0), Err(ScanFault::NoSurface));
}
