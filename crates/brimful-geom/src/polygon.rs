//! Closed outlines in the plane.

use crate::predicate::{Side, segments_touch, side};
use crate::vector::{Point2, Vec2};
use schemars::JsonSchema;
use serde::Serialize;
use std::fmt;

/// A closed outline; the last point joins the first. Counter-clockwise encloses material,
/// clockwise a hole.
#[derive(Clone, Debug, PartialEq)]
pub struct Outline(pub Vec<Point2>);

/// Why an outline cannot be used.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum OutlineFault {
    /// Fewer than three points.
    TooFewPoints(usize),
    /// A coordinate is not a number.
    NotFinite(usize),
    /// Two neighbouring points are the same (index of the first).
    RepeatedPoint(usize),
    /// Two sides cross or touch (indices of their first points).
    SidesMeet(usize, usize),
    /// The outline encloses nothing.
    NoArea,
}

impl fmt::Display for OutlineFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooFewPoints(n) => {
                write!(f, "an outline needs at least 3 points, this one has {n}")
            }
            Self::NotFinite(i) => write!(f, "point {} is not a finite number", i + 1),
            Self::RepeatedPoint(i) => write!(f, "point {} is given twice in a row", i + 1),
            Self::SidesMeet(i, j) => write!(
                f,
                "the side that starts at point {} meets the side that starts at point {}",
                i + 1,
                j + 1
            ),
            Self::NoArea => write!(f, "the outline encloses no area"),
        }
    }
}

impl std::error::Error for OutlineFault {}

impl Outline {
    /// A rectangle from `(0, 0)` to `(width, height)`, counter-clockwise.
    pub fn rectangle(width: f64, height: f64) -> Self {
        Self(vec![
            Point2::new(0.0, 0.0),
            Point2::new(width, 0.0),
            Point2::new(width, height),
            Point2::new(0.0, height),
        ])
    }

    /// A regular polygon of `n` corners with the same area as the circle of `radius`, so that
    /// volumes of round holes come out exact.
    pub fn round(centre: Point2, radius: f64, n: usize) -> Self {
        let step = std::f64::consts::TAU / n as f64;
        let corner = radius * (step / step.sin()).sqrt();
        let at = |i: usize| {
            let (sin, cos) = (step * i as f64).sin_cos();
            centre + Vec2::new(cos, sin) * corner
        };
        Self((0..n).map(at).collect())
    }

    /// Enclosed area, m2; positive for counter-clockwise.
    pub fn signed_area(&self) -> f64 {
        let Some(&origin) = self.0.first() else {
            return 0.0;
        };
        self.sides()
            .map(|(a, b)| (a - origin).cross(b - origin))
            .sum::<f64>()
            / 2.0
    }

    /// Centre of the enclosed area.
    pub fn centroid(&self) -> Point2 {
        let Some(&origin) = self.0.first() else {
            return Point2::default();
        };
        let (mut area, mut sum) = (0.0, Vec2::default());
        for (a, b) in self.sides() {
            let (u, v) = (a - origin, b - origin);
            let twice = u.cross(v);
            area += twice;
            sum += (u + v) * (twice / 3.0);
        }
        origin + sum / area
    }

    /// Length of the outline, m.
    pub fn perimeter(&self) -> f64 {
        self.sides().map(|(a, b)| a.distance(b)).sum()
    }

