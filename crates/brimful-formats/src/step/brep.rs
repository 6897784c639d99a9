//! One solid: vertices, shared edges, faces.

use std::collections::BTreeMap;

use brimful_geom::vector::{Point3, Vec3};

use super::solid::{RoundHole, StepFace, StepSolid};
use super::writer::{Id, Writer, length, text};
use crate::error::FormatError;

/// How far the axis of a round hole may lean from the normals of its two faces, as a sine, and
/// by what share of its radius its circles may miss their planes. Sheet geometry is good to
/// about 1e-12; anything beyond this is a hole that would need an ellipse.
const LEAN: f64 = 1e-6;

/// Writes the solid and gives its `MANIFOLD_SOLID_BREP`.
pub(super) fn write(writer: &mut Writer, solid: &StepSolid) -> Result<Id, FormatError> {
    for face in &solid.faces {
        check_face(solid, face)?;
    }
    let mut brep = BrepWriter {
        writer,
        solid,
        corners: Vec::new(),
        edges: BTreeMap::new(),
    };
    for &vertex in &solid.vertices {
        let corner = brep.vertex(vertex)?;
        brep.corners.push(corner);
    }
    let mut inner_loops = vec![Vec::new(); solid.faces.len()];
    let mut faces = Vec::new();
    for hole in &solid.round_holes {
        faces.push(brep.round_hole(hole, &mut inner_loops)?);
    }
    for (face, circles) in solid.faces.iter().zip(&inner_loops) {
        faces.push(brep.face(face, circles)?);
    }
    brep.check_closed()?;
    let shell = brep
        .writer
        .add(format!("CLOSED_SHELL('',{})", list(&faces)));
    let name = text(&solid.name);
    Ok(writer.add(format!("MANIFOLD_SOLID_BREP({name},{shell})")))
}

fn check_face(solid: &StepSolid, face: &StepFace) -> Result<(), FormatError> {
    let bad = |what: &str| {
        Err(FormatError::BadReference {
            solid: solid.name.clone(),
            what: what.into(),
        })
    };
    if face.loops.is_empty() {
        return bad("a face has no outer loop");
    }
    if face.normal.unit().is_none() {
        return bad("a face has a normal without length");
    }
    for corners in &face.loops {
        if corners.len() < 3 {
            let place = format!("A face of solid {:?}", solid.name);
            return Err(FormatError::TooFewCorners {
                place,
                corners: corners.len(),
            });
        }
        if corners.iter().any(|&at| at >= solid.vertices.len()) {
            return bad("a face names a vertex that is not there");
        }
    }
    Ok(())
}

/// A written vertex.
#[derive(Clone, Copy)]
struct Corner {
    vertex: Id,
    point: Id,
}

/// A written edge, from the vertex with the lower position to the other.
struct Edge {
    curve: Id,
    /// How often loops have walked it forwards and backwards.
    walked: [usize; 2],
}

struct BrepWriter<'a> {
    writer: &'a mut Writer,
    solid: &'a StepSolid,
    corners: Vec<Corner>,
    edges: BTreeMap<(usize, usize), Edge>,
}

