//! A solid moved inward, each face by its own distance: the cavity inside a body of sheet.
//!
//! Every face keeps its place in the list and its plane is moved along its normal. A vertex where
//! three faces meet goes to where the moved planes meet. Where more than three meet, the moved
//! planes in general have no common point, and the vertex opens into several joined by new edges
//! (the dual of a triangulation of the ring of faces round it; compare O. Aichholzer and
//! F. Aurenhammer, "Straight skeletons for general polygonal figures in the plane", 1996, for the
//! plane). At an all-convex or all-re-entrant vertex the choice is the one that the meeting of the
//! half-spaces makes; at a mixed one the choice that stays nearest to the old vertex.
//!
//! The result is checked: an edge that would turn round, or faces that would pass through each
//! other, mean that the distance is more than the solid allows there.

use crate::frame::Plane;
use crate::solid::{Face, Solid, SolidFault};
use crate::vector::Point3;
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::BTreeMap;
use std::fmt;

/// Meeting points nearer than this are one point. Coordinates of a few metres carry rounding of
/// about 1e-15 m, raised by flat corners to perhaps 1e-11; sheet work stops at 1e-5.
const SAME_POINT: f64 = 1e-9;

/// More faces than this at one mixed vertex are refused: the triangulations to be tried grow as
/// the Catalan numbers (132 at eight).
const MOST_FACES_AT_MIXED_VERTEX: usize = 8;

/// A solid moved inward, with what became of the old vertices.
#[derive(Clone, Debug, PartialEq)]
pub struct Offset {
    /// The moved solid; face `i` is the old face `i`.
    pub solid: Solid,
    /// For each old vertex the new ones that it opened into.
    pub vertices: Vec<Vec<usize>>,
}

/// Why a solid cannot be moved inward.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum OffsetFault {
    /// The face would vanish or turn over.
    FaceVanishes {
        /// Face number.
        face: usize,
    },
    /// Two faces would meet or pass through each other.
    FacesCross {
        /// Face number.
        face: usize,
        /// Face number.
        other: usize,
    },
    /// The faces round a corner cannot be moved apart.
    Corner {
        /// Vertex number.
        vertex: usize,
    },
}

impl fmt::Display for OffsetFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::FaceVanishes { face } => write!(f, "face {face} has no room for the distance"),
            Self::FacesCross { face, other } => {
                write!(f, "faces {face} and {other} would meet")
            }
            Self::Corner { vertex } => {
                write!(f, "the faces round corner {vertex} cannot be moved apart")
            }
        }
    }
}

impl std::error::Error for OffsetFault {}

/// Moves face `i` of `solid` inward by `distance[i]` metres (negative: outward).
///
/// # Errors
/// An [`OffsetFault`] that names the face or corner without room.
pub fn offset_inward(solid: &Solid, distance: &[f64]) -> Result<Offset, OffsetFault> {
    let planes: Vec<Plane> = solid
        .faces
        .iter()
        .zip(distance)
        .map(|(f, d)| f.plane.moved(-d))
        .collect();
    let rings = rings_round_vertices(solid)?;
    let mut result = Offset {
        solid: Solid::default(),
        vertices: vec![Vec::new(); solid.vertices.len()],
    };
    // For each (vertex, face) the new vertices in the order in which the face's loop passes them.
    let mut chain: BTreeMap<(usize, usize), Vec<usize>> = BTreeMap::new();
    for (vertex, ring) in rings.iter().enumerate() {
        let corner = Corner {
            solid,
            planes: &planes,
            vertex,
            ring,
        };
        let opened = corner.open()?;
        let first = result.solid.vertices.len();
        result.vertices[vertex] = (first..first + opened.points.len()).collect();
        result.solid.vertices.extend(&opened.points);
        for (place, &face) in ring.iter().enumerate() {
            let passed = opened.passed_by(place, ring.len());
            chain.insert(
                (vertex, face),
                passed.into_iter().map(|i| first + i).collect(),
            );
        }
    }
    for (index, face) in solid.faces.iter().enumerate() {
        let moved = |ring: &Vec<usize>| {
            let mut ring: Vec<_> = ring
                .iter()
                .flat_map(|&v| chain[&(v, index)].iter().copied())
                .collect();
            ring.dedup();
            ring
        };
        let loops = face.loops.iter().map(moved).collect();
        result.solid.faces.push(Face {
            plane: planes[index],
            loops,
        });
    }
    check(solid, &result)?;
    Ok(result)
}

