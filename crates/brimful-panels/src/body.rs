//! The body: the closed solid the tank's outside makes, with its faces named, and the space it
//! must stay in.

use crate::candidate::with_room_to_grow;
use crate::finding::kind::{BodyKind, TankPart};
use crate::finding::{Finding, Grade, Part, Subject};
use crate::growth::Growth;
use crate::name::{FaceName, Side};
use crate::panel::Role;
use crate::progress::Unwatched;
use crate::shape::{BodyFault, ShapeFault, less, obstacle_solid, solid_of};
use crate::site::Site;
use crate::space::NO_VOLUME;
use brimful_geom::boolean::{common_volume, pieces};
use brimful_geom::frame::{Frame, Plane};
use brimful_geom::offset::{OffsetFault, offset_inward};
use brimful_geom::solid::{Face, Solid};
use brimful_geom::vector::{Point3, Vec3};
use brimful_job::{
    BodyShape, BodySpec, DefaultReason, DefaultSource, DefaultUsed, DefaultValue, Faceted, Job,
    Place,
};
use brimful_units::Length;

/// The outside of the tank.
#[derive(Clone, Debug, PartialEq)]
pub struct Body {
    /// The solid, in the axes of the space (or its own where there is none).
    pub solid: Solid,
    /// Name, role and sheet thickness of each face, in the order of the solid's faces.
    pub faces: Vec<BodyFace>,
    /// The cavity: the solid of liquid when brim-full, before inner panels are taken off. Its
    /// faces are in the order of the body's.
    pub cavity: Solid,
    /// What the body's stage chose by itself.
    pub defaults: Vec<DefaultUsed>,
}

/// What the trade calls a face of the body.
#[derive(Clone, Debug, PartialEq)]
pub struct BodyFace {
    /// Its side and number.
    pub name: FaceName,
    /// Floor, lid or wall.
    pub role: Role,
    /// Thickness of its sheet.
    pub thickness: Length,
}

/// The body of a job, and whether it stays in the space.
pub fn body(job: &Job, site: Option<&Site>) -> Result<(Body, Vec<Finding>), Vec<ShapeFault>> {
    let solid = outside(job, site).map_err(|fault| vec![fault])?;
    let subject = Subject::Part(Part::Body);
    let mut findings = Vec::new();
    if let (Some(site), Some(_)) = (site, &job.body) {
        findings.extend(site.room.check(&[&solid], &subject, TankPart::Body));
    }
    if job.body.is_none() {
        findings.push(Finding::of(Grade::Note, subject, BodyKind::WholeSpace));
    }
    let mut faces = named(&solid);
    let defaults = set_thicknesses(job, &mut faces)?;
    let body = Body::new(solid, faces, defaults)
        .map_err(|(faces, fault)| vec![too_thick(job, &faces, &fault)])?;
    Ok((body, findings))
}

impl Body {
    /// How high the lowest corner of a face lies, m: the tank stands there, and so does what stands against it.
    pub fn foot_of(&self, face: usize) -> f64 {
        let corners = self.solid.faces[face].loops.iter().flatten();
        let heights = corners.map(|&corner| self.solid.vertices[corner].z);
        heights.fold(f64::INFINITY, f64::min)
    }

    /// A body of a solid whose faces carry their thickness.
    fn new(
        solid: Solid,
        faces: Vec<BodyFace>,
        defaults: Vec<DefaultUsed>,
    ) -> Result<Self, (Vec<BodyFace>, OffsetFault)> {
        let distances: Vec<f64> = faces.iter().map(|face| face.thickness.m()).collect();
        match offset_inward(&solid, &distances) {
            Ok(cavity) => Ok(Self {
                solid,
                faces,
                cavity: cavity.solid,
                defaults,
            }),
            Err(fault) => Err((faces, fault)),
        }
    }

    /// The thickest sheet of its faces: that of inner panels and ribs that name none.
    pub fn thickest_sheet(&self) -> Length {
        let thicknesses = self.faces.iter().map(|face| face.thickness);
        thicknesses.fold(Length::ZERO, Length::max)
    }

    /// A body of any solid, all of one sheet.
    ///
    /// # Errors
    /// The face or corner where the sheet is too thick.
    pub fn of_solid(solid: Solid, thickness: Length) -> Result<Self, OffsetFault> {
        let mut faces = named(&solid);
        faces.iter_mut().for_each(|face| face.thickness = thickness);
        Self::new(solid, faces, Vec::new()).map_err(|(_, fault)| fault)
    }
}

