//! Chocks: the walls that they stand against.

use crate::body::{Body, unknown_face};
use crate::panel::{Panel, Role};
use crate::seam::Seam;
use crate::shape::{ChockFault, ShapeFault, ShapeFaultKind};
use brimful_geom::plate::Plate;
use brimful_job::{Chocks, Job};
use brimful_units::Length;

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
    let face_of = |(number, name): (usize, &String)| {
        let face = body.faces.iter().position(|face| face.name == **name);
        let face = face.ok_or_else(|| unknown_face(name, &body.faces, &chocks.place))?;
        let upright = body.solid.faces[face].plane.normal.z.abs() < UPRIGHT;
        if body.faces[face].role != Role::Wall || !upright {
            return Err(fault(chocks, body, face, ChockFault::NotUpright));
        }
        match chocks.panels[..number].contains(name) {
            true => Err(fault(chocks, body, face, ChockFault::Twice)),
            false => Ok(face),
        }
    };
    let numbered = chocks.panels.iter().enumerate();
    let (faces, faults): (Vec<_>, Vec<_>) = numbered.map(face_of).partition(Result::is_ok);
    match faults.is_empty() {
        true => Ok(faces.into_iter().flatten().collect()),
        false => Err(faults.into_iter().filter_map(Result::err).collect()),
    }
}

/// Proves that nothing on the outside of a wall is in the way of its chock.
///
/// # Errors
/// Every flange or band that a chock meets.
pub fn clear_chocks(
    job: &Job,
    body: &Body,
    panels: &[Panel],
    seams: &[Seam],
) -> Result<(), Vec<ShapeFault>> {
    let Some(chocks) = &job.chocks else {
        return Ok(());
    };
    let mut faults = Vec::new();
    for face in chocked_faces(job, body)? {
        let foot = body.foot_of(face);
        let own = |panel: &&(usize, &Panel)| panel.1.face == Some(face);
        let walls: Vec<(usize, &Panel)> = panels.iter().enumerate().collect();
        for (number, wall) in walls.iter().filter(own) {
            let openings = openings(job, wall, foot).filter(|(_, free)| *free < chocks.height);
            faults.extend(openings.map(|(opening, free)| {
                let why = ChockFault::MeetsOpening { opening, free };
                fault(chocks, body, face, why)
            }));
            let bands = bands(panels, seams, *number).map(|band| {
                let free = Length::from_m(lowest(&band.finished) - foot);
                (band.name.clone(), free)
            });
            let bands = bands.filter(|(_, free)| *free < chocks.height);
            faults.extend(bands.map(|(band, free)| {
                fault(chocks, body, face, ChockFault::MeetsBand { band, free })
            }));
        }
    }
    match faults.is_empty() {
        true => Ok(()),
        false => Err(faults),
    }
}

/// The openings of a wall, each with how high over the foot the lower edge of its flange lies.
fn openings(job: &Job, wall: &Panel, foot: f64) -> impl Iterator<Item = (String, Length)> {
    wall.openings.iter().filter_map(move |own| {
        let opening = &job.openings[own.opening?];
        let middle = wall.finished.frame.world_from_flat(own.centre).z;
        let wide = opening.flange.unwrap_or(opening.size.largest());
        let free = Length::from_m(middle - foot) - wide / 2.0;
        Some((opening.name.clone(), free))
    })
}

/// The bands on a wall.
fn bands<'a>(panels: &'a [Panel], seams: &[Seam], wall: usize) -> impl Iterator<Item = &'a Panel> {
    let of = seams
        .iter()
        .map(|seam| seam.panels)
        .filter(move |pair| pair.contains(&wall));
    let others = of.flatten().filter(move |&panel| panel != wall);
    let bands = others.filter(|&panel| panels[panel].role == Role::Rib);
    bands.map(|panel| &panels[panel])
}

fn lowest(plate: &Plate) -> f64 {
    plate.solid().bounds().0.z
}

fn fault(chocks: &Chocks, body: &Body, face: usize, why: ChockFault) -> ShapeFault {
    let panel = body.faces[face].name;
    ShapeFault::new(&chocks.place, ShapeFaultKind::Chock { panel, why })
}