/// The faces round each vertex, each reached across the edge by which the one before leaves it.
fn rings_round_vertices(solid: &Solid) -> Result<Vec<Vec<usize>>, OffsetFault> {
    let face_of_edge = solid.face_of_edge();
    // The vertex that a face's loop goes to after `at` when it came from `from`.
    let mut next = BTreeMap::new();
    let mut faces_at = vec![0; solid.vertices.len()];
    for (index, face) in solid.faces.iter().enumerate() {
        for ring in &face.loops {
            for i in 0..ring.len() {
                let (from, at) = (ring[i], ring[(i + 1) % ring.len()]);
                next.insert((index, from, at), ring[(i + 2) % ring.len()]);
                faces_at[at] += 1;
            }
        }
    }
    let mut rings = vec![Vec::new(); solid.vertices.len()];
    for (&(vertex, to), &face) in &face_of_edge {
        if !rings[vertex].is_empty() {
            continue;
        }
        let (mut face, mut to) = (face, to);
        loop {
            rings[vertex].push(face);
            face = *face_of_edge
                .get(&(to, vertex))
                .ok_or(OffsetFault::Corner { vertex })?;
            to = *next
                .get(&(face, to, vertex))
                .ok_or(OffsetFault::Corner { vertex })?;
            if face == rings[vertex][0] || rings[vertex].len() > solid.faces.len() {
                break;
            }
        }
        // Two bodies that touch in a point have two rings there.
        if rings[vertex].len() != faces_at[vertex] {
            return Err(OffsetFault::Corner { vertex });
        }
    }
    Ok(rings)
}

/// A vertex to be opened.
struct Corner<'a> {
    solid: &'a Solid,
    planes: &'a [Plane],
    vertex: usize,
    ring: &'a [usize],
}

/// What a vertex became: one point a triangle of its ring.
struct Opened {
    points: Vec<Point3>,
    /// Places in the ring, in rising order; empty when all planes meet in the one point.
    triangles: Vec<[usize; 3]>,
}

impl Opened {
    /// The points that the face at `place` in the ring passes, from the edge it shares with the
    /// face before it in the ring to the edge it shares with the one after.
    fn passed_by(&self, place: usize, n: usize) -> Vec<usize> {
        if self.triangles.is_empty() {
            return vec![0];
        }
        let mut fan: Vec<usize> = (0..self.triangles.len())
            .filter(|&t| self.triangles[t].contains(&place))
            .collect();
        // Triangles at a polygon's corner sort by how far round the far side lies.
        let turn = |t: usize| {
            let others = self.triangles[t].iter().filter(|&&p| p != place);
            others.map(|&p| (p + n - place) % n).min().unwrap_or(0)
        };
        fan.sort_by_key(|&t| std::cmp::Reverse(turn(t)));
        fan
    }
}

