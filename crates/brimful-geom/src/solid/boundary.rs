//! Faces, edges and corners: the boundary of a solid.

use crate::frame::{Frame, Plane};
use crate::polygon::Outline;
use crate::vector::{Point2, Point3, Vec3};
use std::collections::BTreeMap;

/// How far a vertex may be from the plane of its face: a hundred-thousandth of the thinnest
/// sheet, and far above the rounding of coordinates of a few metres (about 1e-15 m).
pub const PLANAR_TOLERANCE: f64 = 1e-8;

/// A face of a solid: where it lies and which vertices bound it.
#[derive(Clone, Debug, PartialEq)]
pub struct Face {
    /// The plane of the face; its normal points out of the solid.
    pub plane: Plane,
    /// Vertex numbers: the outer loop first, then the holes.
    pub loops: Vec<Vec<usize>>,
}

/// A closed, oriented body with planar faces.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Solid {
    /// Corners, metres.
    pub vertices: Vec<Point3>,
    /// Faces, in an order that the operations keep where they can.
    pub faces: Vec<Face>,
}

/// An edge of a solid, seen from its first face.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Edge {
    /// Start, as the first face runs it (counter-clockwise from outside).
    pub from: usize,
    /// End.
    pub to: usize,
    /// The face that runs the edge from `from` to `to`.
    pub face: usize,
    /// The face on the other side, which runs it from `to` to `from`.
    pub twin: usize,
    /// Angle through the material between the two faces, radians; over pi is re-entrant.
    pub angle: f64,
}

impl Solid {
    /// A box between two opposite corners (`low` below `high` on every axis). Faces in the
    /// order x low, x high, y low, y high, z low, z high.
    pub fn cuboid(low: Point3, high: Point3) -> Self {
        let outline = Outline(vec![
            Point2::new(low.x, low.y),
            Point2::new(high.x, low.y),
            Point2::new(high.x, high.y),
            Point2::new(low.x, high.y),
        ]);
        let prism = Self::prism(&outline, &Frame::WORLD, low.z, high.z);
        // The prism lists bottom, top, then the walls from y low round.
        let order = [5, 3, 2, 4, 0, 1];
        Self {
            vertices: prism.vertices,
            faces: order.iter().map(|&i| prism.faces[i].clone()).collect(),
        }
    }

    /// A straight prism: `outline` (simple, either way round) in the x-y plane of `frame`, from
    /// height `low` to height `high` along the frame's normal. Faces: bottom, top, then one a side.
    pub fn prism(outline: &Outline, frame: &Frame, low: f64, high: f64) -> Self {
        let outline = outline.clone().counter_clockwise().0;
        let n = outline.len();
        let at = |p: &Point2, z: f64| frame.world_from_frame(Point3::new(p.x, p.y, z));
        let mut vertices: Vec<_> = outline.iter().map(|p| at(p, low)).collect();
        vertices.extend(outline.iter().map(|p| at(p, high)));
        let top = Plane {
            normal: frame.z,
            offset: frame.plane().offset + high,
        };
        let bottom = Plane {
            normal: -frame.z,
            offset: -(frame.plane().offset + low),
        };
        let mut faces = vec![
            Face {
                plane: bottom,
                loops: vec![(0..n).rev().collect()],
            },
            Face {
                plane: top,
                loops: vec![(n..2 * n).collect()],
            },
        ];
        for i in 0..n {
            let j = (i + 1) % n;
            let out = (outline[j] - outline[i]).right();
            let normal = frame.x * out.x + frame.y * out.y;
            // A simple outline has no side of no length, so the normal always exists.
            if let Some(plane) = Plane::through(vertices[i], normal) {
                faces.push(Face {
                    plane,
                    loops: vec![vec![i, j, n + j, n + i]],
                });
            }
        }
        Self { vertices, faces }
    }

    /// Whether no corner lies before any face.
    pub fn is_convex(&self) -> bool {
        // Rounding of coordinates of a few metres.
        const BEFORE: f64 = 1e-9;
        let behind = |face: &Face| {
            let mut corners = self.vertices.iter();
            corners.all(|&p| face.plane.distance(p) <= BEFORE)
        };
        self.faces.iter().all(behind)
    }

    /// Lowest and highest coordinates of the vertices.
    pub fn bounds(&self) -> (Point3, Point3) {
        let mut low = Point3::new(f64::INFINITY, f64::INFINITY, f64::INFINITY);
        let mut high = Point3::new(f64::NEG_INFINITY, f64::NEG_INFINITY, f64::NEG_INFINITY);
        for p in &self.vertices {
            low = Point3::new(low.x.min(p.x), low.y.min(p.y), low.z.min(p.z));
            high = Point3::new(high.x.max(p.x), high.y.max(p.y), high.z.max(p.z));
        }
        (low, high)
    }

