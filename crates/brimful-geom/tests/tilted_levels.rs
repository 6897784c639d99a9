//! Volumes and centroids below tilted surfaces, against the table "Volumes and level tables of
//! tilted tanks" of the project's reference (benchmarks, section 6; computed there by exact
//! clipping to the digits given), and the identities named beside it.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

use brimful_geom::frame::{Frame, Plane};
use brimful_geom::solid::{Face, Solid};
use brimful_geom::vector::{Point3, Vec3};

/// Half a unit of the last printed digit: volumes in litres to 1e-6, centroids in metres to 1e-6.
const PRINTED: f64 = 0.5000001e-6;

/// Surface `z = h0 + x tan(pitch) + y tan(roll)`, degrees, normal up.
fn surface(pitch: f64, roll: f64, h0: f64) -> Plane {
    let normal = Vec3::new(-pitch.to_radians().tan(), -roll.to_radians().tan(), 1.0);
    Plane::through(Point3::new(0.0, 0.0, h0), normal).unwrap()
}

/// Tank, pitch, roll, h0, litres, centroid.
type Row<'a> = (&'a Solid, f64, f64, f64, f64, [f64; 3]);

fn tank_box() -> Solid {
    Solid::cuboid(Point3::new(-0.5, -0.3, 0.0), Point3::new(0.5, 0.3, 0.5))
}

/// Bottom 0.6 x 0.4, top 1.0 x 0.8, height 0.5.
fn frustum() -> Solid {
    let ring = |x: f64, y: f64, z: f64| {
        [(-x, -y), (x, -y), (x, y), (-x, y)].map(|(x, y)| Point3::new(x, y, z))
    };
    let vertices = [ring(0.3, 0.2, 0.0), ring(0.5, 0.4, 0.5)].concat();
    let mut faces = vec![
        Face {
            plane: Plane {
                normal: -Vec3::Z,
                offset: 0.0,
            },
            loops: vec![vec![3, 2, 1, 0]],
        },
        Face {
            plane: Plane {
                normal: Vec3::Z,
                offset: 0.5,
            },
            loops: vec![vec![4, 5, 6, 7]],
        },
    ];
    for i in 0..4 {
        let j = (i + 1) % 4;
        let normal = (vertices[j] - vertices[i]).cross(vertices[4 + i] - vertices[i]);
        faces.push(Face {
            plane: Plane::through(vertices[i], normal).unwrap(),
            loops: vec![vec![i, j, 4 + j, 4 + i]],
        });
    }
    Solid { vertices, faces }
}

#[test]
fn the_reference_table_of_tilted_tanks() {
    let (b, f) = (tank_box(), frustum());
    assert!((f.moments().volume * 1e3 - 246.666_667).abs() < PRINTED);
    let rows: [Row<'_>; 11] = [
        (&b, 10., 0., 0.05, 32.477985, [0.238812, 0., 0.046054]),
        (&b, 10., 0., 0.10, 60.000000, [0.146939, 0., 0.062955]),
        (&b, 10., 0., 0.48, 280.094923, [0.021002, 0., 0.234796]),
        (&b, 10., 5., 0.05, 32.868670, [0.232603, 0.037542, 0.047149]),
        (
            &b,
            10.,
            5.,
            0.25,
            150.000000,
            [0.058776, 0.010499, 0.130641],
        ),
        (
            &b,
            30.,
            20.,
            0.10,
            80.562493,
            [0.264094, 0.054746, 0.136200],
        ),
        (
            &b,
            30.,
            20.,
            0.40,
            219.437507,
            [0.096957, 0.020099, 0.208221],
        ),
        (&f, 0., 0., 0.15, 45.720000, [0., 0., 0.080512]),
        (&f, 0., 0., 0.45, 208.440000, [0., 0., 0.264637]),
        (&f, 5., 0., 0.05, 13.231914, [0.063823, 0., 0.028841]),
        (&f, 5., 8., 0.30, 115.120378, [0.024419, 0.022785, 0.173852]),
    ];
    for (solid, pitch, roll, h0, litres, centroid) in rows {
        let below = solid.moments_below(&surface(pitch, roll, h0));
        assert!(
            (below.volume * 1e3 - litres).abs() < PRINTED,
            "{pitch} {roll} {h0}: {}",
            below.volume * 1e3
        );
        let c = below.centroid().to_array();
        assert!(
            (0..3).all(|i| (c[i] - centroid[i]).abs() < PRINTED),
            "{pitch} {roll} {h0}: {c:?}"
        );
    }
}

#[test]
fn a_surface_and_its_reverse_share_out_the_tank() {
    let tank = frustum();
    for (pitch, roll, h0) in [(0., 0., 0.2), (12., -7., 0.3), (40., 15., 0.1)] {
        let plane = surface(pitch, roll, h0);
        let sum = tank.moments_below(&plane) + tank.moments_below(&plane.flipped());
        let whole = tank.moments();
        assert!((sum.volume - whole.volume).abs() < 1e-15);
        assert!((sum.first - whole.first).length() < 1e-15);
        assert!((sum.second_axis - whole.second_axis).length() < 1e-15);
        assert!((sum.second_cross - whole.second_cross).length() < 1e-15);
    }
}

#[test]
fn turning_tank_and_surface_together_changes_nothing() {
    let tank = frustum();
    let (sin, cos) = 0.7f64.sin_cos();
    let place = Frame {
        origin: Point3::new(3.0, -1.0, 0.5),
        x: Vec3::new(cos, sin, 0.0),
        y: Vec3::new(-sin, cos, 0.0),
        z: Vec3::Z,
    };
    let plane = surface(10.0, 5.0, 0.2);
    let turned_normal =
        place.x * plane.normal.x + place.y * plane.normal.y + place.z * plane.normal.z;
    let on = place.world_from_frame(Point3::new(0.0, 0.0, 0.2));
    let turned = Plane::through(on, turned_normal).unwrap();
    let (a, b) = (
        tank.moments_below(&plane),
        tank.moved(&place).moments_below(&turned),
    );
    assert!((a.volume - b.volume).abs() < 1e-15);
    let moved = place.world_from_frame(a.centroid());
    assert!(moved.distance(b.centroid()) < 1e-14);
}

#[test]
fn the_centre_moves_along_the_surface_when_a_fixed_volume_tilts() {
    // Dupin's theorem, as the reference states it: the path of the centroid is parallel to the surface.
    let tank = frustum();
    let volume = 0.1;
    let at = |pitch: f64| {
        let (mut low, mut high) = (-1.0, 1.5);
        for _ in 0..80 {
            let middle = (low + high) / 2.0;
            if tank.moments_below(&surface(pitch, 0.0, middle)).volume < volume {
                low = middle
            } else {
                high = middle
            }
        }
        tank.moments_below(&surface(pitch, 0.0, low)).centroid()
    };
    let step = 1e-3;
    let way = at(6.0 + step) - at(6.0 - step);
    let normal = surface(6.0, 0.0, 0.0).normal;
    // Central difference over 2e-3 degrees: its own error is of second order in the step.
    assert!(way.dot(normal).abs() < 1e-7 * way.length());
}