impl Corner<'_> {
    fn open(&self) -> Result<Opened, OffsetFault> {
        let n = self.ring.len();
        let fault = OffsetFault::Corner {
            vertex: self.vertex,
        };
        if n < 3 {
            return Err(fault);
        }
        if let Some(point) = self.common_point() {
            return Ok(Opened {
                points: vec![point],
                triangles: Vec::new(),
            });
        }
        let candidates = match self.turn() {
            Some(sign) => self.triangulations(&|t| self.stays_inside(t, sign)),
            None if n <= MOST_FACES_AT_MIXED_VERTEX => {
                self.triangulations(&|t| self.meet(t).is_some())
            }
            None => return Err(fault),
        };
        let open = |triangles: Vec<[usize; 3]>| {
            let points: Option<Vec<_>> = triangles.iter().map(|&t| self.meet(t)).collect();
            points.map(|points| Opened { points, triangles })
        };
        let far = |opened: &Opened| {
            let from = self.solid.vertices[self.vertex];
            opened
                .points
                .iter()
                .map(|p| p.distance(from))
                .fold(0.0, f64::max)
        };
        candidates
            .into_iter()
            .filter_map(open)
            .min_by(|a, b| far(a).total_cmp(&far(b)))
            .ok_or(fault)
    }

    fn meet(&self, triangle: [usize; 3]) -> Option<Point3> {
        let [a, b, c] = triangle.map(|place| &self.planes[self.ring[place]]);
        Plane::meet(a, b, c)
    }

    /// The point in which all moved planes meet, if they do.
    fn common_point(&self) -> Option<Point3> {
        let n = self.ring.len();
        let triples =
            (0..n).flat_map(|i| (i + 1..n).flat_map(move |j| (j + 1..n).map(move |k| [i, j, k])));
        let steepness = |t: &[usize; 3]| {
            let [a, b, c] = t.map(|place| self.planes[self.ring[place]].normal);
            a.dot(b.cross(c)).abs()
        };
        let steepest = triples.max_by(|a, b| steepness(a).total_cmp(&steepness(b)))?;
        let point = self.meet(steepest)?;
        let on_all = self
            .ring
            .iter()
            .all(|&face| self.planes[face].distance(point).abs() < SAME_POINT);
        on_all.then_some(point)
    }

    /// `Some(1)` where every edge at the vertex is convex, `Some(-1)` where every one is re-entrant.
    fn turn(&self) -> Option<f64> {
        let n = self.ring.len();
        let face_edges = |face: usize| self.solid.face_edges(face);
        let mut signs = (0..n).map(|i| {
            let (face, next) = (self.ring[i], self.ring[(i + 1) % n]);
            let (from, to) = face_edges(face).find(|&(from, to)| {
                from == self.vertex && face_edges(next).any(|edge| edge == (to, from))
            })?;
            let along = self.solid.vertices[to] - self.solid.vertices[from];
            let normal = |face: usize| self.solid.faces[face].plane.normal;
            Some(normal(face).cross(normal(next)).dot(along).signum())
        });
        let first = signs.next()??;
        signs.all(|sign| sign == Some(first)).then_some(first)
    }

    fn stays_inside(&self, triangle: [usize; 3], sign: f64) -> bool {
        self.meet(triangle).is_some_and(|p| {
            self.ring
                .iter()
                .all(|&face| sign * self.planes[face].distance(p) < SAME_POINT)
        })
    }

    /// All triangulations of the ring (as a polygon) out of allowed triangles.
    fn triangulations(&self, allowed: &dyn Fn([usize; 3]) -> bool) -> Vec<Vec<[usize; 3]>> {
        split(0, self.ring.len() - 1, allowed)
    }
}

/// Triangulations of the polygon `first..=last`, whose closing side is `first`-`last`.
fn split(first: usize, last: usize, allowed: &dyn Fn([usize; 3]) -> bool) -> Vec<Vec<[usize; 3]>> {
    if last - first < 2 {
        return vec![Vec::new()];
    }
    let mut all = Vec::new();
    for middle in first + 1..last {
        let triangle = [first, middle, last];
        if !allowed(triangle) {
            continue;
        }
        let right = split(middle, last, allowed);
        for left in split(first, middle, allowed) {
            for right in &right {
                all.push([vec![triangle], left.clone(), right.clone()].concat());
            }
        }
    }
    all
}

/// Every old edge must keep its direction, and the result must be a proper solid.
fn check(old: &Solid, new: &Offset) -> Result<(), OffsetFault> {
    for edge in old.edges() {
        let along = old.vertices[edge.to] - old.vertices[edge.from];
        let end = |vertex: usize| {
            let shared = |&&v: &&usize| {
                let on = |face: usize| {
                    new.solid.faces[face]
                        .loops
                        .iter()
                        .flatten()
                        .any(|&w| w == v)
                };
                on(edge.face) && on(edge.twin)
            };
            new.vertices[vertex]
                .iter()
                .find(shared)
                .map(|&v| new.solid.vertices[v])
        };
        let (Some(from), Some(to)) = (end(edge.from), end(edge.to)) else {
            return Err(OffsetFault::FaceVanishes { face: edge.face });
        };
        if (to - from).dot(along) <= SAME_POINT * along.length() {
            let narrower = |a: usize, b: usize| {
                if old.face_area(a) <= old.face_area(b) {
                    a
                } else {
                    b
                }
            };
            return Err(OffsetFault::FaceVanishes {
                face: vanishing_face(old, new, edge.from, edge.to)
                    .unwrap_or(narrower(edge.face, edge.twin)),
            });
        }
    }
    match blame(&new.solid, &new.solid.faults()) {
        None => Ok(()),
        Some(fault) => Err(fault),
    }
}

