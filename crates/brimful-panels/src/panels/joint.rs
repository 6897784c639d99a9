//! How two faces of the body meet: the joint, and the plane in which each panel ends.
//!
//! ```text
//!   through and butt        open corner            mitred
//!   ──────────────┐         ────────┐              ───────────╱
//!      f (through)│           f     │ groove         f      ╱ │
//!   ────────┬─────┤         ────────┼─────┐        ───────╱   │
//!           │  g  │                 │  g  │              │  g │
//! ```
//! At a re-entrant edge the same holds with inside and outside exchanged: the through panel ends
//! flush with the other's *inner* face, the butting one stands on its *outer* face, and the open
//! corner's groove is on the liquid side.

use crate::body::BodyFace;
use crate::panel::Role;
use crate::seam::Joint;
use crate::shape::{BodyFault, ShapeFault};
use brimful_geom::frame::Plane;
use brimful_geom::solid::{Edge, Solid};
use brimful_geom::vector::{Point3, Vec3};
use brimful_job::{BodySpec, JointKind};
use std::f64::consts::PI;

/// Faces that fold by less than this are mitred: the edge of a through panel would be bevelled
/// by 90 degrees less the fold, and saws tilt to 45 degrees (common practice).
const LEAST_FOLD_FOR_THROUGH: f64 = PI / 4.0;

/// An edge of the body between two sheets, with the lines that their planes draw.
pub struct Fold<'a> {
    body: &'a Solid,
    edge: Edge,
    /// A point on the edge itself, where the outside faces meet.
    outer: Point3,
    /// The point beside it where the inside faces meet.
    inner: Point3,
    along: Vec3,
    thickness: [f64; 2],
}

impl<'a> Fold<'a> {
    /// The fold at an edge; `None` where its faces are parallel.
    pub fn new(body: &'a Solid, faces: &[BodyFace], edge: Edge) -> Option<Self> {
        let (outer, end) = (body.vertices[edge.from], body.vertices[edge.to]);
        let along = (end - outer).unit()?;
        let thickness = [edge.face, edge.twin].map(|face| faces[face].thickness.m());
        let inside = |face: usize, t: f64| body.faces[face].plane.moved(-t);
        let square = Plane::through(outer, along)?;
        let inner = Plane::meet(
            &inside(edge.face, thickness[0]),
            &inside(edge.twin, thickness[1]),
            &square,
        )?;
        Some(Self {
            body,
            edge,
            outer,
            inner,
            along,
            thickness,
        })
    }

    fn is_re_entrant(&self) -> bool {
        self.edge.angle > PI
    }

    /// The plane in which the sheet of `face` ends at this edge, normal out of the sheet, the gap
    /// taken off.
    pub fn end_plane(&self, face: usize, joint: Joint, gap: f64) -> Option<Plane> {
        let first = face == self.edge.face;
        let (other, thickness) = if first {
            (self.edge.twin, self.thickness[1])
        } else {
            (self.edge.face, self.thickness[0])
        };
        let along = if first { self.along } else { -self.along };
        let out_of_face = along.cross(self.body.faces[face].plane.normal);
        let outside = self.body.faces[other].plane;
        let inside = outside.moved(-thickness);
        let plane = match joint {
            Joint::OpenCorner => {
                let root = if self.is_re_entrant() {
                    self.outer
                } else {
                    self.inner
                };
                Plane::through(root, out_of_face)?.moved(-gap / 2.0)
            }
            Joint::Mitred => {
                let plane = Plane::through(self.outer, self.along.cross(self.inner - self.outer))?;
                let plane = if plane.normal.dot(out_of_face) < 0.0 {
                    plane.flipped()
                } else {
                    plane
                };
                plane.moved(-gap / 2.0)
            }
            Joint::ThroughAndButt { through } => match (through == face, self.is_re_entrant()) {
                (true, false) => outside,
                (true, true) => inside.flipped(),
                (false, false) => inside.moved(-gap),
                (false, true) => outside.flipped().moved(-gap),
            },
            Joint::Tee | Joint::SlotThrough | Joint::Butt => return None,
        };
        Some(plane)
    }

    /// How far the inside line lies from the outside line.
    pub fn inner_shift(&self) -> Vec3 {
        self.inner - self.outer
    }
}

/// The joint at an edge: as the job asks, else by the default rule. Faces that fold sharply meet
/// through and butt, the others mitred; of two, lids and floors run through before walls, and
/// among walls the larger one. At a re-entrant edge it is the other way round: there the through
/// panel runs on *under* its neighbour, and would run into a third panel that stands between the
/// two in this order (the end of a T whose shoulder runs through and whose belly side butts).
pub fn joint(spec: Option<&BodySpec>, body: &Solid, faces: &[BodyFace], edge: &Edge) -> Joint {
    let pair = [edge.face, edge.twin];
    let chosen = spec.and_then(|spec| {
        spec.joints
            .iter()
            .find(|choice| names_pair(&choice.between, faces, pair))
    });
    let first_is_higher = rank(body, faces, pair[0]) >= rank(body, faces, pair[1]);
    let by_rule = if first_is_higher != (edge.angle > PI) {
        pair[0]
    } else {
        pair[1]
    };
    match chosen {
        Some(choice) => match choice.kind {
            JointKind::OpenCorner => Joint::OpenCorner,
            JointKind::Mitred => Joint::Mitred,
            JointKind::ThroughAndButt => {
                let named = choice
                    .through
                    .as_ref()
                    .and_then(|name| pair.into_iter().find(|&face| faces[face].name == **name));
                Joint::ThroughAndButt {
                    through: named.unwrap_or(by_rule),
                }
            }
        },
        None if (PI - edge.angle).abs() < LEAST_FOLD_FOR_THROUGH => Joint::Mitred,
        None => Joint::ThroughAndButt { through: by_rule },
    }
}

/// Joints in the job that name no edge of this body.
pub fn misplaced_choices(spec: &BodySpec, body: &Solid, faces: &[BodyFace]) -> Vec<ShapeFault> {
    let edges = body.edges();
    let mut faults = Vec::new();
    for choice in &spec.joints {
        for name in choice.between.iter().chain(&choice.through) {
            if !faces.iter().any(|face| face.name == **name) {
                faults.push(crate::body::unknown_face(name, faces, &choice.place));
            }
        }
        let meets = |edge: &Edge| names_pair(&choice.between, faces, [edge.face, edge.twin]);
        if faults.is_empty() && !edges.iter().any(meets) {
            let between = choice.between.clone();
            faults.push(ShapeFault::new(
                &choice.place,
                BodyFault::NoCommonEdge(between),
            ));
        }
    }
    faults
}

fn names_pair(between: &[String; 2], faces: &[BodyFace], pair: [usize; 2]) -> bool {
    let [one, other] = pair.map(|face| faces[face].name);
    let [a, b] = between.each_ref().map(String::as_str);
    (one == *a && other == *b) || (one == *b && other == *a)
}

/// Who runs through: lids and floors before walls, then by area to a square millimetre (so that
/// equal panels are told apart by their order and not by rounding), then the earlier face.
pub fn rank(
    body: &Solid,
    faces: &[BodyFace],
    face: usize,
) -> (bool, i64, std::cmp::Reverse<usize>) {
    let level = matches!(faces[face].role, Role::Lid | Role::Floor);
    (
        level,
        (body.face_area(face) * 1e6).round() as i64,
        std::cmp::Reverse(face),
    )
}
