//! How a tank grows by warmth, from the coldest to the warmest of liquid and workshop: it may be set
//! in its place at either end. It grows from the middle of its foot, and from a wall that a chock holds while
//! none stands at the other end.

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
    /// coefficient, where `from` stays in its place.
    pub fn outward(
        &self,
        tank: &Solid,
        face: &Face,
        way: Vec3,
        from: Point3,
    ) -> Option<[Length; 2]> {
        let corners = face.loops.iter().flatten().map(|&v| tank.vertices[v]);
        let reach = corners.map(|p| (p - from).dot(way)).fold(0.0, f64::max);
        let strain = self.strain?;
        Some(strain.map(|strain| Length::from_m(strain * reach)))
    }
}

/// What stays where it is of a tank that nothing holds.
pub fn middle_of_foot(tank: &Solid) -> Point3 {
    let (low, high) = tank.bounds();
    let middle = low.midpoint(high);
    Point3::new(middle.x, middle.y, low.z)
}

/// Whether two faces look away from each other, to within eight degrees: what holds both holds the tank between them.
pub fn are_opposite(tank: &Solid, faces: [usize; 2]) -> bool {
    const COSINE: f64 = -0.99;
    let [one, other] = faces.map(|face| tank.faces[face].plane.normal);
    one.dot(other) < COSINE
}

/// What stays where it is with chocks against these faces: along each way that only one of two opposite
/// walls has a chock, that wall.
pub fn held_at(tank: &Solid, chocked: &[usize]) -> Point3 {
    let is_alone = |face: &&usize| {
        let mut others = chocked.iter();
        !others.any(|&other| are_opposite(tank, [**face, other]))
    };
    let plane = |face: usize| tank.faces[face].plane;
    let alone = chocked.iter().filter(is_alone);
    alone.fold(middle_of_foot(tank), |from, &face| {
        from - plane(face).normal * plane(face).distance(from)
    })
}
