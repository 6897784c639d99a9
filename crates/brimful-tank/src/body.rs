//! The body: the closed solid the tank's outside makes, with its faces named, and the space it
//! must stay in.

use crate::finding::{Finding, Grade, Quantity};
use crate::job::{DefaultUsed, Job, Space};
use crate::panel::Role;
use crate::shape::{ShapeFault, less, obstacle_solid, place_of, solid_of};
use brimful_geom::boolean::{common_volume, pieces, remaining_volume};
use brimful_geom::frame::Frame;
use brimful_geom::offset::{OffsetFault, offset_inward};
use brimful_geom::solid::Solid;
use brimful_geom::vector::{Point3, Vec3};
use brimful_units::{Length, Volume};
use std::collections::BTreeMap;

/// A volume below this is rounding, not plastic: a cube of a tenth of a millimetre.
const NO_VOLUME: f64 = 1e-12;

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
    /// Floor, lid, front, rear, left, right; from the second one on with a number.
    pub name: String,
    /// Floor, lid or wall.
    pub role: Role,
    /// Thickness of its sheet.
    pub thickness: Length,
}

/// The body of a job, the space it must stay in, and what was found.
pub fn body(job: &Job) -> Result<(Body, Vec<Finding>), Vec<ShapeFault>> {
    let room = job
        .space
        .as_ref()
        .map(Room::new)
        .transpose()
        .map_err(|fault| vec![fault])?;
    let solid = outside(job, room.as_ref()).map_err(|fault| vec![fault])?;
    let mut findings = Vec::new();
    if let (Some(room), Some(_)) = (&room, &job.body) {
        findings.extend(room.check(&[&solid], "body", "The body"));
    }
    if job.body.is_none() {
        findings.push(
            Finding::new(Grade::Note, "body", "No body is given, so it takes the whole space less the clearance, every facet of it. That it is the best body to build is not proven.")
                .cure("Give a simpler [body] and compare litres, panels and seams."),
        );
    }
    let mut faces = named(&solid);
    let defaults = set_thicknesses(job, &mut faces)?;
    let body = Body::new(solid, faces, defaults)
        .map_err(|(faces, fault)| vec![too_thick(job, &faces, &fault)])?;
    Ok((body, findings))
}

/// Ribs, by name, that leave the space of the job or what it keeps free of it.
///
/// # Errors
/// A space that cannot be made.
pub fn ribs_in_room(job: &Job, ribs: &[(&str, Solid)]) -> Result<Vec<Finding>, ShapeFault> {
    let (Some(space), false) = (&job.space, ribs.is_empty()) else {
        return Ok(Vec::new());
    };
    let room = Room::new(space)?;
    let leaves = |rib: &Solid| remaining_volume(rib, &[&room.allowed]).unwrap_or(f64::INFINITY);
    let out: Vec<&(&str, Solid)> = ribs
        .iter()
        .filter(|(_, rib)| leaves(rib) > NO_VOLUME)
        .collect();
    let names: Vec<&str> = out.iter().map(|(name, _)| *name).collect();
    let solids: Vec<&Solid> = out.iter().map(|(_, rib)| rib).collect();
    Ok(room.check(&solids, &names.join(", "), "The body with its ribs"))
}

