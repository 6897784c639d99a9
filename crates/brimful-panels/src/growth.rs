//! How a tank grows by warmth, from the coldest to the warmest of liquid and workshop: it may be set
//! in its place at either end. It grows from the middle of its foot; what holds it elsewhere puts
//! more on one side.

use crate::table::material::Material;
use brimful_geom::solid::{Face, Solid};
use brimful_geom::vector::{Point3, Vec3};
use brimful_job::Job;
use brimful_units::{Length, Temperature};

/// How warm a workshop is (common practice).
pub const WELDED: Temperature = Temperature::from_degc(20.0);

/// The growth of all that is made of one sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Growth {
    /// Over the whole span, by the least and the greatest coefficient; none where no table has
    /// them.
    pub strain: Option<[f64; 2]>,
    /// The span, K.
    pub kelvin: f64,
}

impl Growth {
    /// Of a job's sheet over its temperatures.
    pub fn of(job: &Job) -> Self {
        let coldest = job.liquid.coldest.kelvin().min(WELDED.kelvin());
        let warmest = job.liquid.warmest.kelvin().max(WELDED.kelvin());
        let kelvin = warmest - coldest;
        let expansion = Material::of(&job.stock.material).and_then(Material::expansion);
        Self {
            strain: expansion
                .ok()
                .map(|expansion| expansion.value.map(|each| each * kelvin)),
            kelvin,
        }
    }

    /// How far a face of a tank moves along `way` at most, by the least and the greatest
    /// coefficient.
    pub fn outward(&self, tank: &Solid, face: &Face, way: Vec3) -> Option<[Length; 2]> {
        let from = middle_of_foot(tank);
        let corners = face.loops.iter().flatten().map(|&v| tank.vertices[v]);
        let reach = corners.map(|p| (p - from).dot(way)).fold(0.0, f64::max);
        let strain = self.strain?;
        Some(strain.map(|strain| Length::from_m(strain * reach)))
    }
}

/// What stays where it is.
fn middle_of_foot(tank: &Solid) -> Point3 {
    let (low, high) = tank.bounds();
    let middle = low.midpoint(high);
    Point3::new(middle.x, middle.y, low.z)
}
