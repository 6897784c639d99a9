//! Chocks: the walls that they stand against.

use crate::body::{Body, unknown_face};
use crate::panel::Role;
use crate::shape::{ShapeFault, ShapeFaultKind};
use brimful_job::Job;

/// A wall that leans by less than this (sine, a third of a degree) may stand against a chock: less than a
/// hundredth of what the chock takes lifts the tank or presses it down.
const UPRIGHT: f64 = 6e-3;

/// The faces of the body that stand against a chock, in the order of the job.
///
/// # Errors
/// Every name that is no upright wall, with its place.
pub fn chocked_faces(job: &Job, body: &Body) -> Result<Vec<usize>, Vec<ShapeFault>> {
    let Some(chocks) = &job.chocks else {
        return Ok(Vec::new());
    };
    let face_of = |name: &String| {
        let face = body.faces.iter().position(|face| face.name == **name);
        let face = face.ok_or_else(|| unknown_face(name, &body.faces, &chocks.place))?;
        let upright = body.solid.faces[face].plane.normal.z.abs() < UPRIGHT;
        match body.faces[face].role == Role::Wall && upright {
            true => Ok(face),
            false => {
                let kind = ShapeFaultKind::Chock(body.faces[face].name);
                Err(ShapeFault::new(&chocks.place, kind))
            }
        }
    };
    let (faces, faults): (Vec<_>, Vec<_>) =
        chocks.panels.iter().map(face_of).partition(Result::is_ok);
    match faults.is_empty() {
        true => Ok(faces.into_iter().flatten().collect()),
        false => Err(faults.into_iter().filter_map(Result::err).collect()),
    }
}