impl Body {
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

/// The measured hole with what is kept free of it.
struct Room {
    /// The clear inside before obstacles are taken off.
    shell: Solid,
    /// The clear inside less obstacles.
    free: Solid,
    /// The free inside less the clearance all round.
    allowed: Solid,
}

impl Room {
    fn new(space: &Space) -> Result<Self, ShapeFault> {
        let place = place_of(&space.shape);
        let shell = solid_of(&space.shape)?;
        let mut obstacles = Vec::new();
        let mut grown = Vec::new();
        for obstacle in &space.obstacles {
            let solid = obstacle_solid(obstacle)?;
            if common_volume(&solid, &shell).unwrap_or(0.0) < NO_VOLUME {
                return Err(ShapeFault::new(
                    &obstacle.place,
                    format!("The obstacle `{}` lies outside the space.", obstacle.name),
                    "Check its corners against the origin of the space, or leave it out.",
                ));
            }
            let kept = |face: &brimful_geom::solid::Face| match role_of(face.plane.normal) {
                // What hangs over the tank leaves the room above it, as the top of the space does.
                Role::Floor => -space.clearance.max(space.keep_above).m(),
                _ => -space.clearance.m(),
            };
            let all_round: Vec<f64> = solid.faces.iter().map(kept).collect();
            let fat = offset_inward(&solid, &all_round).map_err(|fault| {
                ShapeFault::new(
                    &obstacle.place,
                    format!(
                        "No clearance can be kept round the obstacle `{}`: {fault}.",
                        obstacle.name
                    ),
                    "Draw it as several simpler obstacles.",
                )
            })?;
            obstacles.push(solid);
            grown.push(fat.solid);
        }
        let free = less(&shell, &obstacles, &place)?;
        let inner = offset_inward(&shell, &kept_off(space, &shell)).map_err(|_| no_room(&place))?;
        let allowed = less(&inner.solid, &grown, &place)?;
        if free.faces.is_empty() || allowed.faces.is_empty() {
            return Err(no_room(&place));
        }
        Ok(Self {
            shell,
            free,
            allowed,
        })
    }

    /// The body that takes all the room there is.
    fn whole_body(&self, space: &Space) -> Result<Solid, ShapeFault> {
        let place = place_of(&space.shape);
        let parts = pieces(&self.allowed).unwrap_or_default();
        match parts.len() {
            0 => Err(no_room(&place)),
            1 => Ok(self.allowed.clone()),
            n => Err(ShapeFault::new(
                &place,
                format!("The obstacles cut the space into {n} separate pieces."),
                "Give the [body] that is meant, in one of them.",
            )),
        }
    }

    /// What of `solids`, which a finding calls `about` and `what`, lies outside.
    fn check(&self, solids: &[&Solid], about: &str, what: &str) -> Vec<Finding> {
        let outside = |room: &Solid| {
            let part = |solid: &&Solid| remaining_volume(solid, &[room]).unwrap_or(f64::INFINITY);
            solids.iter().map(part).sum::<f64>()
        };
        let (out_of_free, out_of_allowed) = (outside(&self.free), outside(&self.allowed));
        let source = "the space and clearance of the job";
        if out_of_free > NO_VOLUME {
            let worst = self.furthest_out(solids);
            let by = worst.map_or(String::new(), |mm| {
                format!(" It reaches {mm:.1} mm past a side of the space.")
            });
            return vec![
                Finding::new(Grade::Stop, about, format!("{what} does not fit the space: part of it lies outside, or in an obstacle.{by}"))
                    .figures(Quantity::Volume(Volume::from_m3(out_of_free)), Quantity::Volume(Volume::ZERO))
                    .source(source)
                    .cure("Make the body smaller, move it with `at`, or cut the obstacle out of it with [[body.cut]]."),
            ];
        }
        if out_of_allowed > NO_VOLUME {
            return vec![
                Finding::new(Grade::Stop, about, format!("{what} fits the space, but not with the clearance and the room above that the job asks for."))
                    .figures(Quantity::Volume(Volume::from_m3(out_of_allowed)), Quantity::Volume(Volume::ZERO))
                    .source(source)
                    .cure("Make the body smaller, move it with `at`, or ask for less clearance."),
            ];
        }
        Vec::new()
    }

