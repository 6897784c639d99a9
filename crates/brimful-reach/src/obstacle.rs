//! A flat plate with bevelled sides and holes, and whether a capsule runs into it.

use crate::capsule::{Capsule, to_polygon};
use brimful_geom::frame::Frame;
use brimful_geom::plate::{Cutout, Plate, PlateFace};
use brimful_geom::polygon::Outline;
use brimful_geom::vector::{Point2, Point3, Vec3};

/// Sides of the polygon that stands for a round hole. Its corners lie on the circle, so that the hole is no wider than it
/// is: its sides come in by a fiftieth of the radius.
const HOLE_SIDES: usize = 16;

/// A plate that stands in the way.
#[derive(Clone, Debug)]
pub struct Obstacle {
    frame: Frame,
    thickness: f64,
    /// On the outside face and on the inside face: the outline first, then holes.
    faces: [Vec<Outline>; 2],
    /// The flat sides between the two, in the plate's frame.
    sides: Vec<Side>,
    low: Point3,
    high: Point3,
}

#[derive(Clone, Debug)]
struct Side {
    corners: [Point3; 4],
    normal: Vec3,
}

impl Obstacle {
    /// A plate as an obstacle.
    pub fn of(plate: &Plate) -> Self {
        let holes: Vec<Outline> = plate.cutouts.iter().map(hole).collect();
        let faces = [PlateFace::Outside, PlateFace::Inside].map(|face| {
            let mut outlines = plate.outlines(face);
            outlines.extend(holes.iter().cloned());
            outlines
        });
        let down = plate.thickness;
        let mut sides = Vec::new();
        for (outer, inner) in faces[0].iter().zip(&faces[1]) {
            for ((a, b), (c, d)) in outer.sides().zip(inner.sides()) {
                let corners = [(a, 0.0), (b, 0.0), (d, -down), (c, -down)]
                    .map(|(place, z)| Point3::new(place.x, place.y, z));
                let normal = (corners[2] - corners[0]).cross(corners[3] - corners[1]);
                if let Some(normal) = normal.unit() {
                    sides.push(Side { corners, normal });
                }
            }
        }
        let corners = faces.iter().zip([0.0, -down]).flat_map(|(face, z)| {
            let all = face.iter().flat_map(|outline| outline.0.iter());
            all.map(move |place| Point3::new(place.x, place.y, z))
        });
        let (low, high) = bounds(corners.map(|corner| plate.frame.world_from_frame(corner)));
        Self {
            frame: plate.frame,
            thickness: plate.thickness,
            faces,
            sides,
            low,
            high,
        }
    }

    /// Lowest and highest coordinates in the world.
    pub fn bounds(&self) -> [Point3; 2] {
        [self.low, self.high]
    }

