//! Flats for the tests.

use brimful_geom::frame::Frame;
use brimful_geom::mesh::Flat;
use brimful_geom::polygon::Outline;
use brimful_geom::vector::{Point2, Point3, Vec3};

pub fn p(x: f64, y: f64, z: f64) -> Point3 {
    Point3::new(x, y, z)
}

/// The flat with the given corners, in order round it, and holes in its plane.
pub fn flat(corners: &[Point3], size: f64) -> Flat {
    let newell = (0..corners.len()).fold(Vec3::ZERO, |sum, i| {
        let (a, b) = (corners[i], corners[(i + 1) % corners.len()]);
        sum + (a - corners[0]).cross(b - corners[0])
    });
    let z = newell.unit().unwrap();
    let along = corners[1] - corners[0];
    let x = (along - z * along.dot(z)).unit().unwrap();
    let frame = Frame {
        origin: corners[0],
        x,
        y: z.cross(x),
        z,
    };
    let outline = corners.iter().map(|&c| frame.flat_from_world(c)).collect();
    Flat {
        frame,
        outlines: vec![Outline(outline)],
        size,
        segments: vec![],
        points: vec![],
    }
}

/// The sides of a prism: floor, roof, and a wall on each side of the counter-clockwise `base`.
pub fn prism(base: &[(f64, f64)], height: f64, size: f64) -> Vec<Flat> {
    let ring = |z: f64| base.iter().map(|&(x, y)| p(x, y, z)).collect::<Vec<_>>();
    let (low, high) = (ring(0.0), ring(height));
    let mut flats = vec![flat(&low, size), flat(&high, size)];
    for i in 0..base.len() {
        let j = (i + 1) % base.len();
        flats.push(flat(&[low[i], low[j], high[j], high[i]], size));
    }
    flats
}

pub fn box_of(w: f64, d: f64, h: f64, size: f64) -> Vec<Flat> {
    prism(&[(0.0, 0.0), (w, 0.0), (w, d), (0.0, d)], h, size)
}

pub fn round_hole(x: f64, y: f64, radius: f64, sides: usize) -> Outline {
    Outline::round(Point2::new(x, y), radius, sides).reversed()
}

/// A slot with half-round ends along x.
pub fn slot(x: f64, y: f64, length: f64, radius: f64, sides: usize) -> Outline {
    let half = sides / 2;
    let mut points = Vec::new();
    for (centre, start) in [(x + length / 2.0, -0.5), (x - length / 2.0, 0.5)] {
        for i in 0..=half {
            let turn = std::f64::consts::PI * (start + i as f64 / half as f64);
            points.push(Point2::new(
                centre + radius * turn.cos(),
                y + radius * turn.sin(),
            ));
        }
    }
    Outline(points).reversed()
}

/// All flats moved as one: turned about a skew axis, then shifted.
pub fn moved(flats: &[Flat], angle: f64, shift: Vec3) -> Vec<Flat> {
    let axis = Vec3::new(0.3, -0.5, 0.8).unit().unwrap();
    let turn = |v: Vec3| {
        let (sin, cos) = angle.sin_cos();
        v * cos + axis.cross(v) * sin + axis * (axis.dot(v) * (1.0 - cos))
    };
    let frame = |f: &Frame| {
        let (x, y) = (turn(f.x), turn(f.y));
        Frame {
            origin: Point3::ORIGIN + turn(f.origin.to_vec()) + shift,
            x,
            y,
            z: x.cross(y),
        }
    };
    flats
        .iter()
        .map(|f| Flat {
            frame: frame(&f.frame),
            ..f.clone()
        })
        .collect()
}
