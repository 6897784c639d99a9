//! Shapes measured by sections at stations and joined by straight lines, and the planar-faced
//! solids inside them.
//!
//! Corner i of one section is joined to corner i of the next, and every place along a side of the
//! one to the place as far along the same side of the other: each side of each bay is a bilinear
//! (ruled) patch. Its four corners are in one plane only by luck. How far the fourth is off the
//! plane of the other three is the side's twist.
//!
//! *Volume.* A bilinear patch lies in the tetrahedron of its corners and halves it, so the volume
//! under it is the mean of those under its two ways to be split into triangles, whatever the
//! station planes. (With parallel stations the section's area is a quadratic in the place along, as
//! each corner moves on a line; Simpson's rule, the prismatoid formula, is then exact and gives
//! the same.)
//!
//! *Inside.* The two triangles at the patch's inner diagonal, and any plane that leaves all four
//! corners outside, leave the whole tetrahedron and so the patch outside.

use crate::frame::Plane;
use crate::solid::{Face, Solid};
use crate::vector::{Point3, Vec3};
use std::fmt;

/// A section's corners may be off their common plane by this, metres: a tenth of a millimetre, the
/// grain of measured outlines.
const SECTION_PLANAR: f64 = 1e-4;

/// Sides with less twist than this are flat, metres: under a hundredth of a millimetre no sheet shows it.
pub const FLAT: f64 = 1e-5;

/// Slopes tried between the two planes that touch three corners.
const SLOPES: usize = 16;

/// A shape by sections at stations.
#[derive(Clone, Debug, PartialEq)]
pub struct Ruled {
    sections: Vec<Vec<Point3>>,
    stations: Vec<Plane>,
}

/// Why sections make no shape.
#[derive(Clone, Debug, PartialEq)]
pub enum RuledFault {
    /// Fewer than two sections.
    TooFewSections(usize),
    /// This section has other than as many corners as the first, or fewer than three.
    Corners {
        /// Section number.
        section: usize,
        /// How many it has.
        corners: usize,
        /// How many the first has.
        first: usize,
    },
    /// A corner is off the plane of its section.
    NotPlanar {
        /// Section number.
        section: usize,
        /// By how much, metres.
        distance: f64,
    },
    /// The section is not on the far side of the one before it, or turns the other way round.
    Order {
        /// Section number.
        section: usize,
    },
    /// The bay after this section has no room for flat sides, or its sides cross.
    Bay {
        /// Section number.
        section: usize,
    },
}

impl fmt::Display for RuledFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooFewSections(n) => write!(f, "a shape needs two sections, this one has {n}"),
            Self::Corners {
                section,
                corners,
                first,
            } => write!(
                f,
                "section {} has {corners} corners, the first has {first}",
                section + 1
            ),
            Self::NotPlanar { section, distance } => write!(
                f,
                "a corner of section {} is {distance:.4} m off its plane",
                section + 1
            ),
            Self::Order { section } => write!(
                f,
                "section {} is not beyond the one before it, or runs the other way round",
                section + 1
            ),
            Self::Bay { section } => write!(
                f,
                "the sides between sections {} and {} leave no room or cross",
                section + 1,
                section + 2
            ),
        }
    }
}

impl std::error::Error for RuledFault {}

/// A side between two sections.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RuledSide {
    /// Which pair of sections.
    pub bay: usize,
    /// Between corner `side` and the next.
    pub side: usize,
    /// Along the near section, then back along the far one.
    pub corners: [Point3; 4],
    /// How far one corner is off the plane of the other three, metres: the three that span most, as
    /// a person would lay a straight-edge.
    pub twist: f64,
}

/// How twisted sides are made of flat sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Facing {
    /// One flat a side.
    Flat,
    /// Two triangles a twisted side, with an edge along the diagonal that lies inside.
    Split,
}

impl Ruled {
    /// The shape through sections of equally many corners, in order. The sections run
    /// counter-clockwise seen from beyond the last (against the way along).
    ///
    /// # Errors
    /// A [`RuledFault`] that names the section. Sections that run the other way round are turned.
    pub fn new(mut sections: Vec<Vec<Point3>>) -> Result<Self, RuledFault> {
        if sections.len() < 2 {
            return Err(RuledFault::TooFewSections(sections.len()));
        }
        let first = sections[0].len();
        for (section, ring) in sections.iter().enumerate() {
            if ring.len() != first || ring.len() < 3 {
                return Err(RuledFault::Corners {
                    section,
                    corners: ring.len(),
                    first,
                });
            }
        }
        let along = mean(&sections[1]) - mean(&sections[0]);
        if area_vector(&sections[0]).dot(along) < 0.0 {
            sections.iter_mut().for_each(|ring| ring.reverse());
        }
        let stations = sections
            .iter()
            .enumerate()
            .map(|(section, ring)| station(section, ring))
            .collect::<Result<Vec<_>, _>>()?;
        for section in 1..sections.len() {
            let beyond = |p: &Point3| stations[section - 1].distance(*p) > 0.0;
            let same_way = stations[section].normal.dot(stations[section - 1].normal) > 0.0;
            if !sections[section].iter().all(beyond) || !same_way {
                return Err(RuledFault::Order { section });
            }
        }
        Ok(Self { sections, stations })
    }

