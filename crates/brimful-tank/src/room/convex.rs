//! Convex outlines in the plane, and what two have in common.

use brimful_geom::polygon::Outline;
use brimful_geom::vector::{Point2, Vec2};

/// What is no further outside is on the edge, metres: rounding, so that no place falls between two
/// outlines that share an edge.
const ON_EDGE: f64 = 1e-9;

/// A convex outline, counter-clockwise.
#[derive(Clone, Debug, PartialEq)]
pub struct Convex(Outline);

impl Convex {
    /// Of corners in order round it, either way; none where they enclose nothing.
    pub fn of(corners: Vec<Point2>) -> Option<Self> {
        let outline = Outline(corners).counter_clockwise();
        (outline.signed_area() > 0.0).then_some(Self(outline))
    }

    /// The rectangle that reaches so far about the line between two places; none where they are one.
    pub fn about(from: Point2, to: Point2, reach: f64) -> Option<Self> {
        let length = from.distance(to);
        let along = (to - from) * (reach / length);
        let aside = Vec2::new(-along.y, along.x);
        let (from, to) = (from - along, to + along);
        Self::of(vec![from - aside, to - aside, to + aside, from + aside])
    }

    /// Whether a place is in it or on its edge.
    pub fn contains(&self, place: Point2) -> bool {
        let off = |(a, b): (Point2, Point2)| (b - a).cross(place - a) / a.distance(b);
        self.0.sides().all(|side| off(side) >= -ON_EDGE)
    }

    /// The corners of what it has in common with another, by the corners of that (Sutherland and Hodgman, "Reentrant polygon
    /// clipping", CACM 17 (1974)); none where that is nothing.
    pub fn common(&self, other: &[Point2]) -> Vec<Point2> {
        let mut kept = other.to_vec();
        for (a, b) in self.0.sides() {
            let off = |p: Point2| (b - a).cross(p - a);
            let n = kept.len();
            let mut inside = Vec::with_capacity(n + 1);
            for i in 0..n {
                let (from, to) = (kept[i], kept[(i + 1) % n]);
                let (at_from, at_to) = (off(from), off(to));
                if at_from >= 0.0 {
                    inside.push(from);
                }
                if (at_from < 0.0) != (at_to < 0.0) {
                    inside.push(from + (to - from) * (at_from / (at_from - at_to)));
                }
            }
            kept = inside;
        }
        kept
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_square_and_a_triangle_across_its_corner_have_a_corner_in_common() {
        let at = Point2::new;
        let square = [at(0.0, 0.0), at(1.0, 0.0), at(1.0, 1.0), at(0.0, 1.0)];
        let square = Convex::of(square.to_vec()).unwrap();
        let common = square.common(&[at(0.5, 2.0), at(2.0, 0.5), at(2.0, 2.0)]);
        assert_eq!(common, []);
        let common = square.common(&[at(0.0, 0.0), at(1.5, 0.0), at(0.0, 1.5)]);
        // All of the square but the corner beyond x + y = 1.5.
        let area = Outline(common).signed_area();
        assert!((area - 0.875).abs() < 1e-12, "{area}");
        assert!(square.contains(at(1.0, 0.5)) && !square.contains(at(1.1, 0.5)));
        let line = Convex::about(at(0.0, 0.0), at(2.0, 0.0), 0.5).unwrap();
        assert!(line.contains(at(2.4, -0.4)) && !line.contains(at(2.4, 0.6)));
    }
}