impl BrepWriter<'_> {
    fn place(&self) -> impl Fn() -> String + use<> {
        let name = self.solid.name.clone();
        move || format!("Solid {name:?}")
    }

    fn bad(&self, what: String) -> FormatError {
        FormatError::BadReference {
            solid: self.solid.name.clone(),
            what,
        }
    }

    fn vertex(&mut self, at: Point3) -> Result<Corner, FormatError> {
        let point = self.writer.point(at, self.place())?;
        let vertex = self.writer.add(format!("VERTEX_POINT('',{point})"));
        Ok(Corner { vertex, point })
    }

    fn face(&mut self, face: &StepFace, circles: &[Id]) -> Result<Id, FormatError> {
        let mut bounds = Vec::new();
        for (at, corners) in face.loops.iter().enumerate() {
            let walked = self.walk(corners)?;
            let kind = if at == 0 {
                "FACE_OUTER_BOUND"
            } else {
                "FACE_BOUND"
            };
            bounds.push(self.bound(kind, &walked));
        }
        bounds.extend(circles);
        let first = self.solid.vertices[face.loops[0][0]];
        let along = self.solid.vertices[face.loops[0][1]] - first;
        let normal = face.normal.unit().unwrap_or(Vec3::Z);
        let reference = along - normal * along.dot(normal);
        let placement = self
            .writer
            .placement(first, normal, reference, self.place())?;
        let plane = self.writer.add(format!("PLANE('',{placement})"));
        Ok(self
            .writer
            .add(format!("ADVANCED_FACE('',{},{plane},.T.)", list(&bounds))))
    }

    fn bound(&mut self, kind: &str, oriented_edges: &[Id]) -> Id {
        let edge_loop = self
            .writer
            .add(format!("EDGE_LOOP('',{})", list(oriented_edges)));
        self.writer.add(format!("{kind}('',{edge_loop},.T.)"))
    }

    /// The oriented edges of a loop of straight sides.
    fn walk(&mut self, corners: &[usize]) -> Result<Vec<Id>, FormatError> {
        let next = corners.iter().cycle().skip(1);
        corners
            .iter()
            .zip(next)
            .map(|(&from, &to)| self.side(from, to))
            .collect()
    }

    fn side(&mut self, from: usize, to: usize) -> Result<Id, FormatError> {
        let key = (from.min(to), from.max(to));
        if !self.edges.contains_key(&key) {
            let (start, end) = (self.corners[key.0], self.corners[key.1]);
            let curve = self.straight(
                start,
                end,
                self.solid.vertices[key.1] - self.solid.vertices[key.0],
            )?;
            self.edges.insert(
                key,
                Edge {
                    curve,
                    walked: [0, 0],
                },
            );
        }
        let backwards = from > to;
        let edge = self
            .edges
            .get_mut(&key)
            .expect("inserted above where it was missing");
        edge.walked[usize::from(backwards)] += 1;
        let curve = edge.curve;
        Ok(self.oriented(curve, !backwards))
    }

    fn straight(&mut self, start: Corner, end: Corner, way: Vec3) -> Result<Id, FormatError> {
        if way.unit().is_none() {
            return Err(self.bad("an edge has no length".into()));
        }
        let direction = self.writer.direction(way, self.place())?;
        let vector = self.writer.add(format!("VECTOR('',{direction},1.)"));
        let line = self
            .writer
            .add(format!("LINE('',{},{vector})", start.point));
        Ok(self.writer.add(format!(
            "EDGE_CURVE('',{},{},{line},.T.)",
            start.vertex, end.vertex
        )))
    }

    fn oriented(&mut self, curve: Id, forwards: bool) -> Id {
        let sense = if forwards { ".T." } else { ".F." };
        self.writer
            .add(format!("ORIENTED_EDGE('',*,*,{curve},{sense})"))
    }

    /// Writes the wall of a hole, and adds its two circles to the loops of its faces.
    ///
    /// Both circles run counterclockwise about the axis from start to end. Seen from outside
    /// the start face that is clockwise, as an inner loop must be; in the end face the circle
    /// is walked backwards. The wall has one seam, walked both ways, and its cylinder is turned
    /// outside in (`.F.`), since the material lies outside it.
    fn round_hole(
        &mut self,
        hole: &RoundHole,
        inner_loops: &mut [Vec<Id>],
    ) -> Result<Id, FormatError> {
        let axis = self.check_hole(hole)?;
        let side = if axis.x.abs() < 0.5 { Vec3::X } else { Vec3::Y };
        let reference = (side - axis * side.dot(axis)).unit().unwrap_or(Vec3::X);
        let radius = length(hole.radius, self.place())?;
        let start_corner = self.vertex(hole.start + reference * hole.radius)?;
        let end_corner = self.vertex(hole.end + reference * hole.radius)?;
        let start_placement = self
            .writer
            .placement(hole.start, axis, reference, self.place())?;
        let end_placement = self
            .writer
            .placement(hole.end, axis, reference, self.place())?;
        let start_circle = self.circle(start_placement, &radius, start_corner);
        let end_circle = self.circle(end_placement, &radius, end_corner);
        let seam = self.straight(start_corner, end_corner, hole.end - hole.start)?;

        for (face, circle, forwards) in [
            (hole.start_face, start_circle, true),
            (hole.end_face, end_circle, false),
        ] {
            let walked = self.oriented(circle, forwards);
            let bound = self.bound("FACE_BOUND", &[walked]);
            inner_loops[face].push(bound);
        }
        let wall = [
            self.oriented(start_circle, false),
            self.oriented(seam, true),
            self.oriented(end_circle, true),
            self.oriented(seam, false),
        ];
        let bound = self.bound("FACE_OUTER_BOUND", &wall);
        let cylinder = self.writer.add(format!(
            "CYLINDRICAL_SURFACE('',{start_placement},{radius})"
        ));
        Ok(self
            .writer
            .add(format!("ADVANCED_FACE('',({bound}),{cylinder},.F.)")))
    }

    fn circle(&mut self, placement: Id, radius: &str, corner: Corner) -> Id {
        let circle = self.writer.add(format!("CIRCLE('',{placement},{radius})"));
        self.writer.add(format!(
            "EDGE_CURVE('',{},{},{circle},.T.)",
            corner.vertex, corner.vertex
        ))
    }

    /// The unit axis of a hole that can be written.
    fn check_hole(&self, hole: &RoundHole) -> Result<Vec3, FormatError> {
        let has_radius = hole.radius > 0.0;
        if !has_radius {
            return Err(self.bad("a round hole has no radius".into()));
        }
        let Some(axis) = (hole.end - hole.start).unit() else {
            return Err(self.bad("a round hole has no depth".into()));
        };
        for (at, centre, outward) in [
            (hole.start_face, hole.start, -axis),
            (hole.end_face, hole.end, axis),
        ] {
            let Some(face) = self.solid.faces.get(at) else {
                return Err(self.bad(format!("a round hole names face {at}, which is not there")));
            };
            let normal = face.normal.unit().unwrap_or(Vec3::ZERO);
            let off = (centre - self.solid.vertices[face.loops[0][0]]).dot(normal);
            // Written so that a number that is not a number is refused as well.
            let straight = (normal - outward).length() <= LEAN && off.abs() <= LEAN * hole.radius;
            if !straight {
                return Err(self.bad(format!(
                    "a round hole does not meet face {at} squarely in its plane"
                )));
            }
        }
        Ok(axis)
    }

    fn check_closed(&self) -> Result<(), FormatError> {
        match self.edges.iter().find(|(_, edge)| edge.walked != [1, 1]) {
            Some((&edge, _)) => Err(FormatError::NotClosed {
                solid: self.solid.name.clone(),
                edge,
            }),
            None => Ok(()),
        }
    }
}

fn list(ids: &[Id]) -> String {
    let ids: Vec<String> = ids.iter().map(Id::to_string).collect();
    format!("({})", ids.join(","))
}