    /// Volume of the shape with its ruled sides, m3, exactly.
    pub fn volume(&self) -> f64 {
        let apex = self.sections[0][0];
        let under =
            |a: Point3, b: Point3, c: Point3| (a - apex).dot((b - apex).cross(c - apex)) / 6.0;
        let mean_of_splits = |side: &RuledSide| {
            let [a, b, c, d] = side.corners;
            let one = under(a, b, c) + under(a, c, d);
            let other = under(a, b, d) + under(b, c, d);
            (one + other) / 2.0
        };
        let cap = |ring: &[Point3]| -> f64 {
            ring[1..]
                .windows(2)
                .map(|p| under(ring[0], p[0], p[1]))
                .sum()
        };
        let last = &self.sections[self.sections.len() - 1];
        let sides: f64 = self.sides().iter().map(mean_of_splits).sum();
        sides + cap(last) - cap(&self.sections[0])
    }

    /// All sides, bay by bay.
    pub fn sides(&self) -> Vec<RuledSide> {
        let n = self.sections[0].len();
        let side = |bay: usize, side: usize| {
            let (near, far) = (&self.sections[bay], &self.sections[bay + 1]);
            let next = (side + 1) % n;
            let corners = [near[side], near[next], far[next], far[side]];
            RuledSide {
                bay,
                side,
                corners,
                twist: twist(&corners),
            }
        };
        (0..self.sections.len() - 1)
            .flat_map(|bay| (0..n).map(move |i| (bay, i)))
            .map(|(bay, i)| side(bay, i))
            .collect()
    }

    /// A planar-faced solid inside each bay, in order; together they are inside the shape. Sides
    /// that are flat stay as they are. Neighbouring bays share their station's plane and may be
    /// joined by a union.
    ///
    /// # Errors
    /// [`RuledFault::Bay`] where flats leave no room or sides cross.
    pub fn inside(&self, facing: Facing) -> Result<Vec<Solid>, RuledFault> {
        let n = self.sections[0].len();
        let sides = self.sides();
        sides
            .chunks(n)
            .enumerate()
            .map(|(bay, sides)| {
                let solid = match facing {
                    Facing::Flat => self.flat_bay(bay, sides),
                    Facing::Split => Some(self.split_bay(bay, sides)),
                };
                solid
                    .filter(|solid| solid.faults().is_empty())
                    .ok_or(RuledFault::Bay { section: bay })
            })
            .collect()
    }

    /// The corners are where neighbouring flats meet the station planes.
    fn flat_bay(&self, bay: usize, sides: &[RuledSide]) -> Option<Solid> {
        let n = sides.len();
        let flats: Vec<Plane> = sides.iter().map(inner_flat).collect::<Option<_>>()?;
        let ring = |station: &Plane| {
            let corner = |i: usize| Plane::meet(&flats[(i + n - 1) % n], &flats[i], station);
            (0..n).map(corner).collect::<Option<Vec<_>>>()
        };
        let ends = [self.stations[bay].flipped(), self.stations[bay + 1]];
        let mut vertices = ring(&ends[0])?;
        vertices.extend(ring(&ends[1])?);
        let mut faces = end_faces(ends, n);
        for (i, &plane) in flats.iter().enumerate() {
            let j = (i + 1) % n;
            faces.push(Face {
                plane,
                loops: vec![vec![i, j, n + j, n + i]],
            });
        }
        // A flat that turned over, or sections that ran out, would not be faults of the solid.
        let keeps_way = (0..n).all(|i| {
            let [a, b, c, d] = sides[i].corners;
            let j = (i + 1) % n;
            (vertices[j] - vertices[i]).dot(b - a) > 0.0
                && (vertices[n + j] - vertices[n + i]).dot(c - d) > 0.0
        });
        keeps_way.then_some(Solid { vertices, faces })
    }