fn outside(job: &Job, site: Option<&Site>) -> Result<Solid, ShapeFault> {
    let Some(spec) = &job.body else {
        let no_shape = || ShapeFault::new(&Place::default(), BodyFault::Missing);
        let Site { space, room, .. } = site.ok_or_else(no_shape)?;
        let whole = room.whole_body(space)?;
        let grown = with_room_to_grow(space, room, &Growth::of(job), &whole);
        // Where it cannot be made smaller the room kept stops it.
        return Ok(grown.map_or(whole, |(smaller, _)| smaller));
    };
    let place = spec.shape.place();
    let whole = match &spec.shape {
        BodyShape::Given(shape) => solid_of(shape)?,
        BodyShape::Faceted(faceted) => faceted_solid(faceted)?,
        BodyShape::Fitted { name, place } => return fitted(site, name, place),
    };
    let cuts = cuts_of(spec, &whole)?;
    let solid = less(&whole, &cuts, &place)?;
    let refused = |fault: BodyFault| Err(ShapeFault::new(&place, fault));
    match pieces(&solid).map(|parts| parts.len()) {
        Ok(1) => {}
        Ok(0) => return refused(BodyFault::NothingLeft),
        Ok(n) => return refused(BodyFault::InPieces(n)),
        Err(fault) => return refused(BodyFault::NotMade(fault)),
    }
    if solid.shells() > 1 {
        return refused(BodyFault::Hollow);
    }
    if let Some(fault) = solid.faults().into_iter().next() {
        return refused(BodyFault::NotProper(fault));
    }
    let [x, y, z] = spec.at.map(Length::m);
    Ok(solid.moved(&Frame {
        origin: Point3::new(x, y, z),
        ..Frame::WORLD
    }))
}

/// The body of that name among those offered for the space.
fn fitted(site: Option<&Site>, name: &str, place: &Place) -> Result<Solid, ShapeFault> {
    let nothing = || ShapeFault::new(place, BodyFault::NothingToFitTo);
    let bodies = site.ok_or_else(nothing)?.bodies(&Unwatched);
    let all = &bodies.candidates;
    match all.iter().find(|candidate| candidate.name == *name) {
        Some(candidate) => Ok(candidate.solid.clone()),
        None => Err(ShapeFault::new(
            place,
            BodyFault::NotOffered {
                name: name.to_owned(),
                offered: all.iter().map(|one| one.name.to_string()).collect(),
            },
        )),
    }
}

/// What is taken off the body, each of which must meet it.
fn cuts_of(spec: &BodySpec, whole: &Solid) -> Result<Vec<Solid>, ShapeFault> {
    let mut cuts = Vec::new();
    for cut in &spec.cuts {
        let solid = obstacle_solid(cut)?;
        if common_volume(&solid, whole).unwrap_or(0.0) < NO_VOLUME {
            return Err(ShapeFault::new(
                &cut.place,
                BodyFault::IdleCut(cut.name.clone()),
            ));
        }
        cuts.push(solid);
    }
    Ok(cuts)
}

/// The solid of corners and faces.
fn faceted_solid(faceted: &Faceted) -> Result<Solid, ShapeFault> {
    let corner = |at: &[Length; 3]| Point3::new(at[0].m(), at[1].m(), at[2].m());
    let vertices: Vec<Point3> = faceted.corners.iter().map(corner).collect();
    let mut faces = Vec::new();
    for (index, ring) in faceted.faces.iter().enumerate() {
        // Newell's sum: twice the area vector of the ring, whichever corners lie in line.
        let area = (0..ring.len()).fold(Vec3::ZERO, |sum, i| {
            let (a, b) = (vertices[ring[i]], vertices[ring[(i + 1) % ring.len()]]);
            sum + a.to_vec().cross(b.to_vec())
        });
        let plane = Plane::through(middle(&vertices, ring), area).ok_or_else(|| {
            ShapeFault::new(&faceted.place, BodyFault::FaceWithoutArea(index + 1))
        })?;
        faces.push(Face {
            plane,
            loops: vec![ring.clone()],
        });
    }
    let solid = Solid { vertices, faces };
    match solid.faults().into_iter().next() {
        None => Ok(solid),
        Some(fault) => Err(ShapeFault::new(
            &faceted.place,
            BodyFault::FacesNotProper(fault),
        )),
    }
}

