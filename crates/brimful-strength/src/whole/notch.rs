//! Where the stress of a sheet is read next to a notch: a thickness away from it, whatever the mesh.
//!
//! At the end of a foot or an inside corner the stress of a thin plate has no bound. What is read at a fixed
//! distance has one and converges with the mesh: the point method of the theory of critical distances
//! (D. Taylor, *The Theory of Critical Distances*, 2007; from memory), with the thickness of the sheet as the
//! distance, since nearer than that it is no plate. Nodes nearer are passed over; a circle of places at just that
//! distance stands for them.

use super::midsurface::Midsurface;
use super::model::Model;
use super::place::MERGE;
use super::sample_point::{SamplePoint, near};
use brimful_geom::vector::{Point3, Vec3};
use std::f64::consts::TAU;

/// Places on a circle: every 15 degrees, between which stress at a notch changes by less than the mesh is off.
const PLACES: usize = 24;

/// A place a thickness away from a notch.
#[derive(Clone, Copy, Debug)]
pub struct NearNotch {
    /// The triangle that it is in, and where.
    pub sample: SamplePoint,
    /// The place.
    pub at: Point3,
}

/// The places about every notch, in each flat that has it, but those that are `inside_other`, by flat and
/// place: inside the sheet that the flat's own stands against.
pub fn near_notches(
    midsurface: &Midsurface,
    model: &Model,
    inside_other: &dyn Fn(usize, Point3) -> bool,
) -> Vec<NearNotch> {
    let mut places = Vec::new();
    for (flat, own) in midsurface.flats.iter().enumerate() {
        let frame = &own.frame;
        let is_in = |notch: Point3| (notch - frame.origin).dot(frame.z).abs() < MERGE;
        for notch in midsurface.notches.iter().filter(|it| is_in(it.at)) {
            let near = near(model, flat, [notch.at; 2], notch.thickness);
            for place in circle([frame.x, frame.y], notch.at, notch.thickness) {
                let sample = SamplePoint::at(model, &near, place);
                let sample = sample.filter(|_| !inside_other(flat, place));
                places.extend(sample.map(|sample| NearNotch { sample, at: place }));
            }
        }
    }
    places
}

fn circle([x, y]: [Vec3; 2], middle: Point3, radius: f64) -> impl Iterator<Item = Point3> {
    (0..PLACES).map(move |i| {
        let (sine, cosine) = (TAU * i as f64 / PLACES as f64).sin_cos();
        middle + x * (radius * cosine) + y * (radius * sine)
    })
}
