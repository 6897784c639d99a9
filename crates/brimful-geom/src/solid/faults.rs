//! The proof of a solid: closed, oriented, planar, and nowhere through or against itself.

use super::boundary::{Edge, PLANAR_TOLERANCE, Solid};
use crate::polygon::{Outline, distance_to_segment};
use crate::predicate::segments_cross;
use crate::vector::Point2;
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::BTreeMap;
use std::fmt;

/// Sides of a face that come nearer than this touch, metres. That a side crosses another is decided exactly;
/// that it lies along one cannot be, where the face is slanted and corners are rounded (about 1e-15 m,
/// raised by flat corners to perhaps 1e-11).
const TOUCHING: f64 = 1e-9;

/// Faces at a smaller angle lie on each other, radians: they part by a micrometre over a metre.
const FOLDED: f64 = 1e-6;

/// Why a solid is not a proper one.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum SolidFault {
    /// A loop with fewer than three vertices, or one named twice.
    BadLoop {
        /// Face number.
        face: usize,
    },
    /// Two sides of a face, of one loop or of two, meet where they have no common corner.
    SidesMeet {
        /// Face number.
        face: usize,
        /// The ends of the one, as the face runs it.
        first: (usize, usize),
        /// The ends of the other.
        second: (usize, usize),
    },
    /// The outer loop runs clockwise, or a hole counter-clockwise.
    LoopTurnsWrongWay {
        /// Face number.
        face: usize,
    },
    /// A vertex lies off the plane of its face.
    NotPlanar {
        /// Face number.
        face: usize,
        /// Vertex number.
        vertex: usize,
        /// Distance from the plane, metres.
        #[serde(rename = "distance_m")]
        distance: f64,
    },
    /// An edge that does not have exactly one face on either side.
    OpenEdge {
        /// Vertex number.
        from: usize,
        /// Vertex number.
        to: usize,
    },
    /// Two faces lie on each other from a common edge on, with nothing between.
    FacesFold {
        /// Face number.
        face: usize,
        /// Face number.
        other: usize,
    },
    /// An edge passes through a face.
    FacesCross {
        /// The face that is pierced.
        face: usize,
        /// A face at the edge that pierces it.
        other: usize,
    },
    /// The faces point inwards, or the solid has no volume.
    NoVolume,
}

impl fmt::Display for SolidFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::BadLoop { face } => write!(
                f,
                "face {face} has a loop of fewer than three different corners"
            ),
            Self::SidesMeet {
                face,
                first: (a, b),
                second: (c, d),
            } => write!(
                f,
                "the sides of face {face} from corner {a} to {b} and from corner {c} to {d} meet"
            ),
            Self::LoopTurnsWrongWay { face } => {
                write!(f, "a loop of face {face} turns the wrong way")
            }
            Self::NotPlanar {
                face,
                vertex,
                distance,
            } => {
                write!(
                    f,
                    "corner {vertex} is {:.3e} m off the plane of face {face}",
                    distance.abs()
                )
            }
            Self::OpenEdge { from, to } => {
                write!(
                    f,
                    "the edge from corner {from} to corner {to} does not have one face on each side"
                )
            }
            Self::FacesFold { face, other } => {
                write!(f, "faces {face} and {other} lie on each other")
            }
            Self::FacesCross { face, other } => {
                write!(f, "face {other} passes through face {face}")
            }
            Self::NoVolume => write!(f, "the faces enclose no volume"),
        }
    }
}

impl std::error::Error for SolidFault {}

impl Solid {
    /// Every reason why this is not a closed, oriented, planar solid that does not cross itself.
    pub fn faults(&self) -> Vec<SolidFault> {
        let mut faults: Vec<_> = (0..self.faces.len())
            .flat_map(|face| self.face_faults(face))
            .collect();
        faults.extend(self.open_edges());
        if faults.is_empty() {
            let edges = self.edges();
            faults.extend(edges.iter().filter(|edge| is_folded(edge)).map(|edge| {
                SolidFault::FacesFold {
                    face: edge.face,
                    other: edge.twin,
                }
            }));
            faults.extend(self.crossing_faces(&edges));
            if self.faces.is_empty() || self.moments().volume <= 0.0 {
                faults.push(SolidFault::NoVolume);
            }
        }
        faults
    }

    fn face_faults(&self, face: usize) -> Vec<SolidFault> {
        let loops = &self.faces[face].loops;
        let bad = |ring: &Vec<usize>| {
            let mut seen = ring.clone();
            seen.sort_unstable();
            seen.dedup();
            seen.len() < 3 || ring.iter().any(|&v| v >= self.vertices.len())
        };
        if loops.is_empty() || loops.iter().any(bad) {
            return vec![SolidFault::BadLoop { face }];
        }
        let mut faults = Vec::new();
        for &vertex in loops.iter().flatten() {
            let distance = self.faces[face].plane.distance(self.vertices[vertex]);
            if distance.is_nan() || distance.abs() > PLANAR_TOLERANCE {
                faults.push(SolidFault::NotPlanar {
                    face,
                    vertex,
                    distance,
                });
            }
        }
        let outlines = self.face_outlines(face, &self.face_frame(face));
        faults.extend(self.meeting_sides(face, &outlines));
        let wrong_way = |(index, outline): (usize, &Outline)| {
            let area = outline.signed_area();
            area == 0.0 || (area > 0.0) != (index == 0)
        };
        if outlines.iter().enumerate().any(wrong_way) {
            faults.push(SolidFault::LoopTurnsWrongWay { face });
        }
        faults
    }