fn middle(vertices: &[Point3], ring: &[usize]) -> Point3 {
    let sum = ring
        .iter()
        .fold(Vec3::ZERO, |sum, &v| sum + vertices[v].to_vec());
    Point3::ORIGIN + sum / ring.len() as f64
}

/// Two places nearer than this are one, when faces are put in order.
const ROUNDING: f64 = 1e-9;

/// The side that a face looks to.
fn side(normal: Vec3) -> Side {
    match Role::of(normal) {
        Role::Floor => Side::Floor,
        Role::Lid => Side::Lid,
        _ if normal.x.abs() + ROUNDING >= normal.y.abs() => {
            if normal.x > 0.0 {
                Side::Front
            } else {
                Side::Rear
            }
        }
        _ if normal.y > 0.0 => Side::Left,
        _ => Side::Right,
    }
}

/// Names the faces: those of one side are numbered from outside in.
fn named(solid: &Solid) -> Vec<BodyFace> {
    let sides: Vec<Side> = solid
        .faces
        .iter()
        .map(|face| side(face.plane.normal))
        .collect();
    let mut numbers = vec![0; sides.len()];
    for of_side in Side::ALL {
        let mut faces: Vec<usize> = (0..sides.len())
            .filter(|&face| sides[face] == of_side)
            .collect();
        let middle = |face: usize| middle(&solid.vertices, &solid.faces[face].loops[0]).to_vec();
        // Far out first; among equals from right to left and from the rear forward.
        let rounded = |v: f64| (v / ROUNDING).round() as i64;
        faces.sort_by_key(|&face| {
            let m = middle(face);
            (
                -rounded(m.dot(of_side.outward())),
                rounded(m.y),
                rounded(m.x),
                rounded(m.z),
            )
        });
        for (place, &face) in faces.iter().enumerate() {
            numbers[face] = place + 1;
        }
    }
    let names = sides.into_iter().zip(numbers);
    let faces = solid.faces.iter().zip(names);
    faces
        .map(|(face, (side, number))| BodyFace {
            name: FaceName { side, number },
            role: Role::of(face.plane.normal),
            thickness: Length::ZERO,
        })
        .collect()
}

fn set_thicknesses(job: &Job, faces: &mut [BodyFace]) -> Result<Vec<DefaultUsed>, Vec<ShapeFault>> {
    let mut defaults = Vec::new();
    let given = job.body.as_ref().and_then(|body| body.thickness);
    let thickness = given.unwrap_or_else(|| {
        let thickest = job
            .stock
            .sheets
            .iter()
            .map(|sheet| sheet.thickness)
            .fold(Length::ZERO, Length::max);
        defaults.push(DefaultUsed::new(
            "body.thickness",
            DefaultValue::Thickness(thickest),
            DefaultReason::ThickestSheet,
            DefaultSource::CommonPractice,
        ));
        thickest
    });
    faces.iter_mut().for_each(|face| face.thickness = thickness);
    let mut faults = Vec::new();
    let place = job.shape_place();
    for (name, &thickness) in job.body.iter().flat_map(|body| &body.thicknesses) {
        match faces.iter_mut().find(|face| face.name == **name) {
            Some(face) => face.thickness = thickness,
            None => faults.push(unknown_face(name, faces, &place)),
        }
    }
    if faults.is_empty() {
        Ok(defaults)
    } else {
        Err(faults)
    }
}

/// A name in the job that no face of the body has.
pub fn unknown_face(name: &str, faces: &[BodyFace], place: &Place) -> ShapeFault {
    ShapeFault::new(
        place,
        BodyFault::UnknownFace {
            name: name.to_owned(),
            faces: faces.iter().map(|face| face.name).collect(),
        },
    )
}

fn too_thick(job: &Job, faces: &[BodyFace], fault: &OffsetFault) -> ShapeFault {
    let fault = match *fault {
        OffsetFault::FaceVanishes { face } => BodyFault::NoRoomInside {
            thickness: faces[face].thickness,
            face: faces[face].name,
        },
        OffsetFault::FacesCross { face, other } => BodyFault::SheetsMeet {
            thickness: faces[face].thickness,
            faces: [face, other].map(|face| faces[face].name),
        },
        OffsetFault::Corner { vertex } => BodyFault::Corner {
            thickness: faces[0].thickness,
            corner: vertex + 1,
        },
    };
    ShapeFault::new(&job.shape_place(), fault)
}