    fn split_bay(&self, bay: usize, sides: &[RuledSide]) -> Solid {
        let n = sides.len();
        let settle = |plane: &Plane, p: &Point3| plane.project(*p);
        let (near, far) = (self.stations[bay], self.stations[bay + 1]);
        let mut vertices: Vec<Point3> = self.sections[bay]
            .iter()
            .map(|p| settle(&near, p))
            .collect();
        vertices.extend(self.sections[bay + 1].iter().map(|p| settle(&far, p)));
        let mut faces = end_faces([near.flipped(), far], n);
        for (i, side) in sides.iter().enumerate() {
            let j = (i + 1) % n;
            let quad = [i, j, n + j, n + i];
            for ring in split_side(side, quad) {
                let [a, b, c] = [0, 1, 2].map(|k| vertices[ring[k]]);
                if let Some(plane) = Plane::through(a, (b - a).cross(c - a)) {
                    faces.push(Face {
                        plane,
                        loops: vec![ring],
                    });
                }
            }
        }
        Solid { vertices, faces }
    }
}

fn end_faces([near, far]: [Plane; 2], n: usize) -> Vec<Face> {
    vec![
        Face {
            plane: near,
            loops: vec![(0..n).rev().collect()],
        },
        Face {
            plane: far,
            loops: vec![(n..2 * n).collect()],
        },
    ]
}

/// The side in one piece where it is flat, else along the diagonal that is on the inner side.
fn split_side(side: &RuledSide, [i, j, k, l]: [usize; 4]) -> Vec<Vec<usize>> {
    let [a, b, c, d] = side.corners;
    if side.twist < crate::solid::PLANAR_TOLERANCE / 10.0 {
        return vec![vec![i, j, k, l]];
    }
    // The fourth corner outside the triangle's plane: the edge a-c lies on the inner side.
    if (b - a).cross(c - a).dot(d - a) > 0.0 {
        vec![vec![i, j, k], vec![i, k, l]]
    } else {
        vec![vec![i, j, l], vec![j, k, l]]
    }
}

/// Of the planes that leave all four corners outside or on them, the one that cuts off least.
///
/// They turn about the inner diagonal, between the planes of its two triangles.
fn inner_flat(side: &RuledSide) -> Option<Plane> {
    let [a, b, c, d] = side.corners;
    let ends = if (b - a).cross(c - a).dot(d - a) > 0.0 {
        [(a, b, c), (a, c, d)]
    } else {
        [(a, b, d), (b, c, d)]
    };
    let on_diagonal = if (b - a).cross(c - a).dot(d - a) > 0.0 {
        a
    } else {
        b
    };
    let [one, other] = ends.map(|(p, q, r)| (q - p).cross(r - p).unit());
    let (one, other) = (one?, other?);
    let leaned = (0..=SLOPES).filter_map(|i| {
        let share = i as f64 / SLOPES as f64;
        let plane = Plane::through(on_diagonal, one * (1.0 - share) + other * share)?;
        let inmost = side.corners.iter().map(|&p| plane.distance(p));
        Some(plane.moved(inmost.fold(0.0, f64::min)))
    });
    leaned.min_by(|a, b| cut_off(side, a).total_cmp(&cut_off(side, b)))
}

/// Volume between a patch and a plane inside it: the distance is bilinear over the patch and the
/// projected area about so, so that two points of Gauss each way are exact for their product.
fn cut_off(side: &RuledSide, plane: &Plane) -> f64 {
    let [a, b, c, d] = side.corners;
    let half = 0.5 / 3f64.sqrt();
    let at = |s: f64, t: f64| {
        let along = (b - a) * (1.0 - t) + (c - d) * t;
        let across = (d - a) * (1.0 - s) + (c - b) * s;
        let depth = [
            (a, (1.0 - s) * (1.0 - t)),
            (b, s * (1.0 - t)),
            (c, s * t),
            (d, (1.0 - s) * t),
        ];
        let depth: f64 = depth
            .iter()
            .map(|&(p, share)| share * plane.distance(p))
            .sum();
        depth * along.cross(across).dot(plane.normal) / 4.0
    };
    let (low, high) = (0.5 - half, 0.5 + half);
    at(low, low) + at(low, high) + at(high, low) + at(high, high)
}

fn twist(corners: &[Point3; 4]) -> f64 {
    let off = |i: usize| {
        let [p, q, r, s] = [0, 1, 2, 3].map(|k| corners[(i + k) % 4]);
        Plane::through(p, (q - p).cross(r - p)).map(|plane| plane.distance(s).abs())
    };
    // All four hold the same tetrahedron: over the largest triangle it is the least high.
    (0..4).filter_map(off).reduce(f64::min).unwrap_or(0.0)
}

fn station(section: usize, ring: &[Point3]) -> Result<Plane, RuledFault> {
    let plane = Plane::through(mean(ring), area_vector(ring)).ok_or(RuledFault::NotPlanar {
        section,
        distance: 0.0,
    })?;
    let off = ring.iter().map(|&p| plane.distance(p).abs());
    let distance = off.fold(0.0, f64::max);
    if distance > SECTION_PLANAR || distance.is_nan() {
        return Err(RuledFault::NotPlanar { section, distance });
    }
    Ok(plane)
}