    /// How far they reach past a side of a convex space, mm.
    fn furthest_out(&self, solids: &[&Solid]) -> Option<f64> {
        let convex = self
            .shell
            .edges()
            .iter()
            .all(|edge| edge.angle < std::f64::consts::PI);
        let past = |face: &brimful_geom::solid::Face| {
            let vertices = solids.iter().flat_map(|solid| &solid.vertices);
            vertices
                .map(|&p| face.plane.distance(p))
                .fold(f64::NEG_INFINITY, f64::max)
        };
        let furthest = self
            .shell
            .faces
            .iter()
            .map(past)
            .fold(f64::NEG_INFINITY, f64::max);
        (convex && furthest > 0.0).then_some(furthest * 1e3)
    }
}

/// What is kept free at each face of the space: the clearance at the sides, the larger of
/// clearance and room above under the top, nothing at the bottom, where the tank stands.
fn kept_off(space: &Space, shell: &Solid) -> Vec<f64> {
    let at = |normal: Vec3| match role_of(normal) {
        Role::Floor => 0.0,
        Role::Lid => space.clearance.max(space.keep_above).m(),
        _ => space.clearance.m(),
    };
    shell
        .faces
        .iter()
        .map(|face| at(face.plane.normal))
        .collect()
}

fn no_room(place: &crate::job::Place) -> ShapeFault {
    ShapeFault::new(
        place,
        "Nothing of the space is left for a tank once obstacles, clearance and the room above are taken off.",
        "Check the obstacles' corners, or ask for less clearance.",
    )
}

fn outside(job: &Job, room: Option<&Room>) -> Result<Solid, ShapeFault> {
    let Some(spec) = &job.body else {
        let no_shape = || {
            ShapeFault::new(
                &crate::job::Place::default(),
                "The job gives neither a space nor a body.",
                "Give one of them.",
            )
        };
        let space = job.space.as_ref().ok_or_else(no_shape)?;
        return room.ok_or_else(no_shape)?.whole_body(space);
    };
    let place = place_of(&spec.shape);
    let mut cuts = Vec::new();
    let whole = solid_of(&spec.shape)?;
    for cut in &spec.cuts {
        let solid = obstacle_solid(cut)?;
        if common_volume(&solid, &whole).unwrap_or(0.0) < NO_VOLUME {
            return Err(ShapeFault::new(
                &cut.place,
                format!("The cut `{}` takes nothing off the body.", cut.name),
                "Check its corners against the body's own origin, or leave it out.",
            ));
        }
        cuts.push(solid);
    }
    let solid = less(&whole, &cuts, &place)?;
    match pieces(&solid).map(|parts| parts.len()) {
        Ok(1) => {}
        Ok(0) => {
            return Err(ShapeFault::new(
                &place,
                "The cuts leave nothing of the body.",
                "Make them smaller.",
            ));
        }
        Ok(n) => {
            return Err(ShapeFault::new(
                &place,
                format!("The body falls into {n} separate pieces."),
                "Write a job for each.",
            ));
        }
        Err(fault) => {
            return Err(ShapeFault::new(
                &place,
                format!("The body cannot be made: {fault}."),
                "Check the corners of its outlines.",
            ));
        }
    }
    if solid.shells() > 1 {
        return Err(ShapeFault::new(
            &place,
            "A cut leaves a closed hollow inside the body.",
            "Let the cut reach a side of the body, or leave it out.",
        ));
    }
    if let Some(fault) = solid.faults().first() {
        return Err(ShapeFault::new(
            &place,
            format!("The body is not a proper solid: {fault}."),
            "Check the corners of its outlines.",
        ));
    }
    let [x, y, z] = spec.at.map(Length::m);
    Ok(solid.moved(&Frame {
        origin: Point3::new(x, y, z),
        ..Frame::WORLD
    }))
}

/// What a face is, by where it looks: within 60 degrees of straight down it is a floor, of
/// straight up a lid, else a wall.
fn role_of(normal: Vec3) -> Role {
    const COSINE_OF_60: f64 = 0.5;
    if normal.z < -COSINE_OF_60 - ROUNDING {
        Role::Floor
    } else if normal.z > COSINE_OF_60 + ROUNDING {
        Role::Lid
    } else {
        Role::Wall
    }
}

/// Keeps a face at just 60 degrees from changing its name with the last bit of its normal.
const ROUNDING: f64 = 1e-9;

/// The plain name of a face, before numbers.
fn stem(normal: Vec3) -> &'static str {
    match role_of(normal) {
        Role::Floor => "floor",
        Role::Lid => "lid",
        _ if normal.x.abs() + ROUNDING >= normal.y.abs() => {
            if normal.x > 0.0 {
                "front"
            } else {
                "rear"
            }
        }
        _ if normal.y > 0.0 => "left",
        _ => "right",
    }
}