    /// The directed edges of a face, all loops, as vertex pairs.
    pub fn face_edges(&self, face: usize) -> impl Iterator<Item = (usize, usize)> + '_ {
        self.faces[face].loops.iter().flat_map(|ring| {
            let n = ring.len();
            (0..n).map(move |i| (ring[i], ring[(i + 1) % n]))
        })
    }

    /// Which face runs each directed edge.
    pub fn face_of_edge(&self) -> BTreeMap<(usize, usize), usize> {
        (0..self.faces.len())
            .flat_map(|f| self.face_edges(f).map(move |edge| (edge, f)))
            .collect()
    }

    /// Every edge once, in the order in which the faces first name it.
    pub fn edges(&self) -> Vec<Edge> {
        let face_of_edge = self.face_of_edge();
        let mut edges = Vec::new();
        for face in 0..self.faces.len() {
            for (from, to) in self.face_edges(face) {
                if let Some(&twin) = face_of_edge.get(&(to, from))
                    && face < twin
                {
                    let angle = self.dihedral(face, twin, from, to);
                    edges.push(Edge {
                        from,
                        to,
                        face,
                        twin,
                        angle,
                    });
                }
            }
        }
        edges
    }

    /// Angle through the material at the edge that `face` runs `from` to `to`, radians in (0, 2 pi).
    fn dihedral(&self, face: usize, twin: usize, from: usize, to: usize) -> f64 {
        let along = (self.vertices[to] - self.vertices[from])
            .unit()
            .unwrap_or(Vec3::X);
        let (n, m) = (self.faces[face].plane.normal, self.faces[twin].plane.normal);
        // Turning from n to m about the edge: positive at a convex edge.
        let turn = n.cross(m).dot(along).atan2(n.dot(m));
        std::f64::consts::PI - turn
    }

    /// How many separate closed surfaces the solid has: one for a plain body, one more for each
    /// further piece and for each hollow inside.
    pub fn shells(&self) -> usize {
        let face_of_edge = self.face_of_edge();
        let mut seen = vec![false; self.faces.len()];
        let mut shells = 0;
        for first in 0..seen.len() {
            if seen[first] {
                continue;
            }
            shells += 1;
            seen[first] = true;
            let mut stack = vec![first];
            while let Some(face) = stack.pop() {
                for (from, to) in self.face_edges(face) {
                    if let Some(&next) = face_of_edge.get(&(to, from))
                        && !seen[next]
                    {
                        seen[next] = true;
                        stack.push(next);
                    }
                }
            }
        }
        shells
    }

    /// A frame in the plane of a face, upright as a person would look at it from outside.
    pub fn face_frame(&self, face: usize) -> Frame {
        let first = self.vertices[self.faces[face].loops[0][0]];
        Frame::upright(&self.faces[face].plane, first)
    }

    /// The loops of a face in the coordinates of `frame`.
    pub fn face_outlines(&self, face: usize, frame: &Frame) -> Vec<Outline> {
        let flat = |ring: &Vec<usize>| {
            Outline(
                ring.iter()
                    .map(|&v| frame.flat_from_world(self.vertices[v]))
                    .collect(),
            )
        };
        self.faces[face].loops.iter().map(flat).collect()
    }

    /// Area of a face, m2.
    pub fn face_area(&self, face: usize) -> f64 {
        let frame = self.face_frame(face);
        self.face_outlines(face, &frame)
            .iter()
            .map(Outline::signed_area)
            .sum()
    }

    /// Area of all faces, m2.
    pub fn area(&self) -> f64 {
        (0..self.faces.len()).map(|face| self.face_area(face)).sum()
    }

    /// The solid with every place put through `place`, which must be a rigid motion.
    pub fn moved(&self, place: &Frame) -> Self {
        let turn = |v: Vec3| place.x * v.x + place.y * v.y + place.z * v.z;
        let vertices = self
            .vertices
            .iter()
            .map(|&p| place.world_from_frame(p))
            .collect();
        let face = |face: &Face| {
            let normal = turn(face.plane.normal);
            let on_plane =
                place.world_from_frame(Point3::ORIGIN + face.plane.normal * face.plane.offset);
            Face {
                plane: Plane {
                    normal,
                    offset: normal.dot(on_plane.to_vec()),
                },
                loops: face.loops.clone(),
            }
        };
        Self {
            vertices,
            faces: self.faces.iter().map(face).collect(),
        }
    }

    /// The mirror image in the plane x = 0.
    pub fn mirrored(&self) -> Self {
        let vertices = self
            .vertices
            .iter()
            .map(|p| Point3::new(-p.x, p.y, p.z))
            .collect();
        let face = |face: &Face| {
            let n = face.plane.normal;
            let plane = Plane {
                normal: Vec3::new(-n.x, n.y, n.z),
                offset: face.plane.offset,
            };
            let loops = face
                .loops
                .iter()
                .map(|ring| ring.iter().rev().copied().collect())
                .collect();
            Face { plane, loops }
        };
        Self {
            vertices,
            faces: self.faces.iter().map(face).collect(),
        }
    }
}