/// The face that has shrunk to nothing when the edge `from`-`to` turned round: among the faces at
/// its ends but not along it, one that has lost its area, if there is one.
fn vanishing_face(old: &Solid, new: &Offset, from: usize, to: usize) -> Option<usize> {
    let touches = |face: &usize| {
        old.faces[*face]
            .loops
            .iter()
            .flatten()
            .any(|&v| v == from || v == to)
    };
    (0..old.faces.len())
        .filter(touches)
        .find(|&face| new.solid.face_area(face) <= 0.0)
}

fn blame(solid: &Solid, faults: &[SolidFault]) -> Option<OffsetFault> {
    meeting_faces(solid, faults).or_else(|| {
        faults.first().map(|fault| match *fault {
            SolidFault::FacesCross { face, other } | SolidFault::FacesFold { face, other } => {
                OffsetFault::FacesCross { face, other }
            }
            SolidFault::BadLoop { face }
            | SolidFault::SidesMeet { face, .. }
            | SolidFault::LoopTurnsWrongWay { face }
            | SolidFault::NotPlanar { face, .. } => OffsetFault::FaceVanishes { face },
            SolidFault::OpenEdge { .. } | SolidFault::NoVolume => {
                OffsetFault::FaceVanishes { face: 0 }
            }
        })
    })
}

