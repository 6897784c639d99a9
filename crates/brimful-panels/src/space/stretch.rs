//! The stretch between two sections.

use super::measurement::TwistedSides;
use super::tolerance::{ROUNDING, TAPE};
use crate::finding::Finding;
use brimful_geom::frame::Plane;
use brimful_geom::polygon::Outline;
use brimful_geom::solid::{Face, Solid};
use brimful_geom::vector::{Point2, Point3, Vec3};
use brimful_job::Twisted;

/// A section in metres, counter-clockwise seen from the front.
#[derive(Clone, Debug)]
pub(super) struct Section {
    pub(super) x: f64,
    pub(super) outline: Outline,
}

/// The stretch between two neighbouring stations.
pub(super) struct Stretch<'a> {
    pub(super) from: &'a Section,
    pub(super) to: &'a Section,
}

impl Stretch<'_> {
    /// The section at a share of the stretch.
    pub(super) fn section(&self, share: f64) -> Section {
        let between = |(&a, &b): (&Point2, &Point2)| a + (b - a) * share;
        Section {
            x: self.from.x + (self.to.x - self.from.x) * share,
            outline: Outline(
                self.from
                    .outline
                    .0
                    .iter()
                    .zip(&self.to.outline.0)
                    .map(between)
                    .collect(),
            ),
        }
    }

    /// The four corners of each side, counter-clockwise seen from outside.
    pub(super) fn sides(&self) -> Vec<[Point3; 4]> {
        let (rear, front) = (self.from.points(), self.to.points());
        let n = rear.len();
        (0..n)
            .map(|i| {
                let next = (i + 1) % n;
                [rear[i], rear[next], front[next], front[i]]
            })
            .collect()
    }

    /// The solid of so many strips, each twisted side of a strip in two triangles that meet along
    /// the diagonal further in.
    pub(super) fn folded(&self, strips: usize) -> Solid {
        let n = self.from.outline.0.len();
        let vertices: Vec<Point3> = (0..=strips)
            .flat_map(|strip| self.section(strip as f64 / strips as f64).points())
            .collect();
        let last = strips * n;
        let cap = |normal: Vec3, at: usize, ring: Vec<usize>| Face {
            plane: Plane {
                normal,
                offset: normal.dot(vertices[at].to_vec()),
            },
            loops: vec![ring],
        };
        let mut faces = vec![
            cap(-Vec3::X, 0, (0..n).rev().collect()),
            cap(Vec3::X, last, (last..last + n).collect()),
        ];
        for (i, side) in self.sides().into_iter().enumerate() {
            let next = (i + 1) % n;
            // A flat side goes through in one piece.
            let (runs, flat) = match fourth_off(&side) < ROUNDING {
                true => (1, true),
                false => (strips, false),
            };
            let step = strips / runs * n;
            for run in 0..runs {
                let (rear, front) = (run * step, (run + 1) * step);
                let ring = [rear + i, rear + next, front + next, front + i];
                let rings = if flat {
                    vec![ring_through(ring, strips, n)]
                } else {
                    halves(&vertices, ring)
                };
                faces.extend(rings.into_iter().filter_map(|ring| face(&vertices, ring)));
            }
        }
        Solid { vertices, faces }
    }

    /// The exact volume of the ruled stretch, by Simpson's rule.
    fn ruled_volume(&self) -> f64 {
        let area = |share: f64| self.section(share).outline.signed_area();
        (self.to.x - self.from.x) / 6.0 * (area(0.0) + 4.0 * area(0.5) + area(1.0))
    }

    /// The twist of the sides, and what facing them loses.
    pub(super) fn twist(&self, wanted: Twisted, flat: bool) -> Option<Finding> {
        let sides = self.sides();
        let each = sides.iter().map(fourth_off).enumerate();
        let off: Vec<(usize, f64)> = each.filter(|(_, off)| *off > TAPE).collect();
        (!off.is_empty()).then(|| {
            let twisted = TwistedSides {
                x: [self.from.x, self.to.x],
                off,
                lost: self.ruled_volume() - self.folded(1).moments().volume,
                wanted,
                flat,
            };
            twisted.finding()
        })
    }
}

impl Section {
    fn points(&self) -> Vec<Point3> {
        let point = |p: &Point2| Point3::new(self.x, p.x, p.y);
        self.outline.0.iter().map(point).collect()
    }
}

/// How far the front upper corner of a side lies off the plane of the other three.
pub(super) fn fourth_off(&[a, b, c, d]: &[Point3; 4]) -> f64 {
    let off = |p: Point3, q: Point3, r: Point3, fourth: Point3| {
        Plane::through(p, (q - p).cross(r - p)).map_or(0.0, |plane| plane.distance(fourth).abs())
    };
    // Of the four corners that may be called the fourth the one least off: by so much at least the
    // sheet would have to be bent.
    [
        off(a, b, c, d),
        off(b, c, d, a),
        off(c, d, a, b),
        off(d, a, b, c),
    ]
    .into_iter()
    .fold(f64::INFINITY, f64::min)
}

/// The ends of the diagonal of a side that lies further in.
pub(super) fn inner_diagonal(side: &[Point3; 4]) -> [usize; 2] {
    let out = (side[2] - side[0]).cross(side[3] - side[1]);
    let height = |[a, b]: [usize; 2]| out.dot(side[a].midpoint(side[b]).to_vec());
    match height([0, 2]) < height([1, 3]) {
        true => [0, 2],
        false => [1, 3],
    }
}

/// A flat side with the corners of all strips along its two long edges.
fn ring_through([a, b, c, d]: [usize; 4], strips: usize, n: usize) -> Vec<usize> {
    let along = |from: usize| (1..strips).map(move |strip| from + strip * n);
    let mut ring = vec![a, b];
    ring.extend(along(b));
    ring.extend([c, d]);
    ring.extend(along(a).rev());
    ring
}

/// The two triangles of a twisted side, along the diagonal further in.
fn halves(vertices: &[Point3], ring: [usize; 4]) -> Vec<Vec<usize>> {
    let [a, b, c, d] = ring;
    match inner_diagonal(&ring.map(|v| vertices[v])) {
        [0, 2] => vec![vec![a, b, c], vec![a, c, d]],
        _ => vec![vec![b, c, d], vec![b, d, a]],
    }
}

fn face(vertices: &[Point3], ring: Vec<usize>) -> Option<Face> {
    let [a, b] = [0, 1].map(|place| vertices[ring[place]]);
    let c = vertices[*ring.last()?];
    Some(Face {
        plane: Plane::through(a, (b - a).cross(c - a))?,
        loops: vec![ring],
    })
}
