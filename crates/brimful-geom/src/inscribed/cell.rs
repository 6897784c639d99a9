//! Convex cells, cut by planes without ever failing.
//!
//! Every side of a cell is a ring of points of its own. A cut parts each ring by itself, and the new
//! side is the convex hull of the points on the plane: there is nothing to put together, and so
//! nothing that a rounding could keep from closing.

use crate::frame::{Frame, Plane};
use crate::predicate::{Side, side};
use crate::solid::Solid;
use crate::vector::{Point2, Point3, Vec3};

/// A point as near to a plane as this lies on it, metres: corners of a solid are planar to as much
/// ([`crate::solid::PLANAR_TOLERANCE`]).
pub const ON: f64 = crate::solid::PLANAR_TOLERANCE;

/// A flat convex ring of points, in order.
pub type Ring = Vec<Point3>;

/// What of a convex ring lies behind a plane and what before it; empty where nothing does.
pub fn parted(ring: &[Point3], plane: &Plane) -> (Ring, Ring) {
    let distances: Vec<f64> = ring.iter().map(|&p| plane.distance(p)).collect();
    let (mut behind, mut before) = (Ring::new(), Ring::new());
    for (i, &p) in ring.iter().enumerate() {
        let j = (i + 1) % ring.len();
        let (d, e) = (distances[i], distances[j]);
        if d <= ON {
            behind.push(p);
        }
        if d >= -ON {
            before.push(p);
        }
        if d.min(e) < -ON && d.max(e) > ON {
            let crossing = p + (ring[j] - p) * (d / (d - e));
            behind.push(crossing);
            before.push(crossing);
        }
    }
    if !distances.iter().any(|&d| d < -ON) {
        behind.clear();
    }
    if !distances.iter().any(|&d| d > ON) {
        before.clear();
    }
    (behind, before)
}

/// A convex solid: its sides, each a plane that looks out of it and the ring in it.
#[derive(Clone, Debug)]
pub struct Cell {
    pub sides: Vec<(Plane, Ring)>,
}

impl Cell {
    /// The cell of a convex solid.
    pub fn of(solid: &Solid) -> Self {
        let ring = |loops: &[Vec<usize>]| loops[0].iter().map(|&v| solid.vertices[v]).collect();
        let sides = solid.faces.iter().map(|f| (f.plane, ring(&f.loops)));
        Self {
            sides: sides.collect(),
        }
    }

    pub fn points(&self) -> impl Iterator<Item = Point3> + '_ {
        self.sides.iter().flat_map(|(_, ring)| ring.iter().copied())
    }

    /// What lies behind a plane; none where nothing does.
    pub fn behind(&self, plane: &Plane) -> Option<Self> {
        if !self.points().any(|p| plane.distance(p) < -ON) {
            return None;
        }
        if !self.points().any(|p| plane.distance(p) > ON) {
            return Some(self.clone());
        }
        let mut sides: Vec<(Plane, Ring)> = self
            .sides
            .iter()
            .map(|(own, ring)| (*own, parted(ring, plane).0))
            .filter(|(_, ring)| ring.len() > 2)
            .collect();
        let cut = sides.iter().flat_map(|(_, ring)| ring);
        let cut: Vec<Point3> = cut
            .copied()
            .filter(|&p| plane.distance(p).abs() <= ON)
            .collect();
        let cap = hull(plane, &cut);
        if cap.len() > 2 {
            sides.push((*plane, cap));
        }
        Some(Self { sides })
    }

    /// Cubic metres, by cones from a corner.
    pub fn volume(&self) -> f64 {
        let Some(tip) = self.points().next() else {
            return 0.0;
        };
        let cone = |(_, ring): &(Plane, Ring)| {
            let (a, rest) = (ring[0] - tip, &ring[1..]);
            let pairs = rest.windows(2);
            pairs
                .map(|w| a.dot((w[0] - tip).cross(w[1] - tip)))
                .sum::<f64>()
        };
        self.sides.iter().map(cone).sum::<f64>() / 6.0
    }

    /// The least distance between a side and the point farthest from it, metres.
    pub fn width(&self) -> f64 {
        let across = |(plane, _): &(Plane, Ring)| {
            self.points()
                .map(|p| -plane.distance(p))
                .fold(0.0, f64::max)
        };
        self.sides.iter().map(across).fold(f64::INFINITY, f64::min)
    }

    /// Unit vectors along the edges that are longer than rounding makes them.
    pub fn edges(&self) -> impl Iterator<Item = Vec3> + '_ {
        self.sides.iter().flat_map(|(_, ring)| {
            (0..ring.len())
                .map(|i| ring[(i + 1) % ring.len()] - ring[i])
                .filter(|along| along.length() > 100.0 * ON)
                .filter_map(Vec3::unit)
        })
    }
}

