use super::*;
use crate::boolean::{difference, remaining_volume};
use crate::frame::Frame;
use crate::polygon::Outline;
use crate::testing::cube;
use crate::vector::{Point2, Vec3};
use fastrand::Rng;

/// The space under a bed over a wheel arch (scenario S2 of the project's reference).
fn under_bed() -> Solid {
    let section = |points: &[(f64, f64)], frame: &Frame, low: f64, high: f64| {
        Solid::prism(
            &Outline(points.iter().map(|&(x, y)| Point2::new(x, y)).collect()),
            frame,
            low,
            high,
        )
    };
    // Drawn in y and z, run along x; and in x and z, run along y.
    let along_x = Frame {
        origin: Point3::ORIGIN,
        x: Vec3::Y,
        y: Vec3::Z,
        z: Vec3::X,
    };
    let along_y = Frame {
        origin: Point3::ORIGIN,
        x: Vec3::Z,
        y: Vec3::X,
        z: Vec3::Y,
    };
    let room = section(
        &[(0.0, 0.0), (0.52, 0.0), (0.47, 0.33), (0.0, 0.33)],
        &along_x,
        0.0,
        1.15,
    );
    let slope = 0.09 / 0.25;
    let arch = section(
        &[
            (-0.1, 0.26 - 0.1 * slope),
            (-0.1, 0.9 + 0.1 * slope),
            (0.25, 0.81),
            (0.25, 0.35),
        ],
        &along_y,
        0.29,
        0.6,
    );
    difference(&room, &[&arch]).unwrap()
}

/// The surface in triangles of at most so long a side, each point off by a normal noise.
fn scanned(solid: &Solid, side: f64, noise: f64, seed: u64) -> Surface {
    let mut surface = Surface::default();
    let mut known = std::collections::BTreeMap::new();
    let mut rng = Rng::with_seed(seed);
    let mut stack: Vec<[Point3; 3]> = solid_triangles(solid)
        .into_iter()
        .map(|t| t.map(|v| solid.vertices[v]))
        .collect();
    while let Some([a, b, c]) = stack.pop() {
        let lengths = [a.distance(b), b.distance(c), c.distance(a)];
        let longest = (0..3)
            .max_by(|&i, &j| lengths[i].total_cmp(&lengths[j]))
            .unwrap();
        if lengths[longest] > side {
            let [a, b, c] = [[a, b, c], [b, c, a], [c, a, b]][longest];
            let middle = a.midpoint(b);
            stack.extend([[a, middle, c], [middle, b, c]]);
            continue;
        }
        let corner = [a, b, c].map(|p| {
            *known
                .entry(p.to_array().map(|x| (x * 1e6 + 0.3).round() as i64))
                .or_insert_with(|| {
                    let mut normal = || (0..12).map(|_| rng.f64()).sum::<f64>() - 6.0;
                    let off = Vec3::new(normal(), normal(), normal()) * noise;
                    surface.points.push(p + off);
                    surface.points.len() - 1
                })
        });
        surface.triangles.push(corner);
    }
    surface
}

#[test]
fn a_noisy_scan_of_a_space_over_an_arch_gives_nearly_that_space() {
    let exact = under_bed();
    let volume = exact.moments().volume;
    assert!((volume - 0.1587).abs() < 0.0002, "{volume}");
    for seed in 1..=3 {
        let surface = scanned(&exact, 0.012, 0.003, seed);
        let found = inside(&surface, 0.003, 0.0).unwrap();
        assert_eq!(found.solid.faults(), []);
        let kept = found.solid.moments().volume;
        assert!(remaining_volume(&found.solid, &[&exact]).unwrap() < 1e-9);
        assert!(kept > 0.97 * volume, "{} of {}", kept, volume);
        assert_eq!(found.report.planes.len(), 10);
        assert_eq!(found.report.holes, []);
        assert_eq!(found.report.inside, []);
    }
}

#[test]
fn a_large_scan_is_done_in_seconds() {
    let exact = under_bed();
    let surface = scanned(&exact, 0.0075, 0.003, 9);
    assert!(
        surface.triangles.len() > 150_000,
        "{}",
        surface.triangles.len()
    );
    let start = std::time::Instant::now();
    let found = inside(&surface, 0.003, 0.0).unwrap();
    assert!(start.elapsed().as_secs() < 10);
    assert!(found.solid.moments().volume > 0.97 * exact.moments().volume);
}

#[test]
fn holes_flips_and_crumbs_are_reported() {
    let solid = cube([0.0; 3], [1.0, 0.6, 0.4]);
    let mut surface = scanned(&solid, 0.05, 0.0, 1);
    let whole = inspect(&surface).unwrap();
    assert_eq!(
        (
            whole.holes.len(),
            whole.flipped,
            whole.loose,
            whole.non_manifold
        ),
        (0, 0, 0, 0)
    );
    surface.triangles[40].swap(0, 1);
    surface.triangles.remove(400);
    let n = surface.points.len();
    for p in [[0.5, 0.3, 0.2], [0.51, 0.3, 0.2], [0.5, 0.31, 0.2]] {
        surface.points.push(Point3::new(p[0], p[1], p[2]));
    }
    surface.triangles.push([n, n + 1, n + 2]);
    let report = inspect(&surface).unwrap();
    assert_eq!(
        (report.holes.len(), report.flipped, report.loose),
        (1, 1, 1)
    );
    assert_eq!(report.holes[0].edges, 3);
    // It still gives the box, a clean one to the margin.
    let found = inside(&surface, 0.0, 0.001).unwrap();
    let want = 0.998 * 0.598 * 0.398;
    assert!(
        (found.solid.moments().volume / want - 1.0).abs() < 1e-3,
        "{}",
        found.solid.moments().volume
    );
    // Inside out it is the same.
    surface.triangles.iter_mut().for_each(|t| t.swap(0, 1));
    let again = inside(&surface, 0.0, 0.001).unwrap();
    assert!((again.solid.moments().volume / want - 1.0).abs() < 1e-3);
}

#[test]
fn no_surface_is_an_error() {
    assert_eq!(inspect(&Surface::default()), Err(ScanFault::NoSurface));
    let bad = Surface {
        points: vec![Point3::ORIGIN],
        triangles: vec![[0, 1, 2]],
    };
    assert_eq!(inspect(&bad), Err(ScanFault::NoSurface));
    let flat = Surface {
        points: [[0.0, 0.0], [1.0, 0.0], [0.0, 1.0]]
            .map(|[x, y]| Point3::new(x, y, 0.0))
            .to_vec(),
        triangles: vec![[0, 1, 2]],
    };
    assert!(matches!(
        inside(&flat, 0.001, 0.001),
        Err(ScanFault::TooFewPlanes(_))
    ));
}