    /// Sides of the face's loops that meet. Loops may touch in a corner that both name.
    fn meeting_sides(&self, face: usize, outlines: &[Outline]) -> Vec<SolidFault> {
        let segments = outlines.iter().flat_map(Outline::sides);
        let sides: Vec<_> = self.face_edges(face).zip(segments).collect();
        let mut faults = Vec::new();
        for (i, &first) in sides.iter().enumerate() {
            for &second in &sides[i + 1..] {
                if sides_meet(first, second) {
                    faults.push(SolidFault::SidesMeet {
                        face,
                        first: first.0,
                        second: second.0,
                    });
                }
            }
        }
        faults
    }

    fn open_edges(&self) -> Vec<SolidFault> {
        let mut count: BTreeMap<(usize, usize), usize> = BTreeMap::new();
        for face in 0..self.faces.len() {
            for edge in self.face_edges(face) {
                *count.entry(edge).or_default() += 1;
            }
        }
        let single = |edge: (usize, usize)| count.get(&edge) == Some(&1);
        let open = count
            .keys()
            .filter(|&&(a, b)| !single((a, b)) || !single((b, a)));
        open.map(|&(from, to)| SolidFault::OpenEdge { from, to })
            .collect()
    }

    fn crossing_faces(&self, edges: &[Edge]) -> Vec<SolidFault> {
        let mut faults = Vec::new();
        for face in 0..self.faces.len() {
            let plane = self.faces[face].plane;
            let frame = self.face_frame(face);
            let outlines = self.face_outlines(face, &frame);
            for edge in edges {
                let (a, b) = (self.vertices[edge.from], self.vertices[edge.to]);
                let (da, db) = (plane.distance(a), plane.distance(b));
                let pierces = da.min(db) < -PLANAR_TOLERANCE && da.max(db) > PLANAR_TOLERANCE;
                if !pierces {
                    continue;
                }
                let hit = frame.flat_from_world(a + (b - a) * (da / (da - db)));
                if strictly_inside(&outlines, hit) {
                    faults.push(SolidFault::FacesCross {
                        face,
                        other: edge.face,
                    });
                }
            }
        }
        faults.dedup();
        faults
    }
}

/// Inside a face and away from its edges by more than the planarity tolerance.
fn strictly_inside(outlines: &[Outline], point: Point2) -> bool {
    let in_loops = outlines
        .iter()
        .filter(|outline| outline.contains(point))
        .count();
    in_loops == 1
        && outlines
            .iter()
            .all(|outline| outline.distance(point) > PLANAR_TOLERANCE)
}

/// Whether the material, or what is without it, has no angle at an edge.
fn is_folded(edge: &Edge) -> bool {
    edge.angle.min(std::f64::consts::TAU - edge.angle) < FOLDED
}

/// A side of a face: the numbers of its ends, and where it lies in the face.
type FaceSide = ((usize, usize), (Point2, Point2));

/// Whether two sides cross, or an end of one that is no corner of the other lies on it.
fn sides_meet((a, p): FaceSide, (b, q): FaceSide) -> bool {
    let lies_on =
        |corner: usize, at: Point2, (from, to): (usize, usize), side: (Point2, Point2)| {
            corner != from && corner != to && distance_to_segment(at, side.0, side.1) < TOUCHING
        };
    segments_cross(p, q)
        || lies_on(a.0, p.0, b, q)
        || lies_on(a.1, p.1, b, q)
        || lies_on(b.0, q.0, a, p)
        || lies_on(b.1, q.1, a, p)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::cube;

    #[test]
    fn a_skin_without_thickness_is_no_part_of_a_solid() {
        // A unit cube with a square of its front side doubled outwards and back: closed, and no volume more.
        let mut solid = cube([0.0; 3], [1.0, 1.0, 1.0]);
        assert_eq!(solid.faults(), []);
        let front = solid.faces.iter().position(|f| f.plane.normal.x > 0.5);
        let front = front.unwrap();
        let ring = solid.faces[front].loops[0].clone();
        // Two corners below the front: the front is drawn down to them, and a face behind it comes back up.
        let [a, b] = [ring[0], ring[1]];
        let below = |v: usize| {
            let p = solid.vertices[v];
            crate::vector::Point3::new(p.x, p.y, p.z - 0.5)
        };
        let (low_a, low_b) = (below(a), below(b));
        let n = solid.vertices.len();
        solid.vertices.extend([low_a, low_b]);
        let rest = ring[1..].iter().copied();
        solid.faces[front].loops[0] = [a, n, n + 1].into_iter().chain(rest).collect();
        solid.faces.push(crate::solid::Face {
            plane: solid.faces[front].plane.flipped(),
            loops: vec![vec![n, a, b, n + 1]],
        });
        let folded = |fault: &SolidFault| matches!(fault, SolidFault::FacesFold { .. });
        assert!(solid.faults().iter().any(folded), "{:?}", solid.faults());
    }
}