fn mean(ring: &[Point3]) -> Point3 {
    let sum = ring.iter().fold(Vec3::ZERO, |sum, p| sum + p.to_vec());
    Point3::ORIGIN + sum / ring.len() as f64
}

fn area_vector(ring: &[Point3]) -> Vec3 {
    ring[1..].windows(2).fold(Vec3::ZERO, |sum, pair| {
        sum + (pair[0] - ring[0]).cross(pair[1] - ring[0]) * 0.5
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A bilge between two floors: keel cap, half-widths at the sole; heights 400 over the aft keel.
    fn bilge() -> Ruled {
        let section = |x: f64, keel: f64, port: f64, starboard: f64| {
            [(-starboard, 0.4), (-0.06, keel), (0.06, keel), (port, 0.4)]
                .map(|(y, z)| Point3::new(x, y, z))
                .to_vec()
        };
        Ruled::new(vec![
            section(0.0, 0.0, 0.47, 0.458),
            section(0.9, 0.12, 0.4, 0.396),
        ])
        .unwrap()
    }

    #[test]
    fn a_bilge_has_the_volume_and_twist_of_its_brief() {
        let bilge = bilge();
        // Scenario S3 of the project's reference: gross to the sole 150.8 L, twist 37 and 41 mm.
        assert!(
            (bilge.volume() - 0.1508).abs() < 0.00005,
            "{}",
            bilge.volume()
        );
        let twists: Vec<f64> = bilge.sides().iter().map(|s| s.twist).collect();
        assert!((twists[0] - 0.041).abs() < 0.0005 && (twists[2] - 0.037).abs() < 0.0005);
        assert!(twists[1] < 1e-12 && twists[3] < 1e-12);
        let section = |t: f64| {
            let z = 0.12 * t;
            let widths = (0.47 + (0.4 - 0.47) * t) + (0.458 + (0.396 - 0.458) * t);
            (0.4 - z) * (widths + 0.12) / 2.0
        };
        let simpson = 0.9 / 6.0 * (section(0.0) + 4.0 * section(0.5) + section(1.0));
        assert!((bilge.volume() - simpson).abs() < 1e-15);
    }

    #[test]
    fn flats_and_triangles_stay_inside() {
        let bilge = bilge();
        let flat = &bilge.inside(Facing::Flat).unwrap()[0];
        let split = &bilge.inside(Facing::Split).unwrap()[0];
        let (f, s) = (flat.moments().volume, split.moments().volume);
        assert!(f < s && s < bilge.volume());
        assert_eq!((flat.faces.len(), split.faces.len()), (6, 8));
        assert!(crate::boolean::remaining_volume(flat, &[split]).unwrap() < 1e-9);
    }

    #[test]
    fn with_walls_and_room_kept_the_bilge_holds_what_its_brief_says() {
        // S3 with ends 15, sides 15 square to the hull, under 25, above 45 and walls of 10 mm:
        // 84.5 L with sides that follow the hull, 80.8 L with flats; exact to about 1 %.
        let section = |x: f64| {
            let t = x / 0.9;
            let (keel, sole) = (0.12 * t, 0.4);
            let (low, high) = (keel + 0.035, sole - 0.055);
            let width = |at_sole: f64, z: f64| {
                let slope = (at_sole - 0.06) / (sole - keel);
                0.06 + (z - keel) * slope - 0.025 * slope.hypot(1.0)
            };
            let port = |z| width(0.47 + (0.4 - 0.47) * t, z);
            let starboard = |z| -width(0.458 + (0.396 - 0.458) * t, z);
            let corners = [
                (starboard(high), high),
                (starboard(low), low),
                (port(low), low),
                (port(high), high),
            ];
            corners.map(|(y, z)| Point3::new(x, y, z)).to_vec()
        };
        let inside = Ruled::new(vec![section(0.025), section(0.875)]).unwrap();
        let flat = inside.inside(Facing::Flat).unwrap()[0].moments().volume;
        assert!((inside.volume() / 0.0845 - 1.0).abs() < 0.01);
        assert!((flat / 0.0808 - 1.0).abs() < 0.01, "{flat}");
    }

    #[test]
    fn bad_sections_are_named() {
        let ring = |x: f64| {
            [(0.0, 0.0), (1.0, 0.0), (0.0, 1.0)]
                .map(|(y, z)| Point3::new(x, y, z))
                .to_vec()
        };
        assert_eq!(
            Ruled::new(vec![ring(0.0)]),
            Err(RuledFault::TooFewSections(1))
        );
        assert_eq!(
            Ruled::new(vec![ring(0.0), ring(0.0)]),
            Err(RuledFault::Order { section: 1 })
        );
        assert!(matches!(
            Ruled::new(vec![ring(0.0), ring(1.0)[1..].to_vec()]),
            Err(RuledFault::Corners { section: 1, .. })
        ));
    }
}