/// The two faces beyond sides that meet; of several such pairs the one that looks most squarely at each
/// other.
fn meeting_faces(solid: &Solid, faults: &[SolidFault]) -> Option<OffsetFault> {
    let face_of_edge = solid.face_of_edge();
    let beyond = |(from, to)| face_of_edge.get(&(to, from)).copied();
    let pair = |fault: &SolidFault| match *fault {
        SolidFault::SidesMeet { first, second, .. } => Some((beyond(first)?, beyond(second)?)),
        _ => None,
    };
    let turned = |&(a, b): &(usize, usize)| {
        let normal = |face: usize| solid.faces[face].plane.normal;
        normal(a).dot(normal(b))
    };
    faults
        .iter()
        .filter_map(pair)
        .filter(|(face, other)| face != other)
        .min_by(|a, b| turned(a).total_cmp(&turned(b)))
        .map(|(face, other)| OffsetFault::FacesCross { face, other })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::boolean::difference;
    use crate::frame::Frame;
    use crate::polygon::Outline;
    use crate::testing::cube;
    use crate::vector::{Point2, Vec3};

    #[test]
    fn a_box_shrinks_by_each_wall() {
        let body = cube([0.0; 3], [0.964, 0.374, 0.350]);
        let cavity = offset_inward(&body, &[0.008; 6]).unwrap().solid;
        assert!((cavity.moments().volume - 0.948 * 0.358 * 0.334).abs() < 1e-15);
        let uneven = offset_inward(&body, &[0.01, 0.02, 0.03, 0.04, 0.05, 0.06])
            .unwrap()
            .solid;
        assert!((uneven.moments().volume - 0.934 * 0.304 * 0.24).abs() < 1e-15);
    }

    #[test]
    fn re_entrant_corners_move_out_of_the_notch() {
        // A box with a block bitten out of one corner: three re-entrant edges meet there.
        let body = difference(
            &cube([0.0; 3], [1.0, 1.0, 1.0]),
            &[&cube([0.6; 3], [2.0; 3])],
        )
        .unwrap();
        let cavity = offset_inward(&body, &vec![0.01; body.faces.len()])
            .unwrap()
            .solid;
        let want = 0.98f64.powi(3) - 0.4f64.powi(3);
        assert!((cavity.moments().volume - want).abs() < 1e-14);
    }

    #[test]
    fn a_pyramid_with_five_uneven_walls_opens_its_tip() {
        let base = Outline::round(Point2::new(0.0, 0.0), 0.5, 5);
        let n = base.0.len();
        let mut vertices: Vec<_> = base.0.iter().map(|p| Point3::new(p.x, p.y, 0.0)).collect();
        vertices.push(Point3::new(0.0, 0.0, 0.6));
        let mut faces = vec![Face {
            plane: Plane {
                normal: -Vec3::Z,
                offset: 0.0,
            },
            loops: vec![(0..n).rev().collect()],
        }];
        for i in 0..n {
            let j = (i + 1) % n;
            let normal = (vertices[j] - vertices[i]).cross(vertices[n] - vertices[i]);
            faces.push(Face {
                plane: Plane::through(vertices[i], normal).unwrap(),
                loops: vec![vec![i, j, n]],
            });
        }
        let body = Solid { vertices, faces };
        assert_eq!(body.faults(), []);
        let even = offset_inward(&body, &[0.01; 6]).unwrap();
        assert_eq!(even.vertices[n].len(), 1);
        let uneven = offset_inward(&body, &[0.01, 0.01, 0.02, 0.012, 0.008, 0.015]).unwrap();
        assert_eq!(uneven.vertices[n].len(), 3);
        assert_eq!(uneven.solid.faults(), []);
        // The convex case has a second way: clip the body by each moved plane.
        let mut clipped = body.clone();
        for face in &uneven.solid.faces {
            clipped = crate::boolean::clip(&clipped, &face.plane).unwrap();
        }
        assert!((clipped.moments().volume - uneven.solid.moments().volume).abs() < 1e-14);
    }

    #[test]
    fn a_strip_moved_to_nothing_is_refused_with_its_two_faces() {
        // A hole 20 mm from the side of a block, straight and turned to lie slantwise in space.
        let block = difference(
            &cube([0.0; 3], [1.0, 1.0, 0.5]),
            &[&cube([0.02, 0.3, -1.0], [0.5, 0.6, 1.0])],
        )
        .unwrap();
        let x = Vec3::new(2.0, 1.0, 2.0) / 3.0;
        let y = Vec3::new(-2.0, 2.0, 1.0) / 3.0;
        let slantwise = Frame {
            origin: Point3::new(0.1, 0.2, 0.3),
            x,
            y,
            z: x.cross(y),
        };
        for body in [block.moved(&slantwise), block] {
            let by = |distance: f64| offset_inward(&body, &vec![distance; body.faces.len()]);
            assert!(by(0.0099).is_ok());
            let two = |distance: f64| match by(distance) {
                Err(OffsetFault::FacesCross { face, other }) => {
                    (body.faces[face].plane, body.faces[other].plane)
                }
                other => panic!("{other:?}"),
            };
            let (a, b) = two(0.01);
            assert!((a.offset + b.offset - 0.02).abs() < 1e-12);
            assert!((a.normal + b.normal).length() < 1e-12);
            // Moved on, the ends of the hole stand out through the side.
            let (c, d) = two(0.0101);
            assert!([c, d].contains(&a) || [c, d].contains(&b));
        }
    }

    #[test]
    fn too_thick_is_refused_with_the_face() {
        let body = cube([0.0; 3], [1.0, 1.0, 0.01]);
        assert!(offset_inward(&body, &[0.006; 6]).is_err());
        let chamfered = Outline(
            [
                (0.0, 0.0),
                (1.0, 0.0),
                (1.0, 0.995),
                (0.995, 1.0),
                (0.0, 1.0),
            ]
            .map(|(x, y)| Point2::new(x, y))
            .to_vec(),
        );
        let body = Solid::prism(&chamfered, &Frame::WORLD, 0.0, 1.0);
        // Faces: bottom, top, then the sides in the order of the outline; the chamfer is side 2.
        assert_eq!(
            offset_inward(&body, &[0.012; 7]),
            Err(OffsetFault::FaceVanishes { face: 4 })
        );
    }
}