    /// The middles of its holes in the world that a ball of this diameter, m, goes through, with the way through
    /// them.
    pub fn ways_through(&self, diameter: f64) -> impl Iterator<Item = (Point3, Vec3)> + '_ {
        let holes = self.faces[0].iter().skip(1);
        let wide = holes.filter(move |hole| hole.distance(hole.centroid()) >= diameter / 2.0);
        let middle = -self.thickness / 2.0;
        wide.map(move |hole| {
            let Point2 { x, y } = hole.centroid();
            let at = self.frame.world_from_frame(Point3::new(x, y, middle));
            (at, self.frame.z)
        })
    }

    /// Whether a capsule runs into it.
    pub fn is_hit(&self, capsule: &Capsule) -> bool {
        let (a, b, r) = (capsule.from, capsule.to, capsule.radius);
        let is_apart =
            |a: f64, b: f64, low: f64, high: f64| a.min(b) - r > high || a.max(b) + r < low;
        if is_apart(a.x, b.x, self.low.x, self.high.x)
            || is_apart(a.y, b.y, self.low.y, self.high.y)
            || is_apart(a.z, b.z, self.low.z, self.high.z)
        {
            return false;
        }
        let [a, b] = [a, b].map(|end| self.frame.frame_from_world(end));
        if is_apart(a.z, b.z, -self.thickness, 0.0) {
            return false;
        }
        self.is_near_a_face(a, b, r) || self.is_near_a_side(a, b, r)
    }

    /// Distance from a segment in the world to the plate, m; zero where it goes through.
    pub fn distance(&self, from: Point3, to: Point3) -> f64 {
        let [a, b] = [from, to].map(|end| self.frame.frame_from_world(end));
        if self.is_near_a_face(a, b, 0.0) {
            return 0.0;
        }
        let over_faces = [0, 1].into_iter().flat_map(|face| {
            let over = [a, b]
                .into_iter()
                .filter(move |end| self.is_over(*end, face));
            over.map(move |end| self.height(end, face).abs())
        });
        let sides = self.sides.iter();
        let to_sides = sides.map(|side| to_polygon([a, b], &side.corners, side.normal));
        over_faces.chain(to_sides).fold(f64::INFINITY, f64::min)
    }

    /// Whether a segment in the plate's frame passes through a face, ends within `r` of one, or ends in the sheet.
    fn is_near_a_face(&self, a: Point3, b: Point3, r: f64) -> bool {
        [0, 1].into_iter().any(|face| {
            let [from, to] = [a, b].map(|end| self.height(end, face));
            let ends_near = |end: Point3, height: f64| height.abs() <= r && self.is_over(end, face);
            let passes = from * to < 0.0 && self.is_over(a + (b - a) * (from / (from - to)), face);
            passes || ends_near(a, from) || ends_near(b, to)
        }) || [a, b].into_iter().any(|end| {
            // In the middle of the sheet, further from both faces than it is thick round.
            (-self.thickness..=0.0).contains(&end.z) && self.is_over(end, 0) && self.is_over(end, 1)
        })
    }

    fn is_near_a_side(&self, a: Point3, b: Point3, r: f64) -> bool {
        let mut sides = self.sides.iter();
        sides.any(|side| {
            let heights = [a, b].map(|end| side.normal.dot(end - side.corners[0]));
            let is_beside = heights[0].min(heights[1]) > r || heights[0].max(heights[1]) < -r;
            !is_beside && to_polygon([a, b], &side.corners, side.normal) <= r
        })
    }

    /// Height over the plane of a face, in the plate's frame.
    fn height(&self, place: Point3, face: usize) -> f64 {
        place.z + self.thickness * face as f64
    }

    /// Whether a place in the plate's frame is over the sheet of a face and not over a hole.
    fn is_over(&self, place: Point3, face: usize) -> bool {
        let place = Point2::new(place.x, place.y);
        let outlines = &self.faces[face];
        outlines[0].contains(place) && !outlines[1..].iter().any(|hole| hole.contains(place))
    }
}

/// The hole, no wider than it is.
fn hole(cutout: &Cutout) -> Outline {
    match cutout {
        Cutout::Round { centre, radius } => Outline(
            (0..HOLE_SIDES)
                .map(|i| {
                    let turn = std::f64::consts::TAU * i as f64 / HOLE_SIDES as f64;
                    Point2::new(
                        centre.x + radius * turn.cos(),
                        centre.y + radius * turn.sin(),
                    )
                })
                .collect(),
        ),
        Cutout::Straight(outline) => outline.clone(),
    }
}

