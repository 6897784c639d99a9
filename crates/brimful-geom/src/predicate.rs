//! Decisions that must not depend on rounding.
//!
//! Signs come from the adaptive exact predicates of J. R. Shewchuk, "Adaptive Precision
//! Floating-Point Arithmetic and Fast Robust Geometric Predicates", Discrete & Computational
//! Geometry 18 (1997), through the `robust` crate. Nothing else in the project decides a side.

use crate::vector::Point2;

/// Which side of a directed line a point lies on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// To the left of the line.
    Left,
    /// Exactly on it.
    On,
    /// To the right of the line.
    Right,
}

/// The side of the line from `a` to `b` on which `c` lies.
pub fn side(a: Point2, b: Point2, c: Point2) -> Side {
    let sign = robust::orient2d(coord(a), coord(b), coord(c));
    if sign > 0.0 {
        Side::Left
    } else if sign < 0.0 {
        Side::Right
    } else {
        Side::On
    }
}

/// Whether two closed segments have a point in common.
pub fn segments_touch(a: (Point2, Point2), b: (Point2, Point2)) -> bool {
    let (a0, a1, b0, b1) = (a.0, a.1, b.0, b.1);
    let (s0, s1) = (side(a0, a1, b0), side(a0, a1, b1));
    let (t0, t1) = (side(b0, b1, a0), side(b0, b1, a1));
    if s0 != Side::On && s1 != Side::On && t0 != Side::On && t1 != Side::On {
        return s0 != s1 && t0 != t1;
    }
    (s0 == Side::On && in_box(a, b0))
        || (s1 == Side::On && in_box(a, b1))
        || (t0 == Side::On && in_box(b, a0))
        || (t1 == Side::On && in_box(b, a1))
}

/// Whether two segments cross in a single point inside both.
pub fn segments_cross(a: (Point2, Point2), b: (Point2, Point2)) -> bool {
    let (s0, s1) = (side(a.0, a.1, b.0), side(a.0, a.1, b.1));
    let (t0, t1) = (side(b.0, b.1, a.0), side(b.0, b.1, a.1));
    ![s0, s1, t0, t1].contains(&Side::On) && s0 != s1 && t0 != t1
}

fn in_box(segment: (Point2, Point2), point: Point2) -> bool {
    let within = |a: f64, b: f64, v: f64| a.min(b) <= v && v <= a.max(b);
    within(segment.0.x, segment.1.x, point.x) && within(segment.0.y, segment.1.y, point.y)
}

fn coord(point: Point2) -> robust::Coord<f64> {
    robust::Coord {
        x: point.x,
        y: point.y,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_point_a_hair_off_the_line_is_told_apart() {
        // The grid of Kettner et al., "Classroom examples of robustness problems in geometric
        // computations" (2008), section 3: naive arithmetic calls many of these collinear.
        let (a, b) = (Point2::new(12.0, 12.0), Point2::new(24.0, 24.0));
        let hair = 0.5 + f64::EPSILON / 2.0;
        assert_eq!(side(a, b, Point2::new(0.5, 0.5)), Side::On);
        assert_eq!(side(a, b, Point2::new(0.5, hair)), Side::Left);
        assert_eq!(side(a, b, Point2::new(hair, 0.5)), Side::Right);
    }

    #[test]
    fn touching_is_not_crossing() {
        let p = Point2::new;
        let bar = (p(0.0, 0.0), p(2.0, 0.0));
        assert!(segments_cross(bar, (p(1.0, -1.0), p(1.0, 1.0))));
        let tee = (p(1.0, 0.0), p(1.0, 1.0));
        assert!(segments_touch(bar, tee) && !segments_cross(bar, tee));
        assert!(!segments_touch(bar, (p(3.0, 0.0), p(4.0, 0.0))));
    }
}
