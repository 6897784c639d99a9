//! Pushed straight through a rectangle, in any attitude.
//!
//! Seen along the way it is pushed, the body must lie in the rectangle. The ways looked along are
//! its axes, the normals of its faces and its edges, where the silhouette has its corners; the
//! turns in the opening are those that lay a side of the silhouette along the rectangle and a fan
//! between them, the best of them bettered by halving steps. Whatever is found is a proof; that
//! nothing is found is none.

use brimful_geom::frame::Frame;
use brimful_geom::solid::Solid;
use brimful_geom::vector::{Point2, Point3, Vec3};
use brimful_units::Length;

/// Turns of the fan between silhouette sides: a degree apart.
const FAN: usize = 180;
/// Halvings of that degree: down to a hundred-thousandth of one, by which a metre moves 0.2
/// micrometres.
const HALVINGS: usize = 17;
/// Ways nearer to each other than this are one.
const SAME_WAY: f64 = 1e-6;
/// No more ways than this are looked along: a body of more facets is nearly round.
const MOST_WAYS: usize = 60;
/// What touches passes: rounding of the corners, metres.
const TOUCHING: f64 = 1e-9;

/// The attitude with most room to spare, and that room: the least of what is left of width and
/// height. None where it fits in no attitude looked at.
pub(super) fn straight(body: &Solid, opening: [f64; 2]) -> Option<(Frame, Length)> {
    let mut best: Option<(Frame, f64)> = None;
    for way in ways(body) {
        let Some((frame, margin)) = turned(body, way, opening) else {
            continue;
        };
        // More by more than rounding, so that equals keep the first, plainest attitude.
        if best
            .as_ref()
            .is_none_or(|(_, most)| margin > most + TOUCHING)
        {
            best = Some((frame, margin));
        }
    }
    best.filter(|(_, margin)| *margin > -TOUCHING)
        .map(|(frame, margin)| (frame, Length::from_m(margin.max(0.0))))
}

/// The axes first, then faces and edges.
fn ways(body: &Solid) -> Vec<Vec3> {
    let normals = body.faces.iter().map(|face| face.plane.normal);
    let edges = body
        .edges()
        .into_iter()
        .filter_map(|edge| (body.vertices[edge.to] - body.vertices[edge.from]).unit());
    let mut ways: Vec<Vec3> = Vec::new();
    for way in [Vec3::X, Vec3::Y, Vec3::Z]
        .into_iter()
        .chain(normals)
        .chain(edges)
    {
        let known = |other: &Vec3| way.dot(*other).abs() > 1.0 - SAME_WAY;
        if ways.len() < MOST_WAYS && !ways.iter().any(known) {
            ways.push(way);
        }
    }
    ways
}

/// The best turn of the silhouette along `way` in the opening, with what is left.
fn turned(body: &Solid, way: Vec3, [width, height]: [f64; 2]) -> Option<(Frame, f64)> {
    let seed = if way.z.abs() > 0.9 { Vec3::X } else { Vec3::Z };
    let across = seed.cross(way).unit()?;
    let up = way.cross(across);
    let flat: Vec<Point2> = body
        .vertices
        .iter()
        .map(|p| Point2::new(across.dot(p.to_vec()), up.dot(p.to_vec())))
        .collect();
    let mut angles: Vec<f64> = (0..FAN)
        .map(|step| step as f64 * std::f64::consts::PI / FAN as f64)
        .collect();
    for edge in body.edges() {
        let along = flat[edge.to] - flat[edge.from];
        if along.length() > TOUCHING {
            angles.push(along.y.atan2(along.x).rem_euclid(std::f64::consts::PI));
        }
    }
    let margin = |angle: f64| {
        let (sin, cos) = angle.sin_cos();
        let span = |x: f64, y: f64| {
            let along = flat.iter().map(|p| x * p.x + y * p.y);
            let (low, high) = along.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), v| {
                (low.min(v), high.max(v))
            });
            high - low
        };
        (width - span(cos, sin)).min(height - span(-sin, cos))
    };
    let quarter = std::f64::consts::FRAC_PI_2;
    let mut best = (0.0, f64::NEG_INFINITY);
    for angle in angles {
        for angle in [angle, angle + quarter] {
            let left = margin(angle);
            if left > best.1 + TOUCHING {
                best = (angle, left);
            }
        }
    }
    let mut step = std::f64::consts::PI / FAN as f64;
    for _ in 0..HALVINGS {
        step /= 2.0;
        for angle in [best.0 - step, best.0 + step] {
            let left = margin(angle);
            if left > best.1 {
                best = (angle, left);
            }
        }
    }
    let (sin, cos) = best.0.sin_cos();
    let frame = Frame {
        origin: Point3::ORIGIN,
        x: across * cos + up * sin,
        y: up * cos - across * sin,
        z: way,
    };
    Some((frame, best.1))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn cuboid(x: f64, y: f64, z: f64) -> Solid {
        Solid::cuboid(Point3::ORIGIN, Point3::new(x, y, z))
    }

    #[test]
    fn a_box_passes_end_on_and_no_other_way() {
        // 490 deep, 610 wide, 2128 tall through a gate of 600 by 1950: only with its depth across.
        let (attitude, margin) = straight(&cuboid(0.61, 0.49, 2.128), [0.6, 1.95]).unwrap();
        assert!(attitude.x.y.abs() > 0.999, "{attitude:?}");
        assert!((margin.mm() - 110.0).abs() < 1e-6, "{margin:?}");
        assert!(straight(&cuboid(0.7, 0.65, 2.0), [0.6, 1.95]).is_none());
    }

    #[test]
    fn a_long_thin_plate_passes_on_the_slant() {
        // The diagonal of a square opening of 1 m takes a plate of 1.3 m: for a rectangle p by q in a
        // unit square p + q <= sqrt 2 (Carver 1957, "Solution to Problem E1225", from memory).
        let fits = |long: f64, thin: f64| straight(&cuboid(5.0, long, thin), [1.0, 1.0]).is_some();
        let root = 2.0_f64.sqrt();
        assert!(fits(1.3, root - 1.3 - 1e-3));
        assert!(!fits(1.3, root - 1.3 + 1e-3));
    }
}
