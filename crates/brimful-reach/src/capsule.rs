//! A segment with a radius, and how far segments are from one another and from flat polygons.

use brimful_geom::vector::{Point3, Vec3};

/// All places within a radius of a segment.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Capsule {
    /// One end of its middle line.
    pub from: Point3,
    /// The other end.
    pub to: Point3,
    /// Its radius, m.
    pub radius: f64,
}

/// Below this a segment is a point, m squared: a nanometre.
const POINT: f64 = 1e-18;

/// Distance between two segments, m: the closest places on both lines, each moved to its segment's end
/// where it lies beyond (C. Ericson, *Real-Time Collision Detection*, 2005, 5.1.9).
pub(crate) fn between_segments([a, b]: [Point3; 2], [c, d]: [Point3; 2]) -> f64 {
    let (u, v, w) = (b - a, d - c, a - c);
    let (uu, vv, uv) = (u.dot(u), v.dot(v), u.dot(v));
    let (uw, vw) = (u.dot(w), v.dot(w));
    if uu <= POINT {
        return a.distance_to_segment(c, d);
    }
    if vv <= POINT {
        return c.distance_to_segment(a, b);
    }
    let across = uu * vv - uv * uv;
    let mut s = match across > POINT * uu {
        true => ((uv * vw - uw * vv) / across).clamp(0.0, 1.0),
        false => 0.0,
    };
    let mut t = (uv * s + vw) / vv;
    if !(0.0..=1.0).contains(&t) {
        t = t.clamp(0.0, 1.0);
        s = ((uv * t - uw) / uu).clamp(0.0, 1.0);
    }
    (w + u * s - v * t).length()
}

/// Distance from a segment to a flat convex polygon, m; zero where it passes through. `corners` run round the unit
/// `normal` counter-clockwise.
pub(crate) fn to_polygon([a, b]: [Point3; 2], corners: &[Point3], normal: Vec3) -> f64 {
    let Some(&first) = corners.first() else {
        return f64::INFINITY;
    };
    let edges = || (0..corners.len()).map(|i| [corners[i], corners[(i + 1) % corners.len()]]);
    let is_over = |place: Point3| {
        edges().all(|[from, to]| normal.dot((to - from).cross(place - from)) >= 0.0)
    };
    let heights = [a, b].map(|end| normal.dot(end - first));
    if heights[0] * heights[1] <= 0.0 && heights[0] != heights[1] {
        let share = heights[0] / (heights[0] - heights[1]);
        if is_over(a + (b - a) * share) {
            return 0.0;
        }
    }
    let over_ends = [(a, heights[0]), (b, heights[1])].into_iter();
    let over_ends = over_ends.filter(|(end, _)| is_over(*end));
    let over_ends = over_ends.map(|(_, height)| height.abs());
    let to_edges = edges().map(|edge| between_segments([a, b], edge));
    over_ends.chain(to_edges).fold(f64::INFINITY, f64::min)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Rounding of products of lengths of a metre, with room.
    const ROUNDING: f64 = 1e-12;

    fn point(random: &mut fastrand::Rng) -> Point3 {
        Point3::new(random.f64(), random.f64(), random.f64())
    }

    /// No pair of places on a grid of both is nearer, and some pair is as near as the grid is fine.
    #[test]
    fn segments_are_as_far_apart_as_their_nearest_places() {
        let mut random = fastrand::Rng::with_seed(1);
        for _ in 0..500 {
            let [a, b, c, d] = [0; 4].map(|_| point(&mut random));
            let found = between_segments([a, b], [c, d]);
            let steps = 60;
            let share = |i: usize| i as f64 / steps as f64;
            let mut least = f64::INFINITY;
            for i in 0..=steps {
                let at = a + (b - a) * share(i);
                least = least.min(at.distance_to_segment(c, d));
            }
            // The nearest place is at most half a step off, along a segment of at most the cube's diagonal.
            let half_step = 3.0_f64.sqrt() / steps as f64 / 2.0;
            assert!(
                found <= least + ROUNDING && least - found <= half_step,
                "{found} {least}"
            );
        }
    }

    #[test]
    fn parallel_and_shrunken_segments_have_a_distance() {
        let at = |x: f64, y: f64| Point3::new(x, y, 0.0);
        let cases = [
            (
                [at(0.0, 0.0), at(1.0, 0.0)],
                [at(2.0, 1.0), at(3.0, 1.0)],
                2.0_f64.sqrt(),
            ),
            (
                [at(0.0, 0.0), at(1.0, 0.0)],
                [at(0.5, 1.0), at(3.0, 1.0)],
                1.0,
            ),
            (
                [at(0.0, 0.0), at(0.0, 0.0)],
                [at(3.0, 4.0), at(3.0, 4.0)],
                5.0,
            ),
            (
                [at(0.0, 0.0), at(1.0, 0.0)],
                [at(0.5, 0.0), at(0.5, 0.0)],
                0.0,
            ),
        ];
        for (one, other, distance) in cases {
            assert!((between_segments(one, other) - distance).abs() < ROUNDING);
            assert!((between_segments(other, one) - distance).abs() < ROUNDING);
        }
    }

    #[test]
    fn a_polygon_is_near_over_its_face_its_edge_and_its_corner() {
        let square = [(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)];
        let square = square.map(|(x, y)| Point3::new(x, y, 0.0));
        let to = |a: [f64; 3], b: [f64; 3]| {
            let ends = [a, b].map(|[x, y, z]| Point3::new(x, y, z));
            to_polygon(ends, &square, Vec3::Z)
        };
        assert!((to([0.5, 0.5, 0.3], [0.5, 0.5, 2.0]) - 0.3).abs() < ROUNDING);
        assert!(to([0.5, 0.5, -0.3], [0.6, 0.5, 2.0]).abs() < ROUNDING);
        assert!((to([-0.3, 0.5, -0.4], [-0.3, 0.5, -2.0]) - 0.5).abs() < ROUNDING);
        assert!((to([2.0, 2.0, 1.0], [3.0, 3.0, 1.0]) - 3.0_f64.sqrt()).abs() < ROUNDING);
    }
}