/// Names the faces: of those with the same plain name the one furthest out keeps it, the others
/// get numbers, from outside in.
fn named(solid: &Solid) -> Vec<BodyFace> {
    let mut alike: BTreeMap<&str, Vec<usize>> = BTreeMap::new();
    for (index, face) in solid.faces.iter().enumerate() {
        alike
            .entry(stem(face.plane.normal))
            .or_default()
            .push(index);
    }
    let mut names = vec![String::new(); solid.faces.len()];
    for (stem, mut faces) in alike {
        let way = match stem {
            "floor" => -Vec3::Z,
            "lid" => Vec3::Z,
            "front" => Vec3::X,
            "rear" => -Vec3::X,
            "left" => Vec3::Y,
            _ => -Vec3::Y,
        };
        let middle = |face: usize| {
            let ring = &solid.faces[face].loops[0];
            ring.iter()
                .fold(Vec3::ZERO, |sum, &v| sum + solid.vertices[v].to_vec())
                / ring.len() as f64
        };
        // Far out first; among equals from right to left and from the rear forward.
        let rounded = |v: f64| (v / ROUNDING).round() as i64;
        faces.sort_by_key(|&face| {
            let m = middle(face);
            (
                -rounded(m.dot(way)),
                rounded(m.y),
                rounded(m.x),
                rounded(m.z),
            )
        });
        for (place, &face) in faces.iter().enumerate() {
            names[face] = if place == 0 {
                stem.to_string()
            } else {
                format!("{stem} {}", place + 1)
            };
        }
    }
    let face = |(face, name): (&brimful_geom::solid::Face, String)| BodyFace {
        name,
        role: role_of(face.plane.normal),
        thickness: Length::ZERO,
    };
    solid.faces.iter().zip(names).map(face).collect()
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
        defaults.push(DefaultUsed {
            key: "body.thickness".into(),
            value_text: Quantity::Length(thickest).text(&job.about),
            reason: "the thickest sheet of the stock".into(),
            source: "common practice".into(),
        });
        thickest
    });
    faces.iter_mut().for_each(|face| face.thickness = thickness);
    let mut faults = Vec::new();
    let place = job
        .body
        .as_ref()
        .map(|body| place_of(&body.shape))
        .unwrap_or_default();
    for (name, &thickness) in job.body.iter().flat_map(|body| &body.thicknesses) {
        match faces.iter_mut().find(|face| face.name == *name) {
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
pub fn unknown_face(name: &str, faces: &[BodyFace], place: &crate::job::Place) -> ShapeFault {
    let names: Vec<&str> = faces.iter().map(|face| face.name.as_str()).collect();
    ShapeFault::new(
        place,
        format!("No panel of this body is called `{name}`."),
        format!("Its panels are: {}.", names.join(", ")),
    )
}

fn too_thick(job: &Job, faces: &[BodyFace], fault: &OffsetFault) -> ShapeFault {
    let place = job
        .body
        .as_ref()
        .map(|body| place_of(&body.shape))
        .or(job.space.as_ref().map(|space| place_of(&space.shape)));
    let place = place.unwrap_or_default();
    let thick = |face: usize| Quantity::Length(faces[face].thickness).text(&job.about);
    let says = match *fault {
        OffsetFault::FaceVanishes { face } => {
            format!(
                "Sheet of {} is thicker than the body allows: no room is left inside for the {}.",
                thick(face),
                faces[face].name
            )
        }
        OffsetFault::FacesCross { face, other } => {
            format!(
                "Sheet of {} is thicker than the body allows: the {} and the {} would meet inside.",
                thick(face),
                faces[face].name,
                faces[other].name
            )
        }
        OffsetFault::Corner { vertex } => {
            format!(
                "The panels round corner {} of the body cannot be laid out with sheet of {}.",
                vertex + 1,
                thick(0)
            )
        }
    };
    ShapeFault::new(
        &place,
        says,
        "Use thinner sheet, or leave out the narrow facet.",
    )
}