    /// The sides in order, each as its two end points.
    pub fn sides(&self) -> impl Iterator<Item = (Point2, Point2)> + '_ {
        let n = self.0.len();
        (0..n).map(move |i| (self.0[i], self.0[(i + 1) % n]))
    }

    /// The same outline, run the other way round.
    pub fn reversed(&self) -> Self {
        Self(self.0.iter().rev().copied().collect())
    }

    /// The same outline, counter-clockwise.
    pub fn counter_clockwise(self) -> Self {
        if self.signed_area() < 0.0 {
            self.reversed()
        } else {
            self
        }
    }

    /// Lowest and highest coordinates.
    pub fn bounds(&self) -> (Point2, Point2) {
        let mut low = Point2::new(f64::INFINITY, f64::INFINITY);
        let mut high = Point2::new(f64::NEG_INFINITY, f64::NEG_INFINITY);
        for p in &self.0 {
            low = Point2::new(low.x.min(p.x), low.y.min(p.y));
            high = Point2::new(high.x.max(p.x), high.y.max(p.y));
        }
        (low, high)
    }

    /// Whether a point is inside (winding number not zero); points on the outline count as inside.
    pub fn contains(&self, point: Point2) -> bool {
        let mut winding = 0;
        for (a, b) in self.sides() {
            let where_ = side(a, b, point);
            if where_ == Side::On && segments_touch((a, b), (point, point)) {
                return true;
            }
            if a.y <= point.y && b.y > point.y && where_ == Side::Left {
                winding += 1;
            }
            if a.y > point.y && b.y <= point.y && where_ == Side::Right {
                winding -= 1;
            }
        }
        winding != 0
    }

    /// Distance from a point to the nearest place on the outline, m.
    pub fn distance(&self, point: Point2) -> f64 {
        self.sides()
            .map(|(a, b)| distance_to_segment(point, a, b))
            .fold(f64::INFINITY, f64::min)
    }

    /// Every reason why this is not a simple outline.
    pub fn faults(&self) -> Vec<OutlineFault> {
        let n = self.0.len();
        if n < 3 {
            return vec![OutlineFault::TooFewPoints(n)];
        }
        let not_finite = |p: &Point2| !(p.x.is_finite() && p.y.is_finite());
        if let Some(i) = self.0.iter().position(not_finite) {
            return vec![OutlineFault::NotFinite(i)];
        }
        let repeated: Vec<_> = (0..n)
            .filter(|&i| self.0[i] == self.0[(i + 1) % n])
            .map(OutlineFault::RepeatedPoint)
            .collect();
        if !repeated.is_empty() {
            return repeated;
        }
        let mut faults = self.meeting_sides();
        if faults.is_empty() && self.signed_area() == 0.0 {
            faults.push(OutlineFault::NoArea);
        }
        faults
    }

    fn meeting_sides(&self) -> Vec<OutlineFault> {
        let sides: Vec<_> = self.sides().collect();
        let n = sides.len();
        let mut faults = Vec::new();
        for i in 0..n {
            // A side that doubles back along the one before it.
            let (a, b, c) = (sides[i].0, sides[i].1, sides[(i + 1) % n].1);
            if side(a, b, c) == Side::On && (b - a).dot(c - b) < 0.0 {
                faults.push(OutlineFault::SidesMeet(i, (i + 1) % n));
            }
            for j in i + 2..n {
                let neighbours = i == 0 && j == n - 1;
                if !neighbours && segments_touch(sides[i], sides[j]) {
                    faults.push(OutlineFault::SidesMeet(i, j));
                }
            }
        }
        faults
    }
}

/// Distance from a point to a segment, m.
pub fn distance_to_segment(point: Point2, a: Point2, b: Point2) -> f64 {
    let way = b - a;
    let length_squared = way.dot(way);
    if length_squared == 0.0 {
        return point.distance(a);
    }
    let share = ((point - a).dot(way) / length_squared).clamp(0.0, 1.0);
    point.distance(a + way * share)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn outline(points: &[(f64, f64)]) -> Outline {
        Outline(points.iter().map(|&(x, y)| Point2::new(x, y)).collect())
    }

    #[test]
    fn an_l_has_the_area_and_centre_of_its_two_rectangles() {
        let l = outline(&[(0., 0.), (4., 0.), (4., 1.), (1., 1.), (1., 3.), (0., 3.)]);
        assert!(l.faults().is_empty());
        assert_eq!(l.signed_area(), 6.0);
        let c = l.centroid();
        assert!((c.x - (4.0 * 2.0 + 2.0 * 0.5) / 6.0).abs() < 1e-15);
        assert!((c.y - (4.0 * 0.5 + 2.0 * 2.0) / 6.0).abs() < 1e-15);
        assert!(l.contains(Point2::new(0.5, 2.0)) && !l.contains(Point2::new(2.0, 2.0)));
    }

    #[test]
    fn every_fault_of_an_outline_is_named() {
        assert_eq!(
            outline(&[(0., 0.), (1., 0.)]).faults(),
            [OutlineFault::TooFewPoints(2)]
        );
        let bow = outline(&[(0., 0.), (1., 1.), (1., 0.), (0., 1.)]);
        assert_eq!(bow.faults(), [OutlineFault::SidesMeet(0, 2)]);
        let nan = outline(&[(0., 0.), (1., f64::NAN), (1., 0.)]);
        assert_eq!(nan.faults(), [OutlineFault::NotFinite(1)]);
        let spike = outline(&[(0., 0.), (2., 0.), (1., 0.), (1., 1.)]);
        assert!(!spike.faults().is_empty());
        let twice = outline(&[(0., 0.), (0., 0.), (1., 0.), (1., 1.)]);
        assert_eq!(twice.faults(), [OutlineFault::RepeatedPoint(0)]);
    }

    #[test]
    fn a_round_outline_has_the_area_of_the_circle() {
        let disc = Outline::round(Point2::new(3.0, -2.0), 0.25, 48);
        let circle = std::f64::consts::PI * 0.0625;
        assert!((disc.signed_area() - circle).abs() < 1e-15);
    }
}