fn bounds(places: impl Iterator<Item = Point3>) -> (Point3, Point3) {
    let (least, most) = (f64::NEG_INFINITY, f64::INFINITY);
    let start = (
        Point3::new(most, most, most),
        Point3::new(least, least, least),
    );
    places.fold(start, |(low, high), it| {
        (
            Point3::new(low.x.min(it.x), low.y.min(it.y), low.z.min(it.z)),
            Point3::new(high.x.max(it.x), high.y.max(it.y), high.z.max(it.z)),
        )
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::capsule::between_segments;
    use brimful_geom::plate::Side as PlateSide;
    use brimful_geom::vector::Vec2;

    /// Rounding of products of lengths of a metre, with room.
    const ROUNDING: f64 = 1e-12;

    fn rectangle(frame: Frame, width: f64, height: f64, thickness: f64, bevel: f64) -> Plate {
        let side = |x: f64, y: f64, outer: f64| PlateSide {
            normal: Vec2::new(x, y),
            outer,
            inner: outer - bevel,
            start: Point2::default(),
            mark: Some(0),
        };
        let ring = vec![
            side(0.0, -1.0, 0.0),
            side(1.0, 0.0, width),
            side(0.0, 1.0, height),
            side(-1.0, 0.0, 0.0),
        ];
        Plate::new(frame, thickness, vec![ring])
    }

    /// From a segment to a box by the box's own planes: the segment clipped to it, else the least over its edges
    /// and over the segment's ends moved into the box.
    fn to_box(a: Point3, b: Point3, low: Point3, high: Point3) -> f64 {
        let clamp = |p: Point3| {
            Point3::new(
                p.x.clamp(low.x, high.x),
                p.y.clamp(low.y, high.y),
                p.z.clamp(low.z, high.z),
            )
        };
        // The distance is convex along the segment: a search by thirds finds its least.
        let at = |s: f64| a + (b - a) * s;
        let distance = |s: f64| at(s).distance(clamp(at(s)));
        let (mut from, mut to) = (0.0, 1.0);
        for _ in 0..200 {
            let (one, other) = ((2.0 * from + to) / 3.0, (from + 2.0 * to) / 3.0);
            match distance(one) <= distance(other) {
                true => to = other,
                false => from = one,
            }
        }
        distance((from + to) / 2.0)
    }

    #[test]
    fn a_square_plate_is_a_box() {
        let mut random = fastrand::Rng::with_seed(2);
        let mut hits = 0;
        for _ in 0..3000 {
            let size = [
                0.1 + random.f64(),
                0.1 + random.f64(),
                0.002 + 0.02 * random.f64(),
            ];
            let mut place = || {
                let [x, y, z] = [0; 3].map(|_| 1.2 * random.f64() - 0.6);
                Point3::new(x, y, z)
            };
            let (a, b) = (place(), place());
            // Turned, so that no axis of the world is the plate's.
            let z = (place() - Point3::ORIGIN).unit().unwrap_or(Vec3::Z);
            let x = z.cross(Vec3::new(0.3, 0.5, 0.9)).unit().unwrap_or(Vec3::X);
            let frame = Frame {
                origin: place(),
                x,
                y: z.cross(x),
                z,
            };
            let obstacle = Obstacle::of(&rectangle(frame, size[0], size[1], size[2], 0.0));
            let (low, high) = (
                Point3::new(0.0, 0.0, -size[2]),
                Point3::new(size[0], size[1], 0.0),
            );
            let [from, to] = [a, b].map(|end| frame.frame_from_world(end));
            let wanted = to_box(from, to, low, high);
            // The search by thirds ends where its values differ by rounding: the root of it in the place, and a distance that
            // changes with the square.
            let found = obstacle.distance(a, b);
            assert!((found - wanted).abs() < 1e-7, "{found} {wanted}");
            let radius = 0.3 * random.f64();
            let is_hit = obstacle.is_hit(&Capsule {
                from: a,
                to: b,
                radius,
            });
            if (wanted - radius).abs() > 1e-7 {
                assert_eq!(is_hit, wanted < radius, "{wanted} {radius}");
            }
            hits += usize::from(is_hit);
        }
        assert!((500..2500).contains(&hits), "{hits}");
    }

    #[test]
    fn a_hole_lets_through_what_is_thinner() {
        let mut plate = rectangle(Frame::WORLD, 1.0, 1.0, 0.01, 0.0);
        let centre = Point2::new(0.5, 0.5);
        plate.cutouts.push(Cutout::Round {
            centre,
            radius: 0.1,
        });
        let obstacle = Obstacle::of(&plate);
        let through = |radius: f64, x: f64| {
            let [from, to] = [0.4, -0.4].map(|z| Point3::new(x, 0.5, z));
            !obstacle.is_hit(&Capsule { from, to, radius })
        };
        // The hole's polygon comes in by a fiftieth.
        assert!(through(0.097, 0.5) && !through(0.101, 0.5));
        assert!(through(0.04, 0.55) && !through(0.06, 0.55));
        assert!(!through(0.001, 0.7));
        assert_eq!(obstacle.ways_through(0.19).count(), 1);
        assert_eq!(obstacle.ways_through(0.21).count(), 0);
    }

    #[test]
    fn a_bevel_is_part_of_the_plate() {
        let obstacle = Obstacle::of(&rectangle(Frame::WORLD, 1.0, 1.0, 0.02, 0.02));
        // Beside the smaller face, over the slope: a fifth of the way down the bevel in from the edge.
        let at = [
            Point3::new(0.999, 0.5, -0.015),
            Point3::new(2.0, 0.5, -0.015),
        ];
        let slope = [Point3::new(1.0, 0.5, 0.0), Point3::new(0.98, 0.5, -0.02)];
        let wanted = between_segments(at, slope);
        assert!((obstacle.distance(at[0], at[1]) - wanted).abs() < ROUNDING);
        assert!(wanted > 0.009);
    }
}