/// The convex hull of points in a plane, counter-clockwise seen from before it (A. M. Andrew, "Another efficient
/// algorithm for convex hulls in two dimensions", Information Processing Letters 9 (1979), from memory).
fn hull(plane: &Plane, points: &[Point3]) -> Ring {
    let Some(&first) = points.first() else {
        return Ring::new();
    };
    let frame = Frame::upright(plane, first);
    let mut flat: Vec<(Point2, Point3)> = points
        .iter()
        .map(|&p| (frame.flat_from_world(p), p))
        .collect();
    // Added to zero, -0 is 0: the two must not be set apart.
    let order = |a: f64, b: f64| (a + 0.0).total_cmp(&(b + 0.0));
    flat.sort_by(|(a, _), (b, _)| order(a.x, b.x).then(order(a.y, b.y)));
    let chain = |points: &mut dyn Iterator<Item = &(Point2, Point3)>| {
        let mut chain: Vec<(Point2, Point3)> = Vec::new();
        for &next in points {
            while let [.., a, b] = chain[..]
                && side(a.0, b.0, next.0) != Side::Left
            {
                chain.pop();
            }
            chain.push(next);
        }
        chain.pop();
        chain
    };
    let mut ring = chain(&mut flat.iter());
    ring.extend(chain(&mut flat.iter().rev()));
    ring.into_iter().map(|(_, p)| p).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::cube;

    #[test]
    fn a_cut_cube_comes_to_the_volume_of_its_two_halves() {
        let unit = Cell::of(&cube([0.0; 3], [1.0, 1.0, 1.0]));
        assert!((unit.volume() - 1.0).abs() < 1e-15 && unit.width() == 1.0);
        // The plane through the middles of six edges cuts a cube in a regular hexagon, in halves.
        let plane = Plane::through(Point3::new(0.5, 0.5, 0.5), Vec3::new(1.0, 1.0, 1.0)).unwrap();
        let half = unit.behind(&plane).unwrap();
        assert!((half.volume() - 0.5).abs() < 1e-15);
        assert_eq!(half.sides.last().map(|(_, cap)| cap.len()), Some(6));
        // A corner of edge t holds t^3 / 6.
        let corner = Plane::through(Point3::new(0.25, 0.0, 0.0), Vec3::new(1.0, 1.0, 1.0)).unwrap();
        let corner = unit.behind(&corner).unwrap();
        assert!((corner.volume() - 0.25f64.powi(3) / 6.0).abs() < 1e-15);
    }

    #[test]
    fn a_zero_of_either_sign_is_the_same_place() {
        let plane = Plane {
            normal: Vec3::Z,
            offset: 0.0,
        };
        let square = [(-0.0, 0.5), (0.0, 0.0), (0.0, 1.0), (1.0, 0.0), (1.0, 1.0)];
        let ring = hull(&plane, &square.map(|(x, y)| Point3::new(x, y, 0.0)));
        assert_eq!(ring.len(), 4, "{ring:?}");
    }

    #[test]
    fn a_plane_that_only_touches_cuts_nothing() {
        let unit = Cell::of(&cube([0.0; 3], [1.0, 1.0, 1.0]));
        let touching = Plane {
            normal: Vec3::X,
            offset: 1.0 + 0.5 * ON,
        };
        assert_eq!(unit.behind(&touching).unwrap().sides.len(), 6);
        assert!(unit.behind(&touching.flipped()).is_none());
    }
}
